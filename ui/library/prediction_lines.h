// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/recipe.h"

#include <QString>

#include <vector>

namespace bw {

/// A predicted number beside what the trials showed of it; an empty text: not known.
struct PredictionLine {
  QString name;
  QString predicted;
  QString proven;
  QString outside = {};  // that a measured value lies outside what was predicted; empty: none does
  bool operator==(const PredictionLine&) const = default;
};

/// The predicted numbers people ask for, with what was measured of the same; measured kinds that nothing was predicted of come last.
std::vector<PredictionLine> predictionLines(const RecipeVersion& version);

}  // namespace bw

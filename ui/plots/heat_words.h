// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <QString>

namespace bw {

// What the heat does against its limits: looked up in the results, and put into words.

/// Those that count before those that only warn; tightest first, and before all what nothing can meet.
std::vector<LimitResult> tightestFirst(std::vector<LimitResult> limits);

/// What the limit is held against over nine in ten such jobs: its own range, or that of the face whose number it is.
std::optional<Spread> spreadOf(const LimitResult& limit, const Assessment& assessment);

/// "135 to 175 °C, likely 150", or the single estimate.
QString predictedWords(const LimitResult& limit, const Assessment& assessment);

/// "limit 60 °C, some bear 90"; "limit 150 °C".
QString limitWords(const LimitResult& limit);

/// "met after 4.0 min"; empty where the plan stays below.
QString metWords(const LimitResult& limit);

/// "hand may stop 2.1 s", "not within the 60 s followed"; empty until a still hand was followed.
QString stopWords(const LimitResult& limit, const ThermalResult& thermal);

/// The three ways a sheet can lose its shape, each as a share of where trouble begins.
struct FlatnessTerm {
  QString words;
  QString tip;
};
std::vector<FlatnessTerm> flatnessTerms(const FlatnessTerms& flatness);

}  // namespace bw

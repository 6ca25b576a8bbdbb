// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/carried_recipe.h"
#include "ui/carry/forecaster.h"

#include <QStringList>

namespace bw {

/// One thing on the machine it was found on and on the other; an empty text: it is not there, or not known.
struct BesideLine {
  QString name;
  QString before;
  QString after;
  bool operator==(const BesideLine&) const = default;
};

/// "pulsed, 300 W, 1064 nm".
QString machineFacts(const Machine& machine);

/// What one of the two machines does not have at all, a sentence for each reason.
QStringList missingRegime(const std::vector<Carried>& carried);

/// All settings of the first step, as they are dialled on either machine.
std::vector<BesideLine> settingsBeside(const RecipeVersion& before, const RecipeVersion& after);

/// The predicted numbers people ask for, in one order; of each what is known of either.
std::vector<BesideLine> predictionsBeside(const Prediction& before, const Prediction& after);

/// One question of the verdict with its answer on either machine; nothing: not asked there, or not known yet.
struct VerdictBeside {
  QString question;
  std::optional<Status> before;
  std::optional<Status> after;
  QString message;  // of the other machine
};

std::vector<VerdictBeside> verdictsBeside(const Assessment* before, const Assessment* after);

}  // namespace bw

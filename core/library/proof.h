// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/recipe.h"

#include <string>
#include <vector>

namespace bw {

/// What a trial showed of its settings. Not known while nothing was seen and no reading says it.
enum class TrialOutcome { Cleared, Partly, Failed, Unfinished };

/// By what was seen and by the readings that say so (passes to clear; what is left of the film, bare below 2 um or a tenth of the film
/// before, as the removal is judged). Where both speak, the worse holds. Residue left is partly.
TrialOutcome outcomeOf(const Trial& trial);

/// "cleared", "partly cleared", "failed", "unfinished".
std::string inWords(TrialOutcome outcome);

/// The newest trial with the settings of one of the plan's steps, dated and signed by itself or by the judgement, was seen to clear.
bool isProven(const RecipeVersion& version);

/// A reading that lies outside what was predicted for it, its uncertainty counted in its favour.
struct OutsideRange {
  std::string key;  // of the prediction
  Reading reading;
  bool above = false;
};

/// Of a trial with the recipe's settings; times are left out, for a patch is not the part.
std::vector<OutsideRange> outsidePrediction(const RecipeVersion& version, const Trial& trial);

/// Why a recipe's proof no longer speaks for it, each reason a sentence; empty: it still does, or there is none. A proof goes stale when
/// the model is another version than the proof was made with; when a machine is no longer as it was then, in the recipe itself or in
/// `machinesNow` (the library's, looked up by id; its name and what it costs do not matter); and when no trial with the settings cleared.
std::vector<std::string> staleReasons(const RecipeVersion& version, const std::vector<Machine>& machinesNow,
                                      const std::string& modelVersion);

}  // namespace bw

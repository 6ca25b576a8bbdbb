// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/recipe.h"

#include <string>
#include <vector>

namespace bw {

/// Why a recipe's proof no longer speaks for it, each reason a sentence; empty: it still does, or there is none. A proof goes stale when
/// the model is another version than the proof was made with; when a machine is no longer as it was then, in the recipe itself or in
/// `machinesNow` (the library's, looked up by id; its name and what it costs do not matter); and when no trial was made with the settings.
std::vector<std::string> staleReasons(const RecipeVersion& version, const std::vector<Machine>& machinesNow,
                                      const std::string& modelVersion);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/recipe_search.h"
#include "core/values/project.h"

#include <string>
#include <vector>

namespace bw {

/// The work for which a recipe is wanted.
struct NearestQuery {
  Part part;
  Coat coat;
  std::optional<Machine> machine;  // nothing: any
  std::optional<std::string> optic;
  Library materials;  // where the part's metal and the coatings stand that neither library knows; usually the project's
  bool provenOnly = false;
  bool withdrawnToo = false;
  std::size_t most = 10;
};

/// The work of a plan: the project's part and coat, on the machine of the plan's first step. Without a name: the first plan; without a
/// plan, or one of that name: any machine.
NearestQuery nearestTo(const Project& project, const std::string& plan = {});

/// What one difference adds to the distance: 1 is one layer that is not there at all. The weights are a choice, no measurement; they stand
/// in recipe_distance.cpp.
struct DistancePart {
  std::string what;  // "metal", "plate", "layers" (which), "coat" (how thick they are), "machine", "spot", "finish"
  double distance = 0;
  std::string words;  // "stainless steel instead of mild steel"
};

struct NearRecipe {
  RecipeRow row;
  double distance = 0;              // 0: the same work
  std::vector<DistancePart> parts;  // greatest first, those of no distance left out; they sum up to the distance
};

}  // namespace bw

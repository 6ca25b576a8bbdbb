// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/carry_over.h"
#include "core/library/recipe.h"

namespace bw {

/// A recipe on another machine, and what of it was kept.
struct CarriedRecipe {
  RecipeVersion version;
  std::vector<Carried> carried;
};

/// The recipe with every step of its main machine carried over to another; steps on further machines stay. It is a new one, never saved
/// (number 0): no proof and no prediction come along, both held for the old machine only. Throws Unusable where the recipe does not hold
/// its main machine or the optic that a step names.
CarriedRecipe carriedTo(const RecipeVersion& version, const Machine& to);

}  // namespace bw

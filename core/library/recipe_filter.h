// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/recipe_facts.h"
#include "core/library/recipe_search.h"
#include "core/library/word_search.h"

namespace bw {

struct FilteredRecipes {
  std::vector<std::size_t> shown;  // indices into FactsTable::rows(), in the order of the list, `most` from `skip` on
  std::size_t total = 0;
  RecipeFacets facets;
};

/// Goes through the facts once: which recipes all facets let through, and how many each choice of one facet would leave. `words`: the
/// recipes that the text lets through, nothing meaning all.
FilteredRecipes filterRecipes(const FactsTable& facts, const RecipeQuery& query, const std::optional<RecipeSet>& words);

}  // namespace bw

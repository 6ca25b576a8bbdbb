// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/recipe_filter.h"

#include "core/library/recipe_json.h"

#include <algorithm>
#include <array>

namespace bw {
namespace {

using Row = FactsTable::Row;

/// Facets of which the choices are counted. A recipe that only one of them keeps out is counted in that one.
enum Facet : unsigned { SubstrateFacet = 1, CoatingFacet = 2, KindFacet = 4, FinishFacet = 8, StateFacet = 16 };

/// A set of terms as one truth a term; empty: all.
std::vector<char> chosenTerms(const FactsTable& facts, const std::vector<std::string>& ids) {
  std::vector<char> chosen;
  if (ids.empty()) return chosen;
  chosen.assign(facts.termCount(), 0);
  for (const std::string& id : ids) {
    if (const std::uint32_t term = facts.termNumber(id)) chosen[term] = 1;
  }
  return chosen;
}

bool within(float value, const std::optional<double>& from, const std::optional<double>& to) {
  constexpr double slack = 1e-6;  // facts are kept as single-precision numbers
  return (!from || double{value} >= *from * (1 - slack)) && (!to || double{value} <= *to * (1 + slack));
}

class Counter {
 public:
  Counter(const FactsTable& facts, const RecipeQuery& query)
      : m_facts(facts),
        m_query(query),
        m_substrates(chosenTerms(facts, query.substrates)),
        m_coatings(chosenTerms(facts, query.coatings)),
        m_substrateCounts(facts.termCount()),
        m_coatingCounts(facts.termCount()),
        m_lastCounted(facts.termCount(), static_cast<std::size_t>(-1)) {}

  /// Counts the recipe and tells whether it is let through.
  bool take(std::size_t index) {
    const Row& row = m_facts.rows()[index];
    if (!within(row.coat_m, m_query.coatFrom_m, m_query.coatTo_m) || !within(row.plate_m, m_query.plateFrom_m, m_query.plateTo_m))
      return false;
    const unsigned out = keptOutBy(row);
    const auto counts = [&](unsigned facet) { return (out & ~facet) == 0; };
    if (counts(SubstrateFacet)) ++m_substrateCounts[row.substrate];
    if (counts(CoatingFacet)) countCoatings(row, index);
    if (counts(KindFacet)) ++m_kinds[static_cast<std::size_t>(row.kind)];
    if (counts(FinishFacet)) ++m_finishes[static_cast<std::size_t>(row.finish)];
    if (counts(StateFacet)) ++m_states[static_cast<std::size_t>(row.state)];
    return out == 0;
  }

  RecipeFacets facets() const {
    RecipeFacets facets;
    facets.substrates = termCounts(m_substrateCounts);
    facets.coatings = termCounts(m_coatingCounts);
    facets.machineKinds = wordCounts(m_kinds, machineKinds);
    facets.finishes = wordCounts(m_finishes, finishes);
    facets.states = wordCounts(m_states, recipeStates);
    return facets;
  }

 private:
  unsigned keptOutBy(const Row& row) const {
    unsigned out = 0;
    if (!m_substrates.empty() && !m_substrates[row.substrate]) out |= SubstrateFacet;
    if (!m_coatings.empty() && !holdsChosenCoating(row)) out |= CoatingFacet;
    if (m_query.machineKind && *m_query.machineKind != row.kind) out |= KindFacet;
    if (m_query.finish && *m_query.finish != row.finish) out |= FinishFacet;
    if (m_query.provenOnly && row.state != RecipeState::Proven) out |= StateFacet;
    if (!m_query.withdrawnToo && row.state == RecipeState::Withdrawn) out |= StateFacet;
    return out;
  }
  bool holdsChosenCoating(const Row& row) const {
    const LayerFacts* layers = m_facts.layers(row);
    return std::any_of(layers, layers + row.layerCount, [&](const LayerFacts& layer) { return m_coatings[layer.coating] != 0; });
  }
  void countCoatings(const Row& row, std::size_t index) {
    const LayerFacts* layers = m_facts.layers(row);
    for (std::size_t i = 0; i < row.layerCount; ++i) {
      const std::uint32_t coating = layers[i].coating;
      if (m_lastCounted[coating] == index) continue;  // a recipe counts once, however many such layers it has
      m_lastCounted[coating] = index;
      ++m_coatingCounts[coating];
    }
  }
  std::vector<FacetCount> termCounts(const std::vector<std::size_t>& counts) const {
    std::vector<FacetCount> list;
    for (std::size_t term = 1; term < counts.size(); ++term) {
      if (counts[term] > 0) list.push_back({m_facts.term(static_cast<std::uint32_t>(term)), counts[term]});
    }
    return sorted(std::move(list));
  }
  template <std::size_t n, class E>
  static std::vector<FacetCount> wordCounts(const std::array<std::size_t, n>& counts, const Words<E>& words) {
    std::vector<FacetCount> list;
    for (const auto& [meaning, word] : words.words) {
      if (const std::size_t count = counts.at(static_cast<std::size_t>(meaning))) list.push_back({word, count});
    }
    return sorted(std::move(list));
  }
  static std::vector<FacetCount> sorted(std::vector<FacetCount> list) {
    std::ranges::sort(list,
                      [](const FacetCount& a, const FacetCount& b) { return a.count != b.count ? a.count > b.count : a.value < b.value; });
    return list;
  }

  const FactsTable& m_facts;
  const RecipeQuery& m_query;
  std::vector<char> m_substrates;
  std::vector<char> m_coatings;
  std::vector<std::size_t> m_substrateCounts;
  std::vector<std::size_t> m_coatingCounts;
  std::vector<std::size_t> m_lastCounted;
  std::array<std::size_t, 2> m_kinds{};
  std::array<std::size_t, 3> m_finishes{};
  std::array<std::size_t, 3> m_states{};
};

/// Proven, draft, withdrawn.
int rankOf(RecipeState state) { return state == RecipeState::Proven ? 0 : state == RecipeState::Draft ? 1 : 2; }

}  // namespace

FilteredRecipes filterRecipes(const FactsTable& facts, const RecipeQuery& query, const std::optional<RecipeSet>& words) {
  FilteredRecipes result;
  Counter counter(facts, query);
  std::vector<std::size_t> through;
  for (std::size_t i = 0; i < facts.rows().size(); ++i) {
    if ((!words || (*words)[i]) && counter.take(i)) through.push_back(i);
  }
  result.total = through.size();
  result.facets = counter.facets();
  const std::size_t from = std::min(query.skip, through.size()), to = from + std::min(query.most, through.size() - from);
  const auto before = [&](std::size_t a, std::size_t b) {
    const Row &first = facts.rows()[a], &second = facts.rows()[b];
    return first.state != second.state ? rankOf(first.state) < rankOf(second.state) : first.changed > second.changed;
  };
  std::partial_sort(through.begin(), through.begin() + static_cast<std::ptrdiff_t>(to), through.end(), before);
  result.shown.assign(through.begin() + static_cast<std::ptrdiff_t>(from), through.begin() + static_cast<std::ptrdiff_t>(to));
  return result;
}

}  // namespace bw

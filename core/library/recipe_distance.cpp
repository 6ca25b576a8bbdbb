// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/recipe_distance.h"

#include "core/library/recipe_json.h"
#include "core/text/text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <queue>

namespace bw {
namespace {

using Row = FactsTable::Row;

// Weights: a choice, no source. A layer that is missing is the unit.
constexpr double layerMissing = 1;
constexpr double otherCoating = 0.5;   // that leaves in the same way
constexpr double otherBehaviour = 1;   // as far as a missing layer: little can be learnt from it
constexpr double layerDoubled = 0.25;  // twice or half as thick
constexpr double otherMetal = 0.5;     // of the same family
constexpr double otherFamily = 2;
constexpr double plateDoubled = 0.5;
constexpr double otherKind = 1.5;  // pulsed instead of continuous
constexpr double spotDoubled = 0.5;
constexpr double finishStep = 0.5;
constexpr double nothing = 1e-6;     // facts are kept as single-precision numbers
constexpr double mostDoublings = 4;  // beyond that it is just another thickness

double doublings(double a, double b) {
  if (a <= 0 || b <= 0) return a > 0 || b > 0 ? mostDoublings : 0;
  return std::min(std::abs(std::log2(a / b)), mostDoublings);
}

double metalDistance(const FactsTable& facts, const Row& row, const Probe& probe) {
  if (facts.term(row.substrate) == probe.substrate) return 0;
  return row.family == probe.family && row.family != MetalFamily::Unknown ? otherMetal : otherFamily;
}

double kindDistance(const Row& row, const Probe& probe) { return probe.kind && *probe.kind != row.kind ? otherKind : 0; }
double plateDistance(const Row& row, const Probe& probe) { return plateDoubled * doublings(double{row.plate_m}, probe.plate_m); }
double spotDistance(const Row& row, const Probe& probe) {
  return probe.spot_m && row.spot_m > 0 ? spotDoubled * doublings(double{row.spot_m}, *probe.spot_m) : 0;
}
double finishDistance(const Row& row, const Probe& probe) {
  return finishStep * std::abs(static_cast<int>(row.finish) - static_cast<int>(probe.finish));
}

/// All but the layers.
double plainDistance(const FactsTable& facts, const Row& row, const Probe& probe) {
  return metalDistance(facts, row, probe) + kindDistance(row, probe) + plateDistance(row, probe) + spotDistance(row, probe) +
         finishDistance(row, probe);
}

/// The cheapest way to make one stack of layers out of another, top to bottom (an edit distance): layers are left out, added, or taken for
/// each other.
class StackDistance {
 public:
  explicit StackDistance(const Probe& probe) : m_probe(probe) {
    for (const Probe::Layer& layer : probe.layers) m_logs.push_back(logOf(layer.thickness_m));
  }

  double of(const LayerFacts* layers, std::size_t count) {
    const std::size_t wide = m_probe.layers.size() + 1;
    m_costs.resize((count + 1) * wide);
    for (std::size_t j = 0; j < wide; ++j) m_costs[j] = layerMissing * static_cast<double>(j);
    for (std::size_t i = 1; i <= count; ++i) {
      double* row = m_costs.data() + i * wide;
      const double* above = row - wide;
      const double log = logOf(double{layers[i - 1].thickness_m});
      row[0] = layerMissing * static_cast<double>(i);
      for (std::size_t j = 1; j < wide; ++j) {
        const double taken = above[j - 1] + kindCost(layers[i - 1], j - 1) + thicknessCost(log, j - 1);
        row[j] = std::min({taken, above[j] + layerMissing, row[j - 1] + layerMissing});
      }
    }
    return m_costs.back();
  }

  /// Pairs of layers after of(), top first: the recipe's and the probe's; none where one has no partner.
  using Pair = std::pair<std::optional<std::size_t>, std::optional<std::size_t>>;
  std::vector<Pair> pairs(const LayerFacts* layers, std::size_t count) const {
    const std::size_t wide = m_probe.layers.size() + 1;
    std::vector<Pair> pairs;
    for (std::size_t i = count, j = wide - 1; i > 0 || j > 0;) {
      const double here = m_costs[i * wide + j];
      const auto from = [&](std::size_t di, std::size_t dj, double cost) {
        return i >= di && j >= dj && std::abs(m_costs[(i - di) * wide + j - dj] + cost - here) < 1e-9;
      };
      if (i > 0 && j > 0 && from(1, 1, kindCost(layers[i - 1], j - 1) + thicknessCost(logOf(double{layers[i - 1].thickness_m}), j - 1))) {
        pairs.emplace_back(--i, --j);
      } else if (from(1, 0, layerMissing)) {
        pairs.emplace_back(--i, std::nullopt);
      } else {
        pairs.emplace_back(std::nullopt, --j);
      }
    }
    std::ranges::reverse(pairs);
    return pairs;
  }

  double kindCost(const LayerFacts& layer, std::size_t j) const {
    const Probe::Layer& wanted = m_probe.layers[j];
    if (layer.coating != 0 && layer.coating == wanted.term) return 0;
    return layer.behaviour == wanted.behaviour ? otherCoating : otherBehaviour;
  }
  double thicknessCost(double log, std::size_t j) const { return layerDoubled * std::min(std::abs(log - m_logs[j]), mostDoublings); }
  static double logOf(double thickness_m) { return std::log2(std::max(thickness_m, 1e-9)); }

 private:
  const Probe& m_probe;
  std::vector<double> m_logs;
  std::vector<double> m_costs;
};

std::string nameOfMetal(const std::string& id, const Library& materials) {
  const Substrate* metal = findSubstrate(materials, id);
  return metal ? metal->name : id;
}

std::string nameOfCoating(const std::string& id, const Library& materials) {
  const Coating* coating = findCoating(materials, id);
  return coating ? coating->name : id;
}

void append(std::string& text, const std::string& more) { text += (text.empty() ? "" : ", ") + more; }

void addLayers(const FactsTable& facts, const Row& row, const Probe& probe, const Library& materials, std::vector<DistancePart>& parts) {
  StackDistance stack(probe);
  const LayerFacts* layers = facts.layers(row);
  stack.of(layers, row.layerCount);
  DistancePart kinds{"layers", 0, ""}, thickness{"coat", 0, ""};
  for (const auto& [has, wanted] : stack.pairs(layers, row.layerCount)) {
    const std::string its = has ? nameOfCoating(facts.term(layers[*has].coating), materials) : "";
    const std::string ours = wanted ? nameOfCoating(probe.layers[*wanted].coating, materials) : "";
    if (!has || !wanted) {
      kinds.distance += layerMissing;
      append(kinds.words, has ? its + " besides" : "no " + ours);
      continue;
    }
    if (const double cost = stack.kindCost(layers[*has], *wanted); cost > 0) {
      kinds.distance += cost;
      append(kinds.words, its + " instead of " + ours);
    }
    const double its_m = double{layers[*has].thickness_m};
    if (const double cost = stack.thicknessCost(StackDistance::logOf(its_m), *wanted); cost > nothing) {
      thickness.distance += cost;
      append(thickness.words, its + " " + text::length(its_m) + " instead of " + text::length(probe.layers[*wanted].thickness_m));
    }
  }
  parts.push_back(kinds);
  parts.push_back(thickness);
}

bool wanted(const Row& row, const NearestQuery& query) {
  if (query.provenOnly) return row.state == RecipeState::Proven;
  return query.withdrawnToo || row.state != RecipeState::Withdrawn;
}

}  // namespace

Probe probeOf(const NearestQuery& query, const Library& materials, const FactsTable& facts) {
  Probe probe;
  probe.substrate = query.part.substrate;
  if (const Substrate* metal = findSubstrate(materials, probe.substrate)) probe.family = metal->family;
  probe.plate_m = query.part.thickness_m.likely;
  probe.finish = query.part.finish;
  for (const Layer& layer : query.coat) {
    probe.layers.push_back({layer.coating, facts.termNumber(layer.coating), layer.thickness_m.likely, layerBehaviour(layer, materials)});
    if (probe.layers.size() == mostLayers) break;
  }
  if (query.machine) {
    probe.kind = query.machine->kind;
    probe.spot_m = spotOf(*query.machine, query.optic);
  }
  return probe;
}

std::vector<NearIndex> nearestRecipes(const FactsTable& facts, const Probe& probe, const NearestQuery& query) {
  StackDistance stack(probe);
  const auto nearer = [&](const NearIndex& a, const NearIndex& b) {
    return a.distance != b.distance ? a.distance < b.distance : facts.rows()[a.index].changed > facts.rows()[b.index].changed;
  };
  std::priority_queue<NearIndex, std::vector<NearIndex>, decltype(nearer)> best(nearer);  // the farthest of the best on top
  for (std::size_t i = 0; i < facts.rows().size() && query.most > 0; ++i) {
    const Row& row = facts.rows()[i];
    if (!wanted(row, query)) continue;
    const double plain = plainDistance(facts, row, probe);
    const auto more = std::abs(static_cast<double>(row.layerCount) - static_cast<double>(probe.layers.size()));
    if (best.size() == query.most && plain + layerMissing * more > best.top().distance) continue;
    const NearIndex found{i, plain + stack.of(facts.layers(row), row.layerCount)};
    if (best.size() == query.most && !nearer(found, best.top())) continue;
    if (best.size() == query.most) best.pop();
    best.push(found);
  }
  std::vector<NearIndex> list;
  for (; !best.empty(); best.pop()) list.push_back(best.top());
  std::ranges::reverse(list);
  return list;
}

std::vector<DistancePart> distanceParts(const FactsTable& facts, const Row& row, const Probe& probe, const Library& materials) {
  const auto kindWord = [](MachineKind kind) { return kind == MachineKind::Pulsed ? "pulsed" : "continuous"; };
  std::vector<DistancePart> parts;
  parts.push_back({"metal", metalDistance(facts, row, probe),
                   nameOfMetal(facts.term(row.substrate), materials) + " instead of " + nameOfMetal(probe.substrate, materials)});
  parts.push_back(
      {"plate", plateDistance(row, probe), "metal of " + text::length(double{row.plate_m}) + " instead of " + text::length(probe.plate_m)});
  addLayers(facts, row, probe, materials, parts);
  if (probe.kind) {
    parts.push_back({"machine", kindDistance(row, probe), std::string(kindWord(row.kind)) + " instead of " + kindWord(*probe.kind)});
  }
  if (probe.spot_m) {
    parts.push_back(
        {"spot", spotDistance(row, probe), "spot of " + text::length(double{row.spot_m}) + " instead of " + text::length(*probe.spot_m)});
  }
  parts.push_back(
      {"finish", finishDistance(row, probe), "finish " + wordOf(finishes, row.finish) + " instead of " + wordOf(finishes, probe.finish)});
  std::erase_if(parts, [](const DistancePart& part) { return part.distance <= nothing; });
  std::ranges::stable_sort(parts, std::ranges::greater{}, &DistancePart::distance);
  return parts;
}

}  // namespace bw

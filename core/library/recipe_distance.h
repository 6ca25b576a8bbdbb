// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/recipe_facts.h"
#include "core/library/recipe_nearest.h"

namespace bw {

/// The work that recipes are held against, as facts. Terms the library does not know are 0 and equal none.
struct Probe {
  std::string substrate;  // id
  MetalFamily family = MetalFamily::Unknown;
  double plate_m = 0;
  struct Layer {
    std::string coating;  // id
    std::uint32_t term = 0;
    double thickness_m = 0;
    Behaviour behaviour = Behaviour::Decomposes;
  };
  std::vector<Layer> layers;
  std::optional<MachineKind> kind;
  std::optional<double> spot_m;
  Finish finish = Finish::LightEtch;
};

Probe probeOf(const NearestQuery& query, const Library& materials, const FactsTable& facts);

struct NearIndex {
  std::size_t index = 0;  // into FactsTable::rows()
  double distance = 0;
};

/// The nearest, nearest first; of equally near ones the last saved first. Exact: a recipe is passed over only where what is cheap to tell
/// already puts it too far.
std::vector<NearIndex> nearestRecipes(const FactsTable& facts, const Probe& probe, const NearestQuery& query);

/// What makes up the distance, in words; names of materials from `materials`.
std::vector<DistancePart> distanceParts(const FactsTable& facts, const FactsTable::Row& row, const Probe& probe, const Library& materials);

}  // namespace bw

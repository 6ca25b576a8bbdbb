// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/library_file.h"
#include "core/job/hazards.h"

namespace bw::test {

inline CoatedArea coated(double area_m2, const std::vector<std::string>& coatings) {
  CoatedArea area{area_m2, {}};
  for (const std::string& coating : coatings) {
    Layer layer;
    layer.name = coating;
    layer.coating = coating;
    layer.thickness_m = Range::exact(100e-6);
    area.coat.push_back(resolveLayer(layer, {}, shippedLibrary()));
  }
  return area;
}

inline Metal metalOf(const std::string& substrate) {
  Part part;
  part.substrate = substrate;
  return resolveMetal(part, {}, shippedLibrary());
}

/// Whether some sentence has all of these words.
inline bool says(const std::vector<Hazard>& list, const std::vector<std::string>& words) {
  for (const Hazard& hazard : list) {
    bool all = true;
    for (const std::string& word : words) all = all && hazard.text.find(word) != std::string::npos;
    if (all) return true;
  }
  return false;
}

}  // namespace bw::test

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/substance.h"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

namespace bw::test {

/// A library of made-up entries, so that these tests do not depend on the shipped one.
inline Library smallLibrary() {
  const auto property = [](double value) { return Property{Range::exact(value), "invented for tests", true}; };
  Library library;
  for (const char* id : {"alkyd-dark", "alkyd-white", "primer-red-oxide"}) {
    Coating coating;
    coating.id = id;
    coating.name = id;
    coating.absorptance = property(0.5);
    coating.opticalDepth_m = coating.typicalThickness_m = property(1e-5);
    coating.removalEnthalpy_J_m3 = property(3e9);
    coating.removalTemperature_C = property(350);
    coating.ejectionTime_s = property(1e-7);
    coating.conductivity_W_mK = property(0.3);
    coating.density_kg_m3 = property(1300);
    coating.specificHeat_J_kgK = property(1500);
    library.coatings.push_back(coating);
  }
  Substrate& steel = library.substrates.emplace_back();
  steel.id = steel.name = "mild-steel";
  steel.absorptance = steel.poissonRatio = property(0.3);
  steel.conductivity_W_mK = property(50);
  steel.density_kg_m3 = property(7850);
  steel.specificHeat_J_kgK = property(480);
  steel.melting_C = property(1500);
  steel.boiling_C = property(2860);
  steel.vaporisation_J_m3 = property(6e10);
  steel.expansion_1_K = property(12e-6);
  steel.youngsModulus_Pa = property(2.1e11);
  steel.yield_Pa = property(2.5e8);
  return library;
}

inline std::string textOf(const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// The example of the file format: the first version's sample, which every later version must read.
inline std::string sampleText() { return textOf(std::string(BAREWRIGHT_SOURCE_DIR) + "/tests/data/project_v1.bwright"); }

}  // namespace bw::test

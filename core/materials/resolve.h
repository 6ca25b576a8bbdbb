// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/project.h"

#include <optional>
#include <string>
#include <vector>

namespace bw {

/// Everything that is known about one layer: what it states for itself, else the project's library, else the shipped one.
struct LayerMaterial {
  std::string name;     // of the layer
  std::string coating;  // id
  Range thickness_m;
  bool keep = false;
  bool unknown = false;  // the coating stands for "don't know"
  Range absorptance;     // share that a film too thick to see through takes up, 0..1
  Range opticalDepth_m;  // 1/e, of that share
  Range removalEnthalpy_J_m3;
  Range removalTemperature_C;
  Range ejectionTime_s;
  Range conductivity_W_mK;
  Range density_kg_m3;
  Range specificHeat_J_kgK;
  Behaviour behaviour = Behaviour::Decomposes;
  Range residueShare;                   // 0 unless the layer softens
  Range absorptanceAfterHeating;        // equal to absorptance unless the layer scorches
  /// Of coming off as flakes each time a hit makes what lies beneath too hot. A guess, so that pale coats take several times the passes of
  /// dark ones (common practice, no source).
  Range liftChance{0.004, 0.02, 0.1};
  std::optional<Range> scattering_1_m;  // Kubelka-Munk S and K: both or neither
  std::optional<Range> absorption_1_m;
  std::map<std::string, Presence> components;
  std::optional<Property> melts_C;  // of a metal coating

  bool operator==(const LayerMaterial&) const = default;
};

/// Whether two layers differ in nothing but name, thickness and whether they stay.
bool isSameStuff(LayerMaterial a, const LayerMaterial& b);

/// Everything that is known about the metal of a part. Temperatures that become limits keep their source.
struct Metal {
  std::string id;
  std::string name;
  MetalFamily family = MetalFamily::Unknown;
  ThermalCurve conductivityCurve = ThermalCurve::Constant;  // Constant where the part states a number
  ThermalCurve specificHeatCurve = ThermalCurve::Constant;
  Range absorptance;                     // of the real surface, square to the beam
  std::optional<Range> refractiveIndex;  // both or neither
  std::optional<Range> extinctionCoefficient;
  Range conductivity_W_mK;  // at 20 degrees
  Range density_kg_m3;
  Range specificHeat_J_kgK;  // at 20 degrees
  Property melting_C;
  Range boiling_C;
  Range vaporisation_J_m3;
  Range expansion_1_K;
  Range youngsModulus_Pa;
  Range poissonRatio;
  Range yield_Pa;
  std::optional<Property> tint_C;
  std::optional<Property> hardening_C;
  std::optional<Property> temper_C;
  std::optional<Property> platingMelts_C;
  std::optional<Property> partBoils_C;
};

/// Throws Unusable where neither library has the coating or substrate.
LayerMaterial resolveLayer(const Layer& layer, const Library& project, const Library& shipped);
std::vector<LayerMaterial> resolveCoat(const Coat& coat, const Library& project, const Library& shipped);
Metal resolveMetal(const Part& part, const Library& project, const Library& shipped);

}  // namespace bw

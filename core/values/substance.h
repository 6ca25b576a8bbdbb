// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/coat.h"

namespace bw {

/// One property of a library entry: its range and where it was read. `estimate` marks a value nobody measured or published.
struct Property {
  Range range;
  std::string source;
  bool estimate = false;
  Extras extras = {};
  bool operator==(const Property&) const = default;
};

/// A material of which layers are made.
struct Coating {
  std::string id;
  std::string name;  // as the shop says it
  std::string note;
  std::string colour = "#808080";  // of the drawing, #rrggbb
  bool unknown = false;            // stands for "don't know"
  Property absorptance;            // at 1064 nm, 0..1
  Property opticalDepth_m;
  Property removalEnthalpy_J_m3;
  Property removalTemperature_C;
  Property ejectionTime_s;
  Property conductivity_W_mK;
  Property density_kg_m3;
  Property specificHeat_J_kgK;
  Property typicalThickness_m;
  std::optional<Property> melts_C;  // of a metal coating: the limit where it must stay
  Behaviour behaviour = Behaviour::Decomposes;
  std::optional<Property> residueShare;
  std::optional<Property> absorptanceAfterHeating;
  std::optional<Property> scattering_1_m;  // Kubelka-Munk S of pale and clear coats
  std::optional<Property> absorption_1_m;  // Kubelka-Munk K
  std::map<std::string, Presence> components;
  Extras extras;
  bool operator==(const Coating&) const = default;
};

/// Curves of conductivity and specific heat against temperature; see materials/curves.h.
enum class ThermalCurve { Constant, CarbonSteel, StainlessSteel, Aluminium3xxx6xxx, Aluminium5xxx7xxx };

/// What a metal's dust is, for filters and fires.
enum class MetalFamily { Unknown, Iron, Aluminium, Copper, Titanium, Magnesium };

/// A metal of which parts are made.
struct Substrate {
  std::string id;
  std::string name;
  std::string note;
  MetalFamily family = MetalFamily::Unknown;
  ThermalCurve curve = ThermalCurve::Constant;
  Property absorptance;  // of the cleaned, real surface at 1064 nm, 0..1
  std::optional<Property> refractiveIndex;      // n of the polished metal at 1064 nm
  std::optional<Property> extinctionCoefficient;  // k of the polished metal at 1064 nm
  Property conductivity_W_mK;  // at room temperature
  Property density_kg_m3;
  Property specificHeat_J_kgK;
  Property melting_C;
  Property boiling_C;
  Property vaporisation_J_m3;  // energy to heat and boil a volume away
  Property expansion_1_K;
  Property youngsModulus_Pa;
  Property poissonRatio;
  Property yield_Pa;
  std::optional<Property> tint_C;       // first straw after ten minutes
  std::optional<Property> hardening_C;  // near heat above which it hardens
  std::optional<Property> temper_C;     // where strength or temper is lost
  std::optional<Property> platingMelts_C;  // zinc on galvanised steel
  std::optional<Property> partBoils_C;     // where a part of the alloy boils out, zinc of brass
  Extras extras;
  bool operator==(const Substrate&) const = default;
};

/// Substrates and coatings by id, in the order they are offered.
struct Library {
  std::vector<Substrate> substrates;
  std::vector<Coating> coatings;
  Extras extras = {};
  bool operator==(const Library&) const = default;
};

const Coating* findCoating(const Library& library, const std::string& id);
const Substrate* findSubstrate(const Library& library, const std::string& id);

}  // namespace bw

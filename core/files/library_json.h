// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// How coatings and substrates stand in a file: the shipped library's and a project's own `library`. See part_json.h.
// A property is {"value": number or [low, likely, high], "source": text, "estimate": true where nobody measured or published it}.

#include "core/files/json_io.h"
#include "core/files/part_json.h"
#include "core/files/units.h"
#include "core/values/substance.h"

namespace bw {

inline const Words<ThermalCurve> thermalCurves{"a thermal curve",
                                               {{ThermalCurve::Constant, "constant"},
                                                {ThermalCurve::CarbonSteel, "carbon-steel"},
                                                {ThermalCurve::StainlessSteel, "stainless-steel"},
                                                {ThermalCurve::Aluminium3xxx6xxx, "aluminium-3xxx-6xxx"},
                                                {ThermalCurve::Aluminium5xxx7xxx, "aluminium-5xxx-7xxx"}}};

inline constexpr Quantity ejectionTime{"an ejection time", units::us, 0, 1e6};
inline constexpr Quantity perDepth{"a coefficient", units::perMm, 0, 1e6};
inline constexpr Quantity opticalConstant{"an optical constant", units::none, 0, 1000};
inline constexpr Quantity vaporisation{"a heat of vaporisation", units::J_mm3, 0, 1000, Bound::Above};
inline constexpr Quantity expansion{"an expansion", units::perMillionK, 0, 1000};
inline constexpr Quantity youngsModulus{"a modulus", units::GPa, 0, 2000, Bound::Above};
inline constexpr Quantity poissonRatio{"a Poisson's ratio", units::none, 0, 0.5};
inline constexpr Quantity yieldStrength{"a yield strength", units::MPa, 0, 10000, Bound::Above};

template <class Io>
void describe(Io& io, Property& property, const Quantity& quantity) {
  io.must("value", property.range, quantity);
  io.usual("source", property.source);
  io.may("estimate", property.estimate);
}

template <class Io>
void describe(Io& io, Coating& coating) {
  io.must("id", coating.id, idText);
  io.must("name", coating.name, nameText);
  io.may("note", coating.note);
  io.usual("colour", coating.colour, shortText);
  io.may("unknown", coating.unknown);
  io.must("absorptance", coating.absorptance, share);
  io.must("optical_depth_um", coating.opticalDepth_m, opticalDepth);
  io.must("removal_enthalpy_J_mm3", coating.removalEnthalpy_J_m3, removalEnthalpy);
  io.must("removal_temperature_C", coating.removalTemperature_C, temperature);
  io.must("ejection_time_us", coating.ejectionTime_s, ejectionTime);
  io.must("conductivity_W_mK", coating.conductivity_W_mK, conductivity);
  io.must("density_kg_m3", coating.density_kg_m3, density);
  io.must("specific_heat_J_kgK", coating.specificHeat_J_kgK, specificHeat);
  io.must("typical_thickness_um", coating.typicalThickness_m, coatThickness);
  io.usual("behaviour", coating.behaviour, behaviours);
  io.may("residue_share", coating.residueShare, share);
  io.may("absorptance_after_heating", coating.absorptanceAfterHeating, share);
  io.may("scattering_1_mm", coating.scattering_1_m, perDepth);
  io.may("absorption_1_mm", coating.absorption_1_m, perDepth);
  io.may("components", coating.components, presences);
  io.rest(coating.extras);
}

template <class Io>
void describe(Io& io, Substrate& substrate) {
  io.must("id", substrate.id, idText);
  io.must("name", substrate.name, nameText);
  io.may("note", substrate.note);
  io.usual("curve", substrate.curve, thermalCurves);
  io.must("absorptance", substrate.absorptance, share);
  io.may("refractive_index", substrate.refractiveIndex, opticalConstant);
  io.may("extinction_coefficient", substrate.extinctionCoefficient, opticalConstant);
  io.must("conductivity_W_mK", substrate.conductivity_W_mK, conductivity);
  io.must("density_kg_m3", substrate.density_kg_m3, density);
  io.must("specific_heat_J_kgK", substrate.specificHeat_J_kgK, specificHeat);
  io.must("melting_C", substrate.melting_C, temperature);
  io.must("boiling_C", substrate.boiling_C, temperature);
  io.must("vaporisation_J_mm3", substrate.vaporisation_J_m3, vaporisation);
  io.must("expansion_1e-6_K", substrate.expansion_1_K, expansion);
  io.must("youngs_modulus_GPa", substrate.youngsModulus_Pa, youngsModulus);
  io.must("poisson_ratio", substrate.poissonRatio, poissonRatio);
  io.must("yield_MPa", substrate.yield_Pa, yieldStrength);
  io.may("tint_C", substrate.tint_C, temperature);
  io.may("hardening_C", substrate.hardening_C, temperature);
  io.may("temper_C", substrate.temper_C, temperature);
  io.may("plating_melts_C", substrate.platingMelts_C, temperature);
  io.rest(substrate.extras);
}

template <class Io>
void describe(Io& io, Library& library) {
  io.may("substrates", library.substrates);
  io.may("coatings", library.coatings);
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// How coatings and substrates stand in a file, the shipped library's and a project's alike: each property with its range, where it was
// read, and whether it is an estimate. Bounds catch a slipped decimal point or unit. See json_io.h for the verbs.

#include "core/files/part_json.h"
#include "core/values/substance.h"

namespace bw {

inline constexpr const char* libraryFormat = "barewright-library";
inline constexpr int libraryVersion = 1;

inline const Words<ThermalCurve> thermalCurves{"a curve",
                                               {{ThermalCurve::Constant, "constant"},
                                                {ThermalCurve::CarbonSteel, "carbon-steel"},
                                                {ThermalCurve::StainlessSteel, "stainless-steel"},
                                                {ThermalCurve::Aluminium3xxx6xxx, "aluminium-3xxx-6xxx"},
                                                {ThermalCurve::Aluminium5xxx7xxx, "aluminium-5xxx-7xxx"}}};
inline const Words<MetalFamily> metalFamilies{"a family of metals",
                                              {{MetalFamily::Unknown, "unknown"},
                                               {MetalFamily::Iron, "iron"},
                                               {MetalFamily::Aluminium, "aluminium"},
                                               {MetalFamily::Copper, "copper"},
                                               {MetalFamily::Titanium, "titanium"},
                                               {MetalFamily::Magnesium, "magnesium"}}};

inline constexpr Text sourceText{"a source", 1, 1000};

inline constexpr FileQuantity ejectionTime{"an ejection time", units::ns, 0, 1e6, Bound::Above};
inline constexpr FileQuantity filmCoefficientOfLight{"a coefficient of a film", units::perMm, 0, 1e4};
inline constexpr FileQuantity refractive{"an index", units::none, 0, 100};
inline constexpr FileQuantity vaporisation{"an energy", units::J_mm3, 0, 1000, Bound::Above};
inline constexpr FileQuantity expansion{"an expansion", units::perMillionK, 0, 100, Bound::Above};
inline constexpr FileQuantity modulus{"a modulus", units::GPa, 0, 1000, Bound::Above};
inline constexpr FileQuantity poisson{"a ratio", units::none, 0, 0.5};
inline constexpr FileQuantity strength{"a strength", units::MPa, 0, 5000, Bound::Above};

template <class Io>
void describe(Io& io, Property& property, const FileQuantity& quantity) {
  io.must("value", property.range, quantity);
  io.must("source", property.source, sourceText);
  io.may("estimate", property.estimate);
  io.rest(property.extras);
}

template <class Io>
void describe(Io& io, Coating& coating) {
  io.must("id", coating.id, idText);
  io.must("name", coating.name, nameText);
  io.may("note", coating.note);
  io.usual("colour", coating.colour, shortText);
  io.may("unknown", coating.unknown);
  io.usual("behaviour", coating.behaviour, behaviours);
  io.may("components", coating.components, presences);
  io.must("absorptance", coating.absorptance, anyShare);
  io.must("optical_depth_um", coating.opticalDepth_m, opticalDepth);
  io.must("removal_enthalpy_J_mm3", coating.removalEnthalpy_J_m3, removalEnthalpy);
  io.must("removal_temperature_C", coating.removalTemperature_C, anyTemperature);
  io.must("ejection_time_ns", coating.ejectionTime_s, ejectionTime);
  io.must("conductivity_W_mK", coating.conductivity_W_mK, conductivity);
  io.must("density_kg_m3", coating.density_kg_m3, density);
  io.must("specific_heat_J_kgK", coating.specificHeat_J_kgK, specificHeat);
  io.must("typical_thickness_um", coating.typicalThickness_m, coatThickness);
  io.may("residue_share", coating.residueShare, anyShare);
  io.may("absorptance_after_heating", coating.absorptanceAfterHeating, anyShare);
  io.may("scattering_1_mm", coating.scattering_1_m, filmCoefficientOfLight);
  io.may("absorption_1_mm", coating.absorption_1_m, filmCoefficientOfLight);
  io.may("melts_C", coating.melts_C, anyTemperature);
  io.rest(coating.extras);
}

template <class Io>
void describe(Io& io, Substrate& substrate) {
  io.must("id", substrate.id, idText);
  io.must("name", substrate.name, nameText);
  io.may("note", substrate.note);
  io.usual("family", substrate.family, metalFamilies);
  io.usual("curve", substrate.curve, thermalCurves);
  io.must("absorptance", substrate.absorptance, anyShare);
  io.may("refractive_index", substrate.refractiveIndex, refractive);
  io.may("extinction_coefficient", substrate.extinctionCoefficient, refractive);
  io.must("conductivity_W_mK", substrate.conductivity_W_mK, conductivity);
  io.must("density_kg_m3", substrate.density_kg_m3, density);
  io.must("specific_heat_J_kgK", substrate.specificHeat_J_kgK, specificHeat);
  io.must("melting_C", substrate.melting_C, anyTemperature);
  io.must("boiling_C", substrate.boiling_C, anyTemperature);
  io.must("vaporisation_J_mm3", substrate.vaporisation_J_m3, vaporisation);
  io.must("expansion_um_mK", substrate.expansion_1_K, expansion);
  io.must("youngs_modulus_GPa", substrate.youngsModulus_Pa, modulus);
  io.must("poisson_ratio", substrate.poissonRatio, poisson);
  io.must("yield_MPa", substrate.yield_Pa, strength);
  io.may("tint_C", substrate.tint_C, anyTemperature);
  io.may("hardening_C", substrate.hardening_C, anyTemperature);
  io.may("temper_C", substrate.temper_C, anyTemperature);
  io.may("plating_melts_C", substrate.platingMelts_C, anyTemperature);
  io.may("part_boils_C", substrate.partBoils_C, anyTemperature);
  io.rest(substrate.extras);
}

template <class Io>
void describe(Io& io, Library& library) {
  io.may("substrates", library.substrates);
  io.may("coatings", library.coatings);
  io.rest(library.extras);
}

/// One of the two files of the shipped library: a library with a head.
struct LibraryFile {
  Library library;
};

template <class Io>
void describe(Io& io, LibraryFile& file) {
  if (io.header(libraryFormat, libraryVersion)) describe(io, file.library);
}

}  // namespace bw

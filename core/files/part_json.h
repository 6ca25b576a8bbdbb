// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// How a part and its coat stand in a file: keys, units, what is accepted. Bounds are wider than any workshop's part; they are there to
// catch a slipped decimal point or unit. See json_io.h for the verbs.

#include "core/files/json_io.h"
#include "core/files/units.h"
#include "core/values/part.h"
#include "core/values/shop_bounds.h"

namespace bw {

inline const Words<Finish> finishes{
    "a finish", {{Finish::Untouched, "untouched"}, {Finish::LightEtch, "light-etch"}, {Finish::Any, "any"}}};
inline const Words<Access> accesses{"an access", {{Access::Open, "open"}, {Access::Tight, "tight"}, {Access::Hidden, "hidden"}}};
inline const Words<Position> positions{
    "a position", {{Position::Flat, "flat"}, {Position::Upright, "upright"}, {Position::Overhead, "overhead"}}};
inline const Words<Surface> surfaces{
    "a surface", {{Surface::Rolled, "rolled"}, {Surface::Cast, "cast"}, {Surface::Machined, "machined"}}};
inline const Words<Behind> behinds{"what can lie behind",
                                   {{Behind::Foam, "foam"},
                                    {Behind::Wax, "wax"},
                                    {Behind::Wood, "wood"},
                                    {Behind::Wiring, "wiring"},
                                    {Behind::Paint, "paint"},
                                    {Behind::Adhesive, "adhesive"},
                                    {Behind::Sealer, "sealer"},
                                    {Behind::Rubber, "rubber"},
                                    {Behind::Solder, "solder"},
                                    {Behind::ClosedCavity, "closed-cavity"},
                                    {Behind::Fuel, "fuel"},
                                    {Behind::Nothing, "nothing"},
                                    {Behind::Unknown, "unknown"}}};
inline const Words<KnownFrom> origins{"where a value comes from",
                                      {{KnownFrom::Unknown, "unknown"},
                                       {KnownFrom::Typical, "typical"},
                                       {KnownFrom::Guess, "guess"},
                                       {KnownFrom::Gauge, "gauge"},
                                       {KnownFrom::Patch, "patch"}}};
inline const Words<Behaviour> behaviours{"a behaviour",
                                         {{Behaviour::Decomposes, "decomposes"},
                                          {Behaviour::Softens, "softens"},
                                          {Behaviour::Spalls, "spalls"},
                                          {Behaviour::Scorches, "scorches"}}};
inline const Words<Face> faces{"a face", {{Face::Front, "front"}, {Face::Back, "back"}}};
inline const Words<Presence> presences{
    "an answer", {{Presence::No, "no"}, {Presence::Yes, "yes"}, {Presence::Unknown, "unknown"}}};

inline constexpr Text shortText{"a short text", 0, 500};
inline constexpr Text nameText{"a name", 1, 200};
inline constexpr Text idText{"an id", 1, 100};

inline constexpr FileQuantity anyShare{"a share", units::none, 0, 1};
inline constexpr FileQuantity coatThickness{"a thickness", units::um, 0, 20000, Bound::Above};
inline constexpr FileQuantity plateThickness{"a thickness", units::mm, 0, 1000, Bound::Above};
inline constexpr FileQuantity opticalDepth{"an optical depth", units::um, 0, 100000, Bound::Above};
inline constexpr FileQuantity removalEnthalpy{"a removal enthalpy", units::J_mm3, 0, 1000, Bound::Above};
inline constexpr FileQuantity conductivity{"a conductivity", units::W_mK, 0, 5000, Bound::Above};
inline constexpr FileQuantity density{"a density", units::kg_m3, 0, 30000, Bound::Above};
inline constexpr FileQuantity specificHeat{"a specific heat", units::J_kgK, 0, 20000, Bound::Above};
inline constexpr FileQuantity airTemperature{"an air temperature", units::celsius, bounds::airTemperature_C.low,
                                             bounds::airTemperature_C.high};
inline constexpr FileQuantity partTemperature{"a part's temperature", units::celsius, -60, 1000};
inline constexpr FileQuantity anyTemperature{"a temperature", units::celsius, -60, 6000};
inline constexpr FileQuantity filmCoefficient{"a film coefficient", units::W_m2K, 0, 10000};
inline constexpr FileQuantity partSize{"a size", units::mm, 0, 100000, Bound::Above};
inline constexpr FileQuantity areaSize{"an area", units::cm2, 0, 1e8, Bound::Above};
inline constexpr FileQuantity tilt{"a tilt", units::deg, 0, 89};
inline constexpr FileQuantity recessWidth{"a width", units::mm, 0, 100000, Bound::Above};
inline constexpr FileQuantity howMany{"a count", units::none, 1, 100000};

template <class Io>
void describe(Io& io, Layer& layer) {
  io.usual("name", layer.name, shortText);
  io.must("coating", layer.coating, idText);
  io.must("thickness_um", layer.thickness_m, coatThickness);
  io.may("absorptance", layer.overrides.absorptance, anyShare);
  io.may("optical_depth_um", layer.overrides.opticalDepth_m, opticalDepth);
  io.may("removal_enthalpy_J_mm3", layer.overrides.removalEnthalpy_J_m3, removalEnthalpy);
  io.may("conductivity_W_mK", layer.overrides.conductivity_W_mK, conductivity);
  io.may("density_kg_m3", layer.overrides.density_kg_m3, density);
  io.may("specific_heat_J_kgK", layer.overrides.specificHeat_J_kgK, specificHeat);
  io.may("colour", layer.colour, shortText);
  io.may("keep", layer.keep);
  io.may("behaviour", layer.behaviour, behaviours);
  io.may("residue_share", layer.residueShare, anyShare);
  io.may("absorptance_after_heating", layer.absorptanceAfterHeating, anyShare);
  io.may("components", layer.components, presences);
  io.may("known_from", layer.knownFrom, origins);
  io.rest(layer.extras);
}

template <class Io>
void describe(Io& io, SubstrateOverrides& own) {
  io.may("absorptance", own.absorptance, anyShare);
  io.may("conductivity_W_mK", own.conductivity_W_mK, conductivity);
  io.may("density_kg_m3", own.density_kg_m3, density);
  io.may("specific_heat_J_kgK", own.specificHeat_J_kgK, specificHeat);
  io.may("melting_C", own.melting_C, anyTemperature);
  io.rest(own.extras);
}

template <class Io>
void describe(Io& io, Area& area) {
  io.must("name", area.name, nameText);
  io.must("area_cm2", area.area_m2, areaSize);
  io.usual("tilt_deg", area.tilt_rad, tilt);
  io.usual("access", area.access, accesses);
  io.may("coat", area.coat);
  io.may("thickness_mm", area.thickness_m, plateThickness);
  io.may("finish", area.finish, finishes);
  io.may("limits", area.limits, anyTemperature);
  io.may("recess_width_mm", area.recessWidth_m, recessWidth);
  io.may("position", area.position, positions);
  io.may("count", area.count, howMany);
  io.rest(area.extras);
}

template <class Io>
void describe(Io& io, Part& part) {
  io.must("substrate", part.substrate, idText);
  io.must("thickness_mm", part.thickness_m, plateThickness);
  io.usual("size_mm", part.size_m, partSize);
  io.usual("start_temperature_C", part.startTemperature_C, partTemperature);
  io.usual("ambient_temperature_C", part.ambientTemperature_C, airTemperature);
  io.usual("film_coefficient_W_m2K", part.filmCoefficient_W_m2K, filmCoefficient);
  io.usual("finish", part.finish, finishes);
  io.may("limits", part.limits, anyTemperature);
  io.may("limit_faces", part.limitFaces, faces);
  io.may("areas", part.areas);
  io.may("substrate_properties", part.substrateProperties);
  io.may("gauge_readings_um", part.gaugeReadings_m, coatThickness);
  io.may("coat_total_um", part.coatTotal_m, coatThickness);
  io.may("behind", part.behind, behinds);
  io.may("surface", part.surface, surfaces);
  io.may("photos", part.photos, shortText);
  io.may("known_from", part.knownFrom, origins);
  io.rest(part.extras);
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/coat.h"

#include <array>

namespace bw {

/// What the bare metal may look like afterwards.
enum class Finish {
  Untouched,   // the metal must not melt even for an instant
  LightEtch,   // micro-melting allowed, depth bounded
  Any,
};

enum class Access { Open, Tight, Hidden };
enum class Position { Flat, Upright, Overhead };
enum class Surface { Rolled, Cast, Machined };
enum class Behind { Foam, Wax, Wood, Wiring, Paint, Adhesive, Sealer, Rubber, Solder, ClosedCavity, Fuel, Nothing, Unknown };

/// User's own temperature limits by name, in degrees Celsius, e.g. "back_face_C".
using Limits = std::map<std::string, double>;

/// The side of the metal that the beam meets, or the other.
enum class Face { Front, Back };

/// Properties of the substrate that the part states for itself, constant with temperature.
struct SubstrateOverrides {
  std::optional<Range> absorptance;  // of the bare metal, 0..1
  std::optional<Range> conductivity_W_mK;
  std::optional<Range> density_kg_m3;
  std::optional<Range> specificHeat_J_kgK;
  std::optional<Range> melting_C;
  Extras extras;
  bool operator==(const SubstrateOverrides&) const = default;
};

/// A region of the part that is stripped in one way.
struct Area {
  std::string name;
  double area_m2 = 0;
  double tilt_rad = 0;  // between the beam and the normal of the face
  Access access = Access::Open;
  std::optional<Coat> coat;  // where it differs from the part's
  std::optional<Range> thickness_m;
  std::optional<Finish> finish;
  std::optional<Limits> limits;
  std::optional<double> recessWidth_m;
  std::optional<Position> position;
  std::optional<double> count;  // how many alike
  Extras extras;
  bool operator==(const Area&) const = default;
};

/// The thing to be stripped: its metal, size, surroundings and what is asked of it.
struct Part {
  std::string substrate = "mild-steel";  // id in the library of substrates
  Range thickness_m = Range::exact(0.001);
  std::array<double, 2> size_m = {0.3, 0.2};
  double startTemperature_C = 20;
  double ambientTemperature_C = 20;
  double filmCoefficient_W_m2K = 12;  // heat lost to the air by each face
  Finish finish = Finish::LightEtch;
  Limits limits;
  std::map<std::string, Face> limitFaces;  // by the limit's name; without: back, or front where the name begins so
  std::vector<Area> areas;
  SubstrateOverrides substrateProperties;
  std::vector<double> gaugeReadings_m;
  std::optional<Range> coatTotal_m;
  std::vector<Behind> behind;
  std::optional<Surface> surface;
  std::vector<std::string> photos;
  std::map<std::string, KnownFrom> knownFrom;  // by the file's key of the field, e.g. "thickness_mm"
  Extras extras;
  bool operator==(const Part&) const = default;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/machine.h"

#include <optional>
#include <string>
#include <vector>

namespace bw {

/// One check of a machine: what it really delivered.
struct MachineCheck {
  std::string date;  // ISO 8601
  std::string initials;
  std::optional<double> deliveredPower_W;
  std::optional<double> spotDiameter_m;
  std::string note;
  Extras extras;
  bool operator==(const MachineCheck&) const = default;
};

/// A piece that comes with the machine: an optic, a tip, a cover glass in the drawer.
struct OwnedPiece {
  std::string what;
  std::string note;
  double count = 1;
  Extras extras;
  bool operator==(const OwnedPiece&) const = default;
};

/// A machine of the shop: its profile with optics and limits, and its upkeep.
struct MachineCard {
  Machine machine;
  std::string note;
  std::optional<double> coverGlass_s;  // hours of beam on the glass that is in, as seconds
  std::string coverGlassSince;         // ISO 8601, when it was put in
  std::vector<OwnedPiece> pieces;
  std::vector<MachineCheck> checks;  // in the order they were made, the last one last
  Extras extras;
  bool operator==(const MachineCard&) const = default;
};

}  // namespace bw

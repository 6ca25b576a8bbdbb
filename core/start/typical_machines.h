// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/machine.h"

#include <vector>

namespace bw {

/// Machines to begin with when one's own is not described yet: invented, of common size (from memory), no maker's.
std::vector<Machine> typicalMachines();

/// A machine known only by kind, rated power and spot; the rest as the typical machine of that kind.
Machine machineLike(MachineKind kind, double ratedPower_W, double spotDiameter_m);

}  // namespace bw

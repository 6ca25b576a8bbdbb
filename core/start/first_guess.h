// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assess.h"
#include "core/values/machine.h"
#include "core/values/plan.h"

namespace bw {

/// Settings to begin with on a machine: even cover at a pace a hand can hold, three passes. Common practice, no source; the
/// assessment judges them like any others.
Settings firstGuess(const Machine& machine);

/// Machines that may be offered, each set to its first guess: the shop's own, then the typical ones.
std::vector<MachineOffer> typicalOffers(const std::vector<Machine>& own = {});

}  // namespace bw

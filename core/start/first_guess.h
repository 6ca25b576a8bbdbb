// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assess.h"
#include "core/values/machine.h"
#include "core/values/plan.h"

namespace bw {

/// Settings to begin with on a machine: even cover at a pace a hand can hold, three passes. Common practice, no source; the
/// assessment judges them like any others.
Settings firstGuess(const Machine& machine);

/// The typical machines, each set to its first guess.
std::vector<MachineOffer> typicalOffers();

}  // namespace bw

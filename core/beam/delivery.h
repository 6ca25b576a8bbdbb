// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/beam/beam_result.h"
#include "core/values/machine.h"
#include "core/values/plan.h"

namespace bw {

/// The most energy one pulse can carry at that duration: the list's entry beside the duration, between two entries the straight
/// line; the peak-power ceiling binds too. Infinite where the machine names no limit.
double largestPulseEnergy_J(const Machine& machine, double pulseDuration_s);

/// Mean power at full setting: what was last measured at the part, else the rated power.
double fullPower_W(const Machine& machine);

/// What arrives at the part: P = min(setting x full power, E_max(tau) f), E = P/f, peak power E/tau, peak fluence E x profile peak.
/// A continuous beam has neither pulse energy nor fluence; its peak power is that of the gate's on-time.
BeamResult deliver(const Machine& machine, const Settings& settings);

}  // namespace bw

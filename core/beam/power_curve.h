// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/machine.h"

#include <optional>
#include <vector>

namespace bw {

struct PowerPoint {
  double rate_Hz = 0;
  double power_W = 0;
  double pulseEnergy_J = 0;
};

/// The most mean power at one pulse duration, from the lowest repetition rate to the highest.
struct PowerCurve {
  double pulseDuration_s = 0;
  std::vector<PowerPoint> points;     // the corner is among them; straight between them
  std::optional<double> fullFrom_Hz;  // from this rate on the whole power is there; none: at no rate of the machine
};

/// P(f) = min(P_full, E_max(tau) f), as `deliver` gives it. One curve for each pulse duration that differs from the one before it. Empty
/// for a continuous machine, and for one without rates or durations.
std::vector<PowerCurve> powerAgainstRate(const Machine& machine);

}  // namespace bw

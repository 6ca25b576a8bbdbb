// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "core/values/plan.h"

namespace bw::fake {

struct Dose {
  DoseMap map;
  SwathProfile profile;
  DoseResult result;
};

/// Steady dose of a raster with travel across its lines, as the product of a profile along the lines and one across them.
/// Good enough to look at; the model proper sums pulses.
Dose roughDose(const Settings& settings, double meanPower_W, double spotDiameter_m, double turnaround_s);

}  // namespace bw::fake

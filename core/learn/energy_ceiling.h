// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/learnt.h"
#include "core/values/range.h"

#include <optional>
#include <vector>

namespace bw {

/// Mean power of a pulsed beam at full setting.
struct RateReading {
  double repetitionRate_Hz = 0;
  Measured power_W;
  bool operator==(const RateReading&) const = default;
};

struct EnergyCeiling {
  Range pulseEnergy_J;
  std::optional<Range> meanPower_W;     // what the power levels off at
  std::optional<Range> fallsBeyond_Hz;  // from this rate on a pulse carries less
};

/// P = min(E f, P_most): the power grows with the rate as long as every pulse carries the most it can, and is level beyond. A straight line
/// in logarithms with one corner, errors in proportion to the power; the corner is taken where the readings lie best, and told only where
/// it makes the fit better than chance does in one of twenty sets.
Learnt<EnergyCeiling> fitEnergyCeiling(const std::vector<RateReading>& given, double meterUncertainty);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/proportion.h"

#include <optional>
#include <vector>

namespace bw {

/// Mean power at the part, and before the optics where that was measured with the same meter.
struct PowerReading {
  double dialledShare = 0;  // of the rated power
  Measured atPart_W;
  std::optional<double> beforeOptics_W;
  bool operator==(const PowerReading&) const = default;
};

struct DeliveredPower {
  Proportion line;            // W at the part against W dialled; atFull: at the rated power
  Range share;                // of the rated power that reaches the part
  std::optional<Range> loss;  // of the optics; the meter's own error cancels
};

/// `meterUncertainty`: share of the reading, nine in ten meters of this kind lie within it; it is common to all readings and so widens the
/// result by the root of the sum of squares, whatever their number.
Learnt<DeliveredPower> fitDeliveredPower(const std::vector<PowerReading>& given, double ratedPower_W, double meterUncertainty);

}  // namespace bw

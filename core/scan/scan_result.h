// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

namespace bw {

struct OverlapResult {
  std::optional<double> pulseStep_m;  // pulsed only
  std::optional<double> pulseOverlap;
  std::optional<double> pulsesPerSpot;
  double lineSpacing_m = 0;
  double lineOverlap = 0;
  double framePeriod_s = 0;
  double litFraction = 0;
};

/// The frame's path in the head's own axes, thinned for drawing: x, y in metres, whether the beam is on, and when.
struct PathPoint {
  double x_m = 0;
  double y_m = 0;
  bool lit = false;
  double time_s = 0;  // from the frame's beginning
};

}  // namespace bw

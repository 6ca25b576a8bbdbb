// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/part_heat.h"
#include "core/heat/path_heat.h"

#include <vector>

namespace bw {

/// The hottest place that lines and frames make, found by trying line ends, turns and middles of the frame's first, middle and last lines.
/// Rises per absorbed watt of mean power.
struct HotSpot {
  HeatQuery query;            // where and when
  double point_K_W = 0;       // there, an instant before the pulse
  double patchFront_K_W = 0;  // averaged over a spot-sized patch and 10 ms
  double patchBack_K_W = 0;
};

HotSpot hottestSpot(const PathHeat& near, const Frame& frame, const Travel& travel, const Emission& emission);

/// Rises in the middle of the tour's last swath against time, per absorbed watt of mean power. Near heat averaged over 10 ms and a
/// spot-sized patch. Times from the beginning of the work, crowded around each crossing.
struct PartTrace {
  std::vector<double> time_s;
  std::vector<double> part_K_W;
  std::vector<double> nearFront_K_W;
  std::vector<double> nearBack_K_W;
};

PartTrace traceOf(const PathHeat& near, const PartHeat& part, const Tour& tour, const Frame& frame, double litFraction);

}  // namespace bw

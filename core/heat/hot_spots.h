// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/path_heat.h"

namespace bw {

/// The hottest place that lines and frames make in an endless stroke, found by trying line ends, turns and middles of the frame's first,
/// middle and last lines. Rise per watt.
struct HotSpot {
  HeatQuery query;       // where and when
  Point fromMiddle;      // the place, from where the frame's middle is then
  double inFrame_s = 0;  // the time within its frame
  double point_K_W = 0;  // an instant before the pulse
};

/// The hottest first; of each half of the frame, one near its first lines, its middle and its last: at the part's edges only some may be
/// over the metal. `steady` has an endless tour.
std::vector<HotSpot> hottestSpots(const PathHeat& steady, const Frame& frame, double travelAngle_rad, const Emission& emission);

/// Pieces of a frame worth trying, group by group: lit ones near its beginning, middle and end; of two swings also near the quarters, where
/// the slow one turns back.
std::vector<std::vector<const Stretch*>> tellingPieces(const Frame& frame);

/// The time of the next pulse, or of the frame's last one.
double pulseInFrame_s(double time_s, const Frame& frame, double rate_Hz);

}  // namespace bw

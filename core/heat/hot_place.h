// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/work_heat.h"

#include <stop_token>

namespace bw {

/// The hottest place that lines and frames make in an endless stroke, found by trying line ends, turns and middles of the frame's first,
/// middle and last lines. Rise per watt.
struct HotSpot {
  HeatQuery query;       // where and when
  Point fromMiddle;      // the place, from where the frame's middle is then
  double inFrame_s = 0;  // the time within its frame
  double point_K_W = 0;  // an instant before the pulse
};

/// Of each half of the frame, the hotter first: at the part's edge only one may be over the metal. `steady` has an endless tour.
std::vector<HotSpot> hottestSpots(const PathHeat& steady, const Frame& frame, double travelAngle_rad, const Emission& emission);

/// Where and when a face is hottest over a patch and 10 ms.
struct PatchMoment {
  Point place = Point::Zero();
  double time_s = 0;
};

/// The hottest that a tour makes the metal anywhere.
struct HotPlace {
  HeatQuery query;  // place and time of the hottest point
  int stroke = 0;
  double point_C = 0;   // there, an instant before a pulse
  double part_C = 0;    // of that, without near heat
  FacesRise pointRise;  // of the near heat, per watt
  Faces patch;          // hottest of each face, over a patch and 10 ms, wherever it is
  PatchMoment front, back;  // where and when that is
};

/// Looks along every stroke for where the part, and what frames smeared evenly add to it, is hottest, and there for the frame's hot spots;
/// where a spot falls beyond the part's edge, for the lines that pass the edge nearest to it. Throws Stopped.
HotPlace hottestPlace(const WorkHeat& heat, const Frame& frame, double travelAngle_rad, const std::vector<HotSpot>& spots,
                      const std::stop_token& stop = {});

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/hot_spots.h"
#include "core/heat/work_heat.h"

#include <stop_token>

namespace bw {

/// A spot of the frame somewhere on its way.
struct HotMoment {
  std::size_t stroke = 0;
  Point place = Point::Zero();
  double time_s = 0;
  double inFrame_s = 0;
  Faces seen = {};      // frames smeared evenly
  bool atEdge = false;  // half of the beam's light is lost over an end of the part
  bool inset = false;   // the place is that end, the beam just so far from it that it is not
};

/// Worth a closer look: by the front face, and by the back.
struct HotMoments {
  std::vector<HotMoment> front, overlaps, back;  // those by the front face where swaths overlap by themselves
};

/// Follows the frame's hot spots, and where a swath hangs over the part's side the beam as it crosses that edge, along strokes chosen over
/// the whole work, from where they come on to the part to where they leave it, and looks where the next swath meets what the last one left.
/// Of each spot and stretch of way, the moment of the stroke that looks hottest. Throws Stopped.
HotMoments hotMoments(const WorkHeat& heat, const Frame& frame, double travelAngle_rad, const Emission& emission,
                      const std::vector<HotSpot>& spots, const std::stop_token& stop);

}  // namespace bw

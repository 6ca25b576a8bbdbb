// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/hand_tour.h"

namespace bw {

/// Moments at which the beam's centre comes within `reach_m` of a place, during a stroke.
struct Passage {
  double time_s = 0;
  double distance_m = 0;
  double speed_m_s = 0;
};
std::vector<Passage> passagesAt(const Frame& frame, double travelAngle_rad, const TourStroke& stroke, const Point& place, double reach_m,
                                double from_s, double to_s);

}  // namespace bw

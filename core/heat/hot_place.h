// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/hot_spots.h"
#include "core/heat/work_heat.h"
#include "core/values/crew.h"

#include <stop_token>

namespace bw {

/// Where and when a face is hottest over a patch and 10 ms.
struct PatchMoment {
  Point place = Point::Zero();
  double time_s = 0;
  FrameShift frames = {};
};

/// The hottest that a tour makes the metal anywhere. Where frames begin along a stroke is chance: each is found with the phase that makes
/// it worst.
struct HotPlace {
  HeatQuery query;  // place and time of the hottest point
  int stroke = 0;
  double point_C = 0;   // there, an instant before a pulse
  double part_C = 0;    // of that, without near heat
  FacesRise pointRise;  // of the near heat, per watt
  Faces patch;          // hottest of each face, over a patch and 10 ms, wherever it is
  PatchMoment front, back;  // where and when that is
};

/// How closely the hottest is looked for.
struct Closer {
  int trials = 6;           // refined coarsely, those that begin hottest; with 2, 1.5 % more of the rise is missed on the samples
  int halvings = 5;         // of the steps in which the best of these is refined finely
  double enough_C = 1e300;  // a point as hot as that, as where metal boils, is not refined
};

/// Of all that hotMoments() finds worth a look the beam's own way is followed, and the hottest few are refined in place, time and phase,
/// for the point and for either face by itself. Throws Stopped.
HotPlace hottestPlace(const WorkHeat& heat, const Frame& frame, double travelAngle_rad, const Emission& emission,
                      const std::vector<HotSpot>& spots, const std::stop_token& stop = {}, const Closer& closer = {},
                      const Crew& crew = {});

}  // namespace bw

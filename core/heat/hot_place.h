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

/// The hottest first; of each half of the frame, one near its first lines, its middle and its last: at the part's edges only some may be
/// over the metal. `steady` has an endless tour.
std::vector<HotSpot> hottestSpots(const PathHeat& steady, const Frame& frame, double travelAngle_rad, const Emission& emission);

/// Where and when a face is hottest over a patch and 10 ms.
struct PatchMoment {
  Point place = Point::Zero();
  double time_s = 0;
  double frameShift_s = 0;  // of its frames, as in HeatQuery
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

/// Follows the frame's hot spots, and where a swath hangs over the part's side the beam as it crosses that edge, along strokes chosen over
/// the whole work: from where they come on to the part to where they leave it. Of each spot and stretch of way the stroke is taken that
/// looks hottest with frames smeared evenly; there the beam's own way is followed, and the hottest few are refined in place, time and
/// phase, for the point and for either face by itself. Not
/// `finely`, a few per cent of the rise may be missed. Throws Stopped.
HotPlace hottestPlace(const WorkHeat& heat, const Frame& frame, double travelAngle_rad, const Emission& emission,
                      const std::vector<HotSpot>& spots, const std::stop_token& stop = {}, bool finely = true);

}  // namespace bw

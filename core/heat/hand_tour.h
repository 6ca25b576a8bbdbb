// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/scan/frame.h"
#include "core/values/plan.h"

#include <cstddef>
#include <limits>
#include <vector>

namespace bw {

/// One swath of the hand's way: straight along the travel, frame after frame without a gap, the first when its clock starts.
struct TourStroke {
  double begin_s = 0;
  double end_s = 0;
  double clock_s = 0;           // from which frames and travel count; usually the beginning
  Point start = Point::Zero();  // of the frame's middle at that time, (across, along), from the part's corner
  double speed_m_s = 0;         // along; below 0 back, 0 a hand that stands still
  double share = 1;             // of the beam's power that the metal takes
  int pass = 0;

  Point middleAt(double time_s) const { return start + Point(0, speed_m_s * (time_s - clock_s)); }
};

/// How much later frames begin than by the strokes' clocks, the hand's way unchanged, for every second stroke by itself: no hand repeats
/// their phase from one swath to the next.
struct FrameShift {
  double even_s = 0;  // the first stroke, the third ...
  double odd_s = 0;

  double of_s(std::size_t stroke) const { return stroke % 2 == 0 ? even_s : odd_s; }
  /// What gives a stroke the same as this one gives another.
  FrameShift movedBy(std::size_t strokes) const { return strokes % 2 == 0 ? *this : FrameShift{odd_s, even_s}; }
};

/// The same way with frames that begin so much later.
TourStroke shifted(TourStroke stroke, double frameShift_s);

/// The hand's whole way over a part, strokes in the order of time. Axes: across the travel and along it.
struct HandTour {
  std::vector<TourStroke> strokes;
  Point part_m = Point::Constant(std::numeric_limits<double>::infinity());  // its size, (across, along)
  std::vector<double> passStart_s = {};
  bool gathered = false;  // swaths so narrow, or passes so many, that not each one is followed

  double end_s() const { return strokes.empty() ? 0 : strokes.back().end_s; }
};

/// What a tour is made from.
struct TourPlan {
  Point part_m = Point::Zero();  // (across, along)
  double area_m2 = 0;            // worked; 0, or more than the part has: the whole part
  double travelSpeed_m_s = 0;
  double stepOver_m = 0;
  double litWidth_m = 0;  // of a swath, across; below the step-over it counts as that
  SwathOrder order = SwathOrder::SideBySide;
  int passes = 1;
  double pause_s = 0;

  bool operator==(const TourPlan&) const = default;
};

/// Serpentine swaths over the area, one step-over from the next, pass after pass, each pass followed by its pause. It lies in the part's
/// middle, as long and as wide as the part is in proportion to what is worked of it. Of more than 400 swaths several neighbours are taken
/// together as one that is travelled as much slower, and of more than 60 passes the first 60 are followed.
/// Precondition: speed and step-over above zero.
HandTour tourOf(const TourPlan& plan);

/// One stroke without beginning and end, through the origin at time 0, on a part without edges.
HandTour endlessTour(double speed_m_s);

/// The tour up to a moment; from then on the hand stands still where it is, the beam on, for so long.
HandTour stoppedAt(const HandTour& tour, double time_s, double still_s);

}  // namespace bw

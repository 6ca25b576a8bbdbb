// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/hand_tour.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr int mostSwaths = 400;  // of a pass, one by one
constexpr int mostPasses = 60;

/// Middles of the swaths across the travel, in the order they are laid. As many as bring light to the strip: the last, which hangs over its
/// edge, comes in from beyond as the strip gets wider, so that nothing leaps where another swath is needed.
std::vector<double> swathsOf(double width_m, double begin_m, double stepOver_m, double litWidth_m, SwathOrder order) {
  std::vector<double> middles;
  const double first = std::min(width_m, stepOver_m) / 2, reach = std::max(litWidth_m, stepOver_m) / 2;
  const int count = std::max(1, static_cast<int>(std::ceil((width_m + reach - first) / stepOver_m - 1e-9)));
  const int step = order == SwathOrder::EverySecond ? 2 : 1;
  for (int offset = 0; offset < step; ++offset)
    for (int i = offset; i < count; i += step) middles.push_back(begin_m + first + i * stepOver_m);
  return middles;
}

/// The strip that is worked, across the travel and along it.
Point stripOf(const TourPlan& plan) {
  const double whole = plan.part_m.prod(), share = plan.area_m2 > 0 && whole > 0 ? std::min(1.0, plan.area_m2 / whole) : 1;
  return plan.part_m * std::sqrt(share);
}

}  // namespace

TourStroke shifted(TourStroke stroke, double frameShift_s) {
  stroke.clock_s += frameShift_s;
  stroke.start.y() += stroke.speed_m_s * frameShift_s;
  return stroke;
}

HandTour tourOf(const TourPlan& plan) {
  const double across = stripOf(plan).x(), length = stripOf(plan).y();
  const double together = std::max(1.0, std::ceil(across / plan.stepOver_m / mostSwaths));
  const std::vector<double> swaths =
      swathsOf(across, (plan.part_m.x() - across) / 2, plan.stepOver_m * together, plan.litWidth_m, plan.order);
  const double speed = plan.travelSpeed_m_s / together, low = (plan.part_m.y() - length) / 2;

  HandTour tour;
  tour.part_m = plan.part_m;
  const int passes = std::min(plan.passes, mostPasses);
  tour.gathered = together > 1 || passes < plan.passes;
  double now = 0;
  bool forth = true;
  for (int pass = 0; pass < passes; ++pass) {
    tour.passStart_s.push_back(now);
    for (const double middle : swaths) {
      TourStroke stroke{now, now + length / speed, now, Point(middle, forth ? low : low + length), forth ? speed : -speed, 1, pass};
      now = stroke.end_s;
      forth = !forth;
      tour.strokes.push_back(stroke);
    }
    now += plan.pause_s;
  }
  return tour;
}

HandTour endlessTour(double speed_m_s) {
  constexpr double forever = std::numeric_limits<double>::infinity();
  HandTour tour;
  tour.strokes.push_back({-forever, forever, 0, Point::Zero(), speed_m_s, 1, 0});
  return tour;
}

HandTour stoppedAt(const HandTour& tour, double time_s, double still_s) {
  HandTour stopped = tour;
  auto& strokes = stopped.strokes;
  while (!strokes.empty() && strokes.back().begin_s >= time_s) strokes.pop_back();
  if (strokes.empty()) return stopped;
  TourStroke still = strokes.back();
  strokes.back().end_s = std::min(time_s, strokes.back().end_s);
  still.start = still.middleAt(strokes.back().end_s);
  still.begin_s = still.clock_s = strokes.back().end_s;
  still.end_s = still.begin_s + still_s;
  still.speed_m_s = 0;
  strokes.push_back(still);
  return stopped;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/passages.h"

#include "core/scan/path.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

/// Closest approach of one stretch that begins at `begin_s` of the work.
Passage closest(const Stretch& stretch, const Travel& turned, const TourStroke& stroke, const Point& place, double begin_s) {
  const auto at = [&](double t) { return Point(stroke.middleAt(begin_s + t) + turned.onPart(stretch.at(t), 0)); };
  double best = 0;
  if (stretch.isStraight()) {
    const Point way = turned.onPart(stretch.velocity, 0) + Point(0, stroke.speed_m_s);
    best = std::clamp((place - at(0)).dot(way) / std::max(way.squaredNorm(), 1e-30), 0.0, stretch.duration_s);
  } else {
    const int tries = std::clamp(static_cast<int>(32 * stretch.turns()), 16, 512);
    for (int i = 1; i <= tries; ++i) {
      const double t = stretch.duration_s * i / tries;
      if ((at(t) - place).squaredNorm() < (at(best) - place).squaredNorm()) best = t;
    }
  }
  return {begin_s + best, (at(best) - place).norm(), stretch.topSpeed_m_s()};
}

}  // namespace

std::vector<Passage> passagesAt(const Frame& frame, double travelAngle_rad, const TourStroke& stroke, const Point& place, double reach_m,
                                double from_s, double to_s) {
  const Travel turned(0, travelAngle_rad);
  const double period = frame.period_s(), from = std::max(from_s, stroke.begin_s), to = std::min(to_s, stroke.end_s);
  std::vector<Passage> passages;
  for (double n = std::floor((from - stroke.clock_s) / period); stroke.clock_s + n * period < to; ++n) {
    for (const Stretch& stretch : frame.stretches()) {
      if (!stretch.lit) continue;
      const Passage passage = closest(stretch, turned, stroke, place, stroke.clock_s + n * period + stretch.begin_s);
      if (passage.distance_m <= reach_m && passage.time_s >= from && passage.time_s <= to) passages.push_back(passage);
    }
  }
  return passages;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/hot_spots.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace bw {

std::vector<std::vector<const Stretch*>> tellingPieces(const Frame& frame) {
  std::vector<const Stretch*> lit;
  for (const Stretch& stretch : frame.stretches()) {
    if (stretch.lit) lit.push_back(&stretch);
  }
  const std::size_t count = lit.size(), run = 4;
  std::vector<std::size_t> from{0, count / 2, count > run ? count - run : 0};
  if (count > 2 * run && lit.front()->rate_rad_s > 0 && !lit.front()->isArc())
    from.insert(from.end(), {count / 4 - run / 2, 3 * count / 4 - run / 2});
  std::ranges::sort(from);
  std::vector<std::vector<const Stretch*>> groups;
  std::size_t tried = 0;
  for (const std::size_t first : from) {
    std::vector<const Stretch*> group;
    for (std::size_t i = std::max(first, tried); i < std::min(first + run, count); ++i) group.push_back(lit[i]);
    tried = std::max(tried, std::min(first + run, count));
    if (!group.empty()) groups.push_back(std::move(group));
  }
  return groups;
}

double pulseInFrame_s(double time_s, const Frame& frame, double rate_Hz) {
  const double k = std::ceil(time_s * rate_Hz);
  return (k / rate_Hz < frame.period_s() ? k : std::max(0.0, k - 1)) / rate_Hz;
}

namespace {

/// Ends of lines and their middles; turns and swings from the apex on, where the head is slow and comes back over what it has just heated;
/// arcs are much the same all along.
std::vector<double> sharesOf(const Stretch& stretch) {
  if (stretch.isStraight()) return {0.01, 0.04, 0.1, 0.5, 0.97};
  if (stretch.rate_rad_s == 0) return {0.5, 0.55, 0.6, 0.65, 0.7, 0.77, 0.97};
  if (stretch.isArc()) return {0.5, 0.97};
  return {0.01, 0.04, 0.1, 0.5, 0.55, 0.6, 0.65, 0.7, 0.77, 0.9, 0.97};
}


/// Under the beam, or `lag_s` behind a continuous one. Nothing where the next pulse is not fired.
std::optional<HeatQuery> queryAt(const Stretch& stretch, double share, double lag_s, const Frame& frame, const Travel& travel,
                                 const Emission& emission) {
  double time = stretch.begin_s + share * stretch.duration_s;
  if (emission.pulsed) time = pulseInFrame_s(time, frame, emission.rate_Hz);
  const Stretch& under = emission.pulsed ? frame.stretchAt(time) : stretch;  // pieces may be shorter than a pulse period
  if (!under.lit) return std::nullopt;
  const double inside = std::clamp(time - lag_s - under.begin_s, 0.0, under.duration_s);
  HeatQuery query;
  query.place = travel.onPart(under.at(inside), under.begin_s + inside);
  query.time_s = time;
  query.youngest_s = emission.pulsed ? 1 / emission.rate_Hz : 0;
  return query;
}

}  // namespace

std::vector<HotSpot> hottestSpots(const PathHeat& steady, const Frame& frame, double travelAngle_rad, const Emission& emission) {
  const TourStroke& stroke = steady.tour().strokes.front();
  const Travel travel(stroke.speed_m_s, travelAngle_rad);
  std::vector<HotSpot> spots;
  for (const std::vector<const Stretch*>& group : tellingPieces(frame)) {
    HotSpot right, left;
    for (const Stretch* stretch : group) {
      const double passage = steady.spotRadius_m() / std::max(stretch->topSpeed_m_s(), 1e-9);
      for (const double share : sharesOf(*stretch)) {
        for (const double lag : {0.0, 0.5, 1.0}) {
          if (emission.pulsed && lag > 0) continue;  // the next pulse lands where the beam is
          const auto query = queryAt(*stretch, share, lag * passage, frame, travel, emission);
          if (!query) continue;
          const double rise = steady.rise_K_W(*query).front_K;
          const Point fromMiddle = query->place - stroke.middleAt(query->time_s);
          HotSpot& hot = fromMiddle.x() > 0 ? right : left;
          if (rise > hot.point_K_W) hot = {*query, fromMiddle, query->time_s, rise};
        }
      }
    }
    spots.push_back(right);
    spots.push_back(left);
  }
  std::ranges::stable_sort(spots, std::greater(), &HotSpot::point_K_W);
  std::erase_if(spots, [](const HotSpot& spot) { return spot.point_K_W <= 0; });
  return spots;
}

}  // namespace bw

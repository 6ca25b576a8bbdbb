// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/part_trace.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace bw {

namespace {

constexpr double averaging_s = 0.010;

/// Mean over the 10 ms up to `end_s` at a place, over a spot-sized patch.
FacesRise patchMean(const PathHeat& near, const Point& place, double end_s, double spotVariance_m2, int samples) {
  FacesRise mean;
  for (int i = 0; i < samples; ++i) {
    const double time = end_s - averaging_s * (i + 0.5) / samples;
    const FacesRise rise = near.rise_K_W({place, time, 0, spotVariance_m2});
    mean.front_K += rise.front_K / samples;
    mean.back_K += rise.back_K / samples;
  }
  return mean;
}

/// A circle or a piece of a spiral.
bool isArc(const Stretch& s) { return s.rate_rad_s > 0 && s.swing.x() == s.swing.y() && s.multiple.x() == s.multiple.y(); }

/// Pieces of the frame worth trying: lit ones near its beginning, middle and end; of two swings also near the quarters, where the slow one
/// turns back.
std::vector<const Stretch*> candidates(const Frame& frame) {
  std::vector<const Stretch*> lit, chosen;
  for (const Stretch& stretch : frame.stretches()) {
    if (stretch.lit) lit.push_back(&stretch);
  }
  const std::size_t count = lit.size(), run = 4;
  std::vector<std::size_t> from{0, count / 2, count > run ? count - run : 0};
  if (count > 2 * run && lit.front()->rate_rad_s > 0 && !isArc(*lit.front()))
    from.insert(from.end(), {count / 4 - run / 2, 3 * count / 4 - run / 2});
  for (const std::size_t first : from) {
    for (std::size_t i = first; i < std::min(first + run, count); ++i) {
      if (std::ranges::find(chosen, lit[i]) == chosen.end()) chosen.push_back(lit[i]);
    }
  }
  return chosen;
}

/// Ends of lines and their middles; turns and swings from the apex on, where the head is slow and comes back over what it has just heated;
/// arcs are much the same all along.
std::vector<double> sharesOf(const Stretch& stretch) {
  if (stretch.isStraight()) return {0.01, 0.04, 0.1, 0.5, 0.97};
  if (stretch.rate_rad_s == 0) return {0.5, 0.55, 0.6, 0.65, 0.7, 0.77, 0.97};
  if (isArc(stretch)) return {0.5, 0.97};
  return {0.01, 0.04, 0.1, 0.5, 0.55, 0.6, 0.65, 0.7, 0.77, 0.9, 0.97};
}

/// The next pulse, or the frame's last one.
double pulseAt(double time_s, const Frame& frame, double rate_Hz) {
  const double k = std::ceil(time_s * rate_Hz);
  return (k / rate_Hz < frame.period_s() ? k : std::max(0.0, k - 1)) / rate_Hz;
}

/// Under the beam, or `lag_s` behind a continuous one. Nothing where the next pulse is not fired.
std::optional<HeatQuery> queryAt(const Stretch& stretch, double share, double lag_s, const Frame& frame, const Travel& travel,
                                 const Emission& emission) {
  double time = stretch.begin_s + share * stretch.duration_s;
  if (emission.pulsed) time = pulseAt(time, frame, emission.rate_Hz);
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

HotSpot hottestSpot(const PathHeat& near, const Frame& frame, const Travel& travel, const Emission& emission) {
  HotSpot hot;
  for (const Stretch* stretch : candidates(frame)) {
    const double passage = near.spotRadius_m() / std::max(stretch->topSpeed_m_s(), 1e-9);
    for (const double share : sharesOf(*stretch)) {
      for (const double lag : {0.0, 0.5, 1.0}) {
        if (emission.pulsed && lag > 0) continue;  // the next pulse lands where the beam is
        const auto query = queryAt(*stretch, share, lag * passage, frame, travel, emission);
        if (!query) continue;
        const double rise = near.rise_K_W(*query).front_K;
        if (rise > hot.point_K_W) hot = {*query, rise, 0, 0};
      }
    }
  }
  const double spotVariance = near.spotRadius_m() * near.spotRadius_m() / 4;
  for (const double late : {0.0, 0.5, 1.0}) {
    const FacesRise mean = patchMean(near, hot.query.place, hot.query.time_s + late * averaging_s, spotVariance, 12);
    hot.patchFront_K_W = std::max(hot.patchFront_K_W, mean.front_K);
    hot.patchBack_K_W = std::max(hot.patchBack_K_W, mean.back_K);
  }
  return hot;
}

namespace {

/// Times around one crossing: evenly while the frame goes over, then ever wider apart.
std::vector<double> crossingTimes(double over_s, double until_s) {
  std::vector<double> times;
  for (int i = -8; i <= 8; ++i) times.push_back(over_s * i / 12.0);
  for (double t = over_s * 0.75; t < until_s; t *= 1.35) times.push_back(t);
  return times;
}

/// Passes worth drawing: the first and last few of a long job.
std::vector<int> drawnPasses(int passes) {
  std::vector<int> drawn;
  for (int pass = 0; pass < passes; ++pass) {
    if (pass < 6 || pass >= passes - 6) drawn.push_back(pass);
  }
  return drawn;
}

}  // namespace

PartTrace traceOf(const PathHeat& near, const PartHeat& part, const Tour& tour, const Frame& frame, double litFraction) {
  const double over = std::max(tour.frameAlong_m / tour.travelSpeed_m_s, frame.period_s());
  const double spotVariance = near.spotRadius_m() * near.spotRadius_m() / 4;
  const std::vector<double> after = crossingTimes(over, std::max(tour.passTime_s() - over, over));
  std::vector<FacesRise> nearAt;  // the same at every crossing
  for (const double t : after) {
    const bool under = t > -over / 2 - averaging_s && t < over / 2 + near.oldest_s() + averaging_s;
    nearAt.push_back(under ? patchMean(near, Point::Zero(), t, spotVariance, 4) : FacesRise{});
  }

  PartTrace trace;
  const auto add = [&](double time, const FacesRise& rise) {
    if (time <= 0 || (!trace.time_s.empty() && time <= trace.time_s.back())) return;
    trace.time_s.push_back(time);
    trace.part_K_W.push_back(litFraction * part.rise_K_W(time));
    trace.nearFront_K_W.push_back(rise.front_K);
    trace.nearBack_K_W.push_back(rise.back_K);
  };
  for (const int pass : drawnPasses(tour.passes)) {
    const double crossing = tour.crossing_s(pass), start = pass * tour.passTime_s();
    for (int i = 1; i <= 12; ++i) add(start + (crossing - over - start) * i / 12, {});
    for (std::size_t i = 0; i < after.size(); ++i) {
      if (crossing + after[i] < (pass + 1) * tour.passTime_s() || pass + 1 == tour.passes) add(crossing + after[i], nearAt[i]);
    }
  }
  const double end = tour.workTime_s();
  for (int i = 0; i <= 12; ++i) add(end + (1 + tour.passTime_s()) * i / 12.0, {});
  return trace;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/hot_place.h"

#include "core/heat/hot_refining.h"
#include "core/values/stopped.h"

#include <algorithm>
#include <iterator>

namespace bw {

namespace {

double topSpeedOf(const Frame& frame) {
  double speed = 0;
  for (const Stretch& stretch : frame.stretches()) speed = std::max(speed, stretch.topSpeed_m_s());
  return speed;
}

/// Hottest first, as many as asked for, so far apart across, or travelling the other way, that they are not all the same hot spot along
/// its way.
std::vector<HeatTrial> someOf(std::vector<HeatTrial> trials, std::size_t most, const Point& apart_m, const HandTour& tour) {
  std::ranges::stable_sort(trials, std::greater(), &HeatTrial::value_C);
  const auto up = [&](const HeatTrial& trial) { return tour.strokes[trial.stroke].speed_m_s > 0; };
  std::vector<HeatTrial> some;
  for (const HeatTrial& trial : trials) {
    const bool known = std::ranges::any_of(some, [&](const HeatTrial& one) {
      return ((one.place - trial.place).array().abs() < apart_m.array()).all() && up(one) == up(trial);
    });
    if (!known && some.size() < most) some.push_back(trial);
  }
  return some;
}

/// The hottest of all trials: the hottest few, coarsely refined, and the hottest of these finely; one of `enough_C` as it is.
/// `steps(trial)` to begin with.
template <class Value, class StepsOf>
HeatTrial hottestOf(std::vector<HeatTrial> trials, const Refining& refining, const StepsOf& steps, const Point& apart_m, const Value& value,
                    const Closer& closer, const std::stop_token& stop, double enough_C = 1e300) {
  for (HeatTrial& trial : trials) {
    throwIfStopped(stop);
    trial.value_C = value(trial);
  }
  const HeatTrial first = *std::ranges::max_element(trials, {}, &HeatTrial::value_C);
  if (first.value_C >= enough_C) return first;
  trials = someOf(std::move(trials), static_cast<std::size_t>(closer.trials), apart_m, refining.tour());
  for (HeatTrial& trial : trials) {
    throwIfStopped(stop);
    trial = refining.hotter(refining.withFramesBefore(trial, value), steps(trial), 2, value);
  }
  const HeatTrial best = *std::ranges::max_element(trials, {}, &HeatTrial::value_C);
  return refining.hotter(best, steps(best), closer.halvings, value);
}

// As many of the moments as are tried, those that look hottest. On the sample plans the hottest of all was among the first 60 by the front,
// 30 by the back.
constexpr std::size_t likelyFronts = 100, likelyOverlaps = 12, likelyBacks = 40;

/// Those that look hottest on a face; of an end of the part one of the two ways to be at it is left out.
std::vector<HotMoment> likeliest(std::vector<HotMoment> moments, double Faces::*face, bool HotMoment::*leftOut, std::size_t most) {
  std::erase_if(moments, [&](const HotMoment& moment) { return moment.*leftOut; });
  std::ranges::stable_sort(moments, std::greater(), [face](const HotMoment& moment) { return moment.seen.*face; });
  moments.resize(std::min(moments.size(), most));
  return moments;
}

PatchMoment momentOf(const HeatTrial& trial) { return {trial.place, trial.time_s, trial.frames}; }

}  // namespace

HotPlace hottestPlace(const WorkHeat& heat, const Frame& frame, double travelAngle_rad, const Emission& emission,
                      const std::vector<HotSpot>& spots, const std::stop_token& stop, const Closer& closer, const Crew& crew) {
  const HotMoments moments = hotMoments(heat, frame, travelAngle_rad, emission, spots, stop);
  const Refining refining(heat, frame.period_s(), emission.pulsed ? 1 / emission.rate_Hz : 0);
  const double w = heat.near().spotRadius_m(),
               through = std::pow(heat.near().plate().thickness_m, 2) / heat.near().plate().diffusivity_m2_s();
  const auto trialsOf = [&](const std::vector<HotMoment>& seen, double late_s) {
    std::vector<HeatTrial> trials;
    for (const HotMoment& moment : seen) trials.push_back(refining.trialOf(moment));
    if (trials.empty()) trials.push_back({0, heat.near().tour().part_m / 2, heat.near().tour().strokes.front().end_s});
    for (HeatTrial& trial : trials) trial.time_s += late_s;
    return trials;
  };
  const auto fronts = [&](bool HotMoment::*leftOut) {
    std::vector<HotMoment> tried = likeliest(moments.front, &Faces::front_C, leftOut, likelyFronts);
    std::ranges::copy(likeliest(moments.overlaps, &Faces::front_C, leftOut, likelyOverlaps), std::back_inserter(tried));
    return tried;
  };
  const double passing = 2 * w / std::max(topSpeedOf(frame), 1e-9), inside = heat.near().boxes().all.size.x() / 16;
  const double quarter = frame.period_s() / 4;
  const auto front = [&](const HeatTrial& trial) { return refining.patch_C(trial).front_C; };
  const auto back = [&](const HeatTrial& trial) { return refining.patch_C(trial).back_C; };
  const double slow = std::max(patchTime_s, 0.3 * through);
  const auto backSteps = [&](const HeatTrial& t) { return refining.stepsFor(t, inside, 4 * w, slow, std::min(slow, quarter)); };
  auto backs = crew.beside([&] {
    return hottestOf(trialsOf(likeliest(moments.back, &Faces::back_C, &HotMoment::atEdge, likelyBacks), patchTime_s + 0.3 * through),
                     refining, backSteps, Point(inside, 1e9), back, closer, stop);
  });
  const HeatTrial point = hottestOf(
      trialsOf(fronts(&HotMoment::inset), 0), refining, [&](const HeatTrial& t) { return refining.stepsFor(t, w, w, passing, passing); },
      Point(0, 0), [&](const HeatTrial& t) { return refining.point_C(t); }, closer, stop, closer.enough_C);
  std::vector<HeatTrial> patches = trialsOf(fronts(&HotMoment::atEdge), 0.4 * patchTime_s);
  for (const double share : {0.2, 0.4, 0.7}) {  // a patch is often hottest where a point is
    patches.push_back(point);
    patches.back().time_s += share * patchTime_s;
  }
  const HeatTrial hotFront = hottestOf(
      patches, refining,
      [&](const HeatTrial& t) { return refining.stepsFor(t, 2 * w, 2 * w, patchTime_s, std::min(patchTime_s, quarter)); },
      Point(5 * w, heat.near().boxes().all.size.y() / 2), front, closer, stop);

  HeatTrial hotBack = backs.get();
  // Beneath the hottest front, somewhat later, it may be as hot.
  HeatTrial beneath = hotFront;
  beneath.time_s += 0.3 * through;
  beneath.value_C = back(beneath);
  const double under = heat.part_C(beneath.place, beneath.time_s);
  if (beneath.value_C - under > 0.8 * (hotBack.value_C - under))
    beneath = refining.hotter(beneath, backSteps(beneath), closer.halvings, back);
  if (beneath.value_C > hotBack.value_C) hotBack = beneath;

  HotPlace hot;
  hot.query = refining.queryOf(point);
  hot.stroke = static_cast<int>(point.stroke);
  hot.pointRise = heat.near().rise_K_W(hot.query);
  hot.point_C = point.value_C;
  hot.part_C = heat.part_C(hot.query.place, hot.query.time_s);
  hot.patch = {hotFront.value_C, hotBack.value_C};
  hot.front = momentOf(hotFront);
  hot.back = momentOf(hotBack);
  return hot;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/heat_work.h"
#include "core/assess/removal_work.h"
#include "core/heat/limits.h"
#include "core/heat/part_map.h"
#include "core/values/stopped.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <random>

namespace bw {

namespace {

RemovedMap blankMap(const Work& work, const Assessment& first) {
  constexpr double mostPoints = 2e4, mostValues = 4e6;
  const DoseMap& dose = *first.map;
  const double points = std::max(1.0, std::min(mostPoints, mostValues / (work.settings().passes + 1.0)));
  const double step = std::max(first.beam.spotDiameter_m / 2, std::sqrt(dose.across_m() * dose.along_m() / points));
  RemovedMap map;
  map.columns = std::clamp(static_cast<int>(std::ceil(dose.across_m() / step)), 1, dose.columns);
  map.rows = std::clamp(static_cast<int>(std::ceil(dose.along_m() / step)), 1, dose.rows);
  map.cellAcross_m = dose.across_m() / map.columns;
  map.cellAlong_m = dose.along_m() / map.rows;
  map.depth_m.assign(static_cast<std::size_t>(work.settings().passes) + 1,
                     std::vector<float>(static_cast<std::size_t>(map.columns) * static_cast<std::size_t>(map.rows), 0));
  return map;
}

/// What passes laid by chance have brought each point of the map so far.
class LaidByChance {
 public:
  LaidByChance(const DoseMap& onePass, const RemovedMap& points) : m_pass(onePass), m_points(points), m_dose(points.depth_m[0].size(), 0) {}

  void addPass() {
    const auto chance = [&](int count) { return static_cast<int>(m_random() % static_cast<unsigned>(count)); };
    const int across = chance(m_pass.columns), along = chance(m_pass.rows);
    std::size_t i = 0;
    for (int row = 0; row < m_points.rows; ++row) {
      const int y = (row * m_pass.rows / m_points.rows + along) % m_pass.rows;
      for (int column = 0; column < m_points.columns; ++column, ++i)
        m_dose[i] += m_pass.at((column * m_pass.columns / m_points.columns + across) % m_pass.columns, y);
    }
  }

  /// The points from the least brought to the most.
  std::vector<std::size_t> order() const {
    std::vector<std::size_t> order(m_dose.size());
    std::iota(order.begin(), order.end(), 0);
    std::ranges::stable_sort(order, {}, [&](std::size_t i) { return m_dose[i]; });
    return order;
  }

 private:
  const DoseMap& m_pass;
  const RemovedMap& m_points;
  std::vector<float> m_dose;
  std::mt19937 m_random{11};
};

/// How deep it is gone at each rank of so many points, shallowest first: as at the places.
std::vector<float> depthsByRank(const std::vector<PlaceHistory>& places, std::size_t pass, std::size_t points) {
  std::vector<std::pair<double, double>> depths;  // with shares
  for (const PlaceHistory& place : places) depths.emplace_back(place.depth_m[std::min(pass, place.depth_m.size() - 1)], place.share);
  std::ranges::sort(depths);
  std::vector<float> ranks;
  double below = 0;
  for (const auto& [depth, share] : depths) {
    below += share;
    const auto end = std::min(points, static_cast<std::size_t>(below * static_cast<double>(points) + 0.5));
    ranks.resize(std::max(ranks.size(), end), static_cast<float>(depth));
  }
  ranks.resize(points, static_cast<float>(depths.back().first));
  return ranks;
}

/// What each pass of the plan leaves, as it may look: passes laid by chance; where they have brought least, least is gone, as much of the
/// surface this deep and that as of the places. No deeper after a pass than after the next.
std::shared_ptr<const RemovedMap> removedMap(const Work& work, const Assessment& first) {
  auto map = std::make_shared<RemovedMap>(blankMap(work, first));
  LaidByChance laid(*first.map, *map);
  for (std::size_t pass = 1; pass < map->depth_m.size(); ++pass) {
    throwIfStopped(work.stop);
    laid.addPass();
    const std::vector<float> depths = depthsByRank(first.removal.places, pass, map->depth_m[pass].size());
    const std::vector<std::size_t> order = laid.order();
    for (std::size_t rank = 0; rank < order.size(); ++rank) map->depth_m[pass][order[rank]] = depths[rank];
  }
  for (std::size_t pass = map->depth_m.size() - 1; pass > 0; --pass)
    for (std::size_t i = 0; i < map->depth_m[pass].size(); ++i)
      map->depth_m[pass - 1][i] = std::min(map->depth_m[pass - 1][i], map->depth_m[pass][i]);
  return map;
}

/// Frame upon frame on 25 points of a frame that does not move.
std::optional<StillHand> stillHand(const Work& work, const Assessment& first) {
  constexpr double longest_s = 60, mostStrikes = 2e5, side = 5;
  const double radius = first.beam.spotDiameter_m / 2, period = work.scan->frame->period_s();
  const Travel still(0, work.settings().travelAngle_rad);
  const std::vector<DabRow> strikes = strikesOf(*work.scan->frame, still, work.scan->emission, radius, work.stop);
  if (strikes.empty()) return std::nullopt;
  const auto [low, high] = litBounds(*work.scan->frame, still);
  const RepeatCell alone{high.x() - low.x() + 10 * radius, high.y() - low.y() + 10 * radius};  // no neighbour reaches in
  const HitFinder hits(strikes, alone, SpotProfile(work.machine.beamProfile), radius,
                       {period, 0, work.pulsed() ? 0 : work.scan->emission.onPower_W()});
  const CoatedMetal part = coatedMetal(work.coat, warmMetal(work));
  const std::vector<bool> kept = keptLayers(work.coat);
  if (std::ranges::find(kept, false) == kept.end()) return std::nullopt;
  const double dearer = work.pulsed() ? 1 : 50;  // a column's step over a ledger's
  std::vector<double> clear_s;
  double followed_s = longest_s;
  for (double j = 0; j < side; ++j) {
    for (double i = 0; i < side; ++i) {
      const Point at = low + (high - low).cwiseProduct(Point((i + 0.5) / side, (j + 0.5) / side));
      const Place place = sameEachPass(hits.at(at));
      if (place.hitsOf(1).empty()) continue;  // outside a round frame
      const double frames = std::min(longest_s / period, mostStrikes / dearer / static_cast<double>(place.hitsOf(1).size()));
      const PassRhythm rhythm{work.pulsed() ? work.settings().pulseDuration_s : 0, period, static_cast<int>(std::max(1.0, frames)), 1, true};
      followed_s = std::min(followed_s, rhythm.passes * period);
      clear_s.push_back(runPlace(part, work.project.part.thickness_m.likely, kept, place, rhythm, work.stop).clearAfter * period);
    }
  }
  std::ranges::sort(clear_s);
  const auto known = [](double time_s) { return std::isinf(time_s) ? std::nullopt : std::optional(time_s); };
  if (clear_s.empty()) return std::nullopt;
  return StillHand{known(clear_s.front()), known(clear_s[static_cast<std::size_t>(0.95 * static_cast<double>(clear_s.size()))]),
                   followed_s};
}

/// The place that gets more light than half of all: the same one whatever the power.
const Place& middlePlace(const std::vector<Place>& places) {
  std::vector<const Place*> byDose;
  for (const Place& place : places) byDose.push_back(&place);
  const auto middle = byDose.begin() + static_cast<std::ptrdiff_t>(byDose.size() / 2);
  std::ranges::nth_element(byDose, middle, {}, &Place::dose_J_m2);
  return **middle;
}

/// Tilt by tilt at the middle place: the irradiance falls with the cosine.
void findTilts(const Work& work, const Assessment& first, std::vector<LayerResult>& layers) {
  constexpr double step_rad = 2.5 * std::numbers::pi / 180, steepest_rad = 85 * std::numbers::pi / 180;
  const CoatedMetal part = coatedMetal(work.coat, warmMetal(work));
  const std::vector<bool> kept = keptLayers(work.coat);
  PassRhythm rhythm = rhythmOf(work);
  rhythm.onlyPlanned = true;
  const Place& place = middlePlace(*first.places);
  for (double tilt = 0; tilt <= steepest_rad; tilt += step_rad) {
    rhythm.change.factor = std::cos(tilt);
    const auto left = runPlace(part, work.project.part.thickness_m.likely, kept, place, rhythm, work.stop).after(rhythm.passes);
    bool any = false;
    for (std::size_t i = 0; i < layers.size() && left[i] <= 0; ++i) {
      layers[i].clearsUpTo_rad = tilt;
      any = true;
    }
    if (!any) return;
  }
}

/// What the heat does if the hand stops, and over the part.
void addHeat(const Work& work, const Assessment& first, Assessment& deep) {
  if (!work.bare || !first.thermal.front_C) return;
  deep.thermal.stillHand = stillHandHeat(work, *work.bare);
  addStillHand(deep.thermal.limits, *deep.thermal.stillHand, first.thermal.flashRise_K);
  deep.thermal.map = std::make_shared<const PartMap>(heatMap(work, *work.bare, first));
}

}  // namespace

Assessment inDepth(const Project& project, const Library& shipped, const Assessment& first, std::stop_token stop, const Crew& crew) {
  if (!first.map || !first.physics) return first;
  Work work = prepare(project, first.plan, shipped, std::move(stop));
  work.crew = crew;
  work.scan = first.physics->scan;
  work.bare = first.physics->bare;
  work.nearBare_C = first.thermal.nearBare_C.value_or(project.part.startTemperature_C);

  Assessment deep = first;
  auto heated = work.crew.beside([&] { addHeat(work, first, deep); });
  const bool followed = first.places && !work.scan->strikes.empty();
  if (followed && !work.coat.empty()) {
    findTilts(work, first, deep.removal.layers);
    deep.removal.stillHand = stillHand(work, first);
    deep.removal.map = removedMap(work, first);
  }
  heated.get();
  if (followed) deep.ranges = rangesOf(work, first);
  deep.drawsTooLong = followed && !deep.ranges;
  if (deep.ranges)
    for (std::size_t i = 0; i < deep.ranges->limits_C.size(); ++i) deep.thermal.limits[i].predictedRange_C = deep.ranges->limits_C[i];
  conclude(work, deep);
  return deep;
}

}  // namespace bw

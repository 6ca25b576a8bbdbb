// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/heat_work.h"
#include "core/assess/removal_work.h"
#include "core/heat/limits.h"
#include "core/heat/part_map.h"
#include "core/values/stopped.h"

#include <algorithm>
#include <cmath>
#include <future>
#include <numbers>

namespace bw {

namespace {

// Of the map of what is left: points, values kept, hits followed.
constexpr double mostPoints = 2e4, mostValues = 4e6, mostHits = 6e6;

/// Calls fill(row) for all rows, on two threads.
template <class Fill>
void forRows(int rows, const std::stop_token& stop, Fill fill) {
  const auto every = [&](int begin) {
    for (int row = begin; row < rows; row += 2) {
      throwIfStopped(stop);
      fill(row);
    }
  };
  auto other = std::async(std::launch::async, every, 1);
  every(0);
  other.get();
}

RemovedMap blankMap(const Work& work, const Assessment& first) {
  const DoseMap& dose = *first.map;
  const double passes = work.settings().passes, hits = static_cast<double>((*first.places)[first.places->size() / 2].hits.size());
  const double points = std::max(1.0, std::min({mostPoints, mostValues / (passes + 1), mostHits / (passes * (hits + 1))}));
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

double depthAfter(const PlaceRun& run, int pass) {
  double gone = 0;
  for (std::size_t i = 0; i < run.left_m.front().size(); ++i) gone += run.left_m.front()[i] - run.after(pass)[i];
  return gone;
}

/// What each pass of the plan leaves: pulses followed at every point. Columns cost too much for that: a continuous beam's points take
/// over what the place of the most similar dose came to.
std::shared_ptr<const RemovedMap> removedMap(const Work& work, const Assessment& first) {
  auto map = std::make_shared<RemovedMap>(blankMap(work, first));
  const CoatedMetal part = coatedMetal(work.coat, warmMetal(work));
  const std::vector<bool> kept = keptLayers(work.coat);
  const HitFinder hits = hitsOf(work, first);
  PassRhythm rhythm = rhythmOf(work);
  rhythm.onlyPlanned = true;
  const auto followed = [&](const Point& at) {
    return runPlace(part, work.project.part.thickness_m.likely, kept, Place{1, at.x(), at.y(), 0, hits.at(at)}, rhythm, work.stop);
  };
  const auto likeAPlace = [&](const Point& at, int pass) {
    const DoseMap& dose = *first.map;
    const double here = static_cast<double>(dose.at(std::min(dose.columns - 1, static_cast<int>(at.x() / dose.cellAcross_m)),
                                                    std::min(dose.rows - 1, static_cast<int>(at.y() / dose.cellAlong_m))));
    const auto& places = first.removal.places;
    const auto alike = std::ranges::min_element(places, {}, [&](const PlaceHistory& place) { return std::abs(place.dose_J_m2 - here); });
    return alike->depth_m[std::min(static_cast<std::size_t>(pass), alike->depth_m.size() - 1)];
  };
  forRows(map->rows, work.stop, [&](int row) {
    for (int column = 0; column < map->columns; ++column) {
      const Point at((column + 0.5) * map->cellAcross_m, (row + 0.5) * map->cellAlong_m);
      const auto cell = static_cast<std::size_t>(row) * static_cast<std::size_t>(map->columns) + static_cast<std::size_t>(column);
      const PlaceRun run = work.pulsed() ? followed(at) : PlaceRun{};
      for (int pass = 1; pass <= work.settings().passes; ++pass)
        map->depth_m[static_cast<std::size_t>(pass)][cell] = static_cast<float>(work.pulsed() ? depthAfter(run, pass) : likeAPlace(at, pass));
    }
  });
  return map;
}

/// Frame upon frame on 25 points of a frame that does not move.
std::optional<StillHand> stillHand(const Work& work, const Assessment& first) {
  constexpr double longest_s = 60, mostStrikes = 2e5, side = 5;
  const double radius = first.beam.spotDiameter_m / 2, period = work.frame->period_s();
  const auto dabs = dabsOf(*work.frame, Travel(0, work.settings().travelAngle_rad), work.emission, radius, work.stop);
  if (dabs.empty()) return std::nullopt;
  Point low = dabs.front().position, high = low;
  for (const Dab& dab : dabs) {
    low = low.cwiseMin(dab.position);
    high = high.cwiseMax(dab.position);
  }
  const RepeatCell alone{high.x() - low.x() + 10 * radius, high.y() - low.y() + 10 * radius};  // no neighbour reaches in
  const HitFinder hits(dabs, alone, SpotProfile(work.machine.beamProfile), radius, {period, 0, work.pulsed() ? 0 : work.emission.onPower_W()});
  const CoatedMetal part = coatedMetal(work.coat, warmMetal(work));
  const std::vector<bool> kept = keptLayers(work.coat);
  if (std::ranges::find(kept, false) == kept.end()) return std::nullopt;
  const double dearer = work.pulsed() ? 1 : 50;  // a column's step over a ledger's
  std::vector<double> clear_s;
  double followed_s = longest_s;
  for (double j = 0; j < side; ++j) {
    for (double i = 0; i < side; ++i) {
      const Point at = low + (high - low).cwiseProduct(Point((i + 0.5) / side, (j + 0.5) / side));
      const Place place{1, at.x(), at.y(), 0, hits.at(at)};
      if (place.hits.empty()) continue;  // outside a round frame
      const double frames = std::min(longest_s / period, mostStrikes / dearer / static_cast<double>(place.hits.size()));
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

/// Tilt by tilt at the place of middling dose: the irradiance falls with the cosine.
void findTilts(const Work& work, const Assessment& first, std::vector<LayerResult>& layers) {
  constexpr double step_rad = 2.5 * std::numbers::pi / 180, steepest_rad = 85 * std::numbers::pi / 180;
  const CoatedMetal part = coatedMetal(work.coat, warmMetal(work));
  const std::vector<bool> kept = keptLayers(work.coat);
  PassRhythm rhythm = rhythmOf(work);
  rhythm.onlyPlanned = true;
  for (double tilt = 0; tilt <= steepest_rad; tilt += step_rad) {
    Place place = (*first.places)[first.places->size() / 2];
    for (Hit& hit : place.hits) hit.fluence_J_m2 *= std::cos(tilt);
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
void addHeat(Work& work, const Assessment& first, Assessment& deep) {
  const double power = work.metal.absorptance.high * first.beam.meanPower_W;
  work.bare = bareHeat(work, heatInput(work, first.beam.spotDiameter_m / 2, power), deepCells);
  if (!work.bare || !first.thermal.front_C) return;
  deep.thermal.stillHand = stillHandHeat(work, *work.bare);
  addStillHand(deep.thermal.limits, *deep.thermal.stillHand, first.thermal.flashRise_K);
  deep.thermal.map = std::make_shared<const PartMap>(heatMap(work, *work.bare, first));
}

}  // namespace

Assessment inDepth(const Project& project, const Library& shipped, const Assessment& first, std::stop_token stop) {
  if (!first.map) return first;
  Work work = prepare(project, first.plan, shipped, std::move(stop));
  Assessment scratch;
  assessScan(work, scratch);
  if (!work.frame) return first;
  work.nearBare_C = first.thermal.nearBare_C.value_or(project.part.startTemperature_C);

  Assessment deep = first;
  auto heated = std::async(std::launch::async, [&] { addHeat(work, first, deep); });
  const bool followed = first.places && !work.dabs.empty();
  if (followed && !work.coat.empty()) {
    findTilts(work, first, deep.removal.layers);
    deep.removal.stillHand = stillHand(work, first);
    deep.removal.map = removedMap(work, first);
  }
  heated.get();
  work.strippingShare = first.removal.strippingShare;
  if (followed) deep.ranges = rangesOf(work, first);
  if (deep.ranges)
    for (std::size_t i = 0; i < deep.ranges->limits_C.size(); ++i) deep.thermal.limits[i].predictedRange_C = deep.ranges->limits_C[i];
  conclude(work, deep);
  return deep;
}

}  // namespace bw

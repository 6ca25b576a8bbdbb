// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/beam/profile.h"
#include "core/dose/repeat_cell.h"
#include "core/removal/places.h"

#include <algorithm>
#include <numeric>

namespace bw::test {

/// A raster small enough for brute force: 4 mm by 1.5 mm, spot of 1/e2 radius 150 um, 100 W at 40 kHz.
struct SmallRaster {
  explicit SmallRaster(double power_W = 100, double exponent = 2)
      : profile(exponent),
        frame(buildFrame(settings(), head())),
        travel(settings().travelSpeed_m_s, settings().travelAngle_rad),
        emission{true, settings().repetitionRate_Hz, power_W},
        dabs(dabsOf(frame, travel, emission, radius_m)),
        strikes(strikesOf(frame, travel, emission, radius_m)),
        cell{settings().stepOver_m, settings().travelSpeed_m_s * frame.period_s()},
        map(steadyMap(rowsOf(frame, travel, emission, radius_m), profile, roundSpot(radius_m), cell, gridOf(cell, 30e-6))) {}

  static Settings settings() {
    Settings s;
    s.pattern = Pattern::Raster;
    s.width_m = 4e-3;
    s.height_m = 1.5e-3;
    s.scanSpeed_m_s = 5;
    s.lineSpacing_m = 0.15e-3;
    s.repetitionRate_Hz = 40e3;
    s.travelSpeed_m_s = 0.05;
    s.stepOver_m = 3.5e-3;
    return s;
  }
  static ScanHead head() {
    ScanHead head;
    head.turnaround_s = 250e-6;
    return head;
  }
  HitFinder finder() const { return {strikes, {map.across_m(), map.along_m()}, profile, radius_m, {frame.period_s(), stroke_s, 0}}; }

  /// By chance of phase.
  std::vector<Place> places(int count, int passes = 1) const {
    return placesByChance(finder(), count, {0.06, settings().lineSpacing_m + cell.along_m / lineCount(settings()), passes});
  }

  /// Every pass in step with the one before: the least hundredth and `classes` of equal share, each by its middle, least dose first.
  std::vector<Place> inStep(int classes) const {
    constexpr double leastShare = 0.01;
    const HitFinder hits = finder();
    std::vector<std::size_t> cells(map.dose_J_m2.size());
    std::iota(cells.begin(), cells.end(), 0);
    std::ranges::stable_sort(cells, {}, [&](std::size_t i) { return map.dose_J_m2[i]; });
    const auto at = [&](double middle, double share) {
      const std::size_t cell = cells[static_cast<std::size_t>(middle * static_cast<double>(cells.size()))];
      const auto columns = static_cast<std::size_t>(map.columns);
      Place place = sameEachPass(hits.at(Point((static_cast<double>(cell % columns) + 0.5) * map.cellAcross_m,
                                               (static_cast<double>(cell / columns) + 0.5) * map.cellAlong_m)));
      place.share = share;
      return place;
    };
    std::vector<Place> places = {at(leastShare / 2, leastShare)};
    const double share = (1 - leastShare) / classes;
    for (int i = 0; i < classes; ++i) places.push_back(at(leastShare + (i + 0.5) * share, share));
    return places;
  }

  static constexpr double radius_m = 150e-6;
  static constexpr double stroke_s = 2.0;
  SpotProfile profile;
  Frame frame;
  Travel travel;
  Emission emission;
  std::vector<Dab> dabs;
  std::vector<DabRow> strikes;
  RepeatCell cell;
  DoseMap map;
};

}  // namespace bw::test

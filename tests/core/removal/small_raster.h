// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/beam/profile.h"
#include "core/dose/repeat_cell.h"
#include "core/removal/places.h"

#include <memory>

namespace bw::test {

/// A raster small enough for brute force: 4 mm by 1.5 mm, spot of 1/e2 radius 150 um, 100 W at 40 kHz.
struct SmallRaster {
  explicit SmallRaster(double power_W = 100, double exponent = 2)
      : profile(exponent),
        frame(buildFrame(settings(), head())),
        travel(settings().travelSpeed_m_s, settings().travelAngle_rad),
        dabs(dabsOf(frame, travel, {true, settings().repetitionRate_Hz, power_W}, radius_m)),
        cell{settings().stepOver_m, settings().travelSpeed_m_s * frame.period_s()},
        map(steadyMap(rowsOf(frame, travel, {true, settings().repetitionRate_Hz, power_W}, radius_m), profile, roundSpot(radius_m), cell,
                      gridOf(cell, 30e-6))) {}

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
  std::vector<Place> places(int classes) const {
    return choosePlaces(map, HitFinder(dabs, {map.across_m(), map.along_m()}, profile, radius_m, {frame.period_s(), stroke_s, 0}), classes);
  }

  static constexpr double radius_m = 150e-6;
  static constexpr double stroke_s = 2.0;
  SpotProfile profile;
  Frame frame;
  Travel travel;
  std::vector<Dab> dabs;
  RepeatCell cell;
  DoseMap map;
};

}  // namespace bw::test

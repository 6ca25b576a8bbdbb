// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/path_heat.h"

#include <numbers>

namespace bw::test {

inline constexpr double quarterTurn = std::numbers::pi / 2;

inline Plate plateOf(double thickness_m, double conductivity_W_mK, double heatCapacity_J_m3K, double film_W_m2K = 0) {
  return {thickness_m, conductivity_W_mK, heatCapacity_J_m3K, film_W_m2K};
}

/// One straight line, lit, from x = -length/2 at that speed.
inline Frame straightLine(double length_m, double speed_m_s) {
  Stretch line;
  line.start = Point(-length_m / 2, 0);
  line.velocity = Point(speed_m_s, 0);
  line.duration_s = length_m / speed_m_s;
  return Frame({line});
}

inline Frame raster(double width_m, double height_m, double speed_m_s, double spacing_m, double turnaround_s = 0) {
  Settings settings;
  settings.pattern = Pattern::Raster;
  settings.width_m = width_m;
  settings.height_m = height_m;
  settings.scanSpeed_m_s = speed_m_s;
  settings.lineSpacing_m = spacing_m;
  ScanHead head;
  head.turnaround_s = turnaround_s;
  return buildFrame(settings, head);
}

/// A frame of 10 x 4 mm in any pattern, slow and coarse enough that every pulse of a job can be summed.
inline Frame smallFrame(Pattern pattern) {
  Settings settings;
  settings.pattern = pattern;
  settings.width_m = 10e-3;
  settings.height_m = 4e-3;
  settings.scanSpeed_m_s = 1;
  settings.lineSpacing_m = 0.4e-3;
  settings.oscillationRate_Hz = 40;
  ScanHead head;
  head.turnaround_s = 250e-6;
  return buildFrame(settings, head);
}

}  // namespace bw::test

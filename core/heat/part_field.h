// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/scan/frame.h"

#include <vector>

namespace bw {

/// Enthalpy of a part's cells over time, even through the thickness; (across, along), cell (i, j) covers [i, i+1] x [j, j+1] cells.
struct PartField {
  int across = 0;
  int along = 0;
  Point cell_m = Point::Zero();
  std::vector<double> time_s;                     // ascending
  std::vector<std::vector<float>> enthalpy_J_m3;  // [time][j * across + i], over that at 20 degrees

  /// Smooth in place and time: cubic convolution over the cells (mirrored at the edges), cubic Hermite between the times; before the first
  /// and after the last time that of these.
  double at(const Point& place, double time_s) const;

 private:
  double inField(std::size_t step, const Point& place) const;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/cell_range.h"
#include "core/scan/frame.h"

#include <optional>
#include <vector>

namespace bw {

/// Enthalpy of a part's cells over time, even through the thickness; (across, along), cell (i, j) covers [i, i+1] x [j, j+1] cells. Means
/// over cells, over that at 20 degrees.
struct PartField {
  int across = 0;
  int along = 0;
  Point cell_m = Point::Zero();
  std::vector<double> time_s;                     // ascending
  std::vector<std::vector<float>> enthalpy_J_m3;  // [time][j * across + i]

  /// Finer cells, of some of the part at some times.
  struct Moment {
    CellRange cells;
    bool follows = false;  // the one before without a gap
    std::vector<float> enthalpy_J_m3;
  };
  struct Window {
    CellRange part;
    Point cell_m;
    std::vector<double> time_s;
    std::vector<Moment> moments;
  };
  std::vector<Window> windows;  // each of half the cell of the one before

  /// Heat of all ages is here, frames smeared evenly; otherwise only heat that was handed over.
  bool ofAllAges = false;

  /// Smooth in place and time: cubic convolution over the cells (mirrored at the edges), cubic Hermite between the times; before the first
  /// and after the last time that of these. From the finest window that has the place.
  double at(const Point& place, double time_s) const;
};

}  // namespace bw

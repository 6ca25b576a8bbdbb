// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/dose/gaussian_runs.h"
#include "core/dose/spot_table.h"
#include "core/scan/path.h"

#include <span>

namespace bw {

/// Points on the part at which dose is summed: point (column, row) stands at origin + ((column + 0.5) step.x, (row + 0.5) step.y), in
/// (across, along). `periodic`: the pattern repeats beyond the grid, and what falls beyond comes in on the other side; else it is lost.
struct CanvasGrid {
  int columns = 0;
  int rows = 0;
  Point origin = Point::Zero();
  Point step = Point::Zero();
  bool periodic = true;
};

/// Half axes of the spot on the part, 1/e2. Equal where the beam meets the face squarely; stretched by 1/cos(tilt) along the tilt.
struct Footprint {
  double across_m = 0;
  double along_m = 0;
};

/// Sums Gaussian spots and straight rows of them on a grid of floats, everything reckoned in spot radii w.
///
/// Beside a straight row (v) and along it (u) exp(-2 r^2) = exp(-2 v^2) exp(-2 u^2), so a row costs its cells, not its pulses:
/// - close rows (pulse step p up to 0.65 w, and continuous beams): u adds up to sqrt(pi/2)/p inside, rippling by 2 exp(-pi^2/(2 p^2)),
///   2e-5 at most (Poisson sum), and towards the ends to an error function with the Euler-Maclaurin terms of the midpoint rule up to p^8
///   (the first left out: below 7e-5 of the row's own peak at p = 0.65, 5e-6 at 0.5);
/// - wide rows nearly along the grid: the sum along their middle line once, carried to the grid rows by a Taylor series of second order
///   (slope 0.05 at most: 3e-5 of a spot's peak);
/// - all others spot by spot.
/// Spots are cut at 2.75 radii: 3e-7 of a spot's energy lies beyond.
class GaussianCanvas {
 public:
  static constexpr double cut = 2.75;
  static constexpr double closeStep = 0.65;

  /// `cells` holds grid.columns x grid.rows values, row by row. Only rows [firstRow, endRow) are written, so that bands of one map can be
  /// filled at the same time; the sum is the same however many there are.
  GaussianCanvas(const CanvasGrid& grid, const Footprint& spot, std::span<float> cells, int firstRow, int endRow);

  void add(const DabRow& row);

 private:
  /// A row in spot radii from the grid's origin: where its first step begins, its direction, step and number.
  struct Line {
    Point begin = Point::Zero();
    Point along = Point::UnitX();
    double step = 0;
    double count = 1;
    double peak_J_m2 = 0;  // of one spot
    double length() const { return step * count; }
    Point end() const { return begin + along * length(); }
  };

  void addSpot(Point place, double peak_J_m2);
  void addClose(const Line& line, bool smeared);
  void addWide(Line line);
  bool misses(const Point& a, const Point& b) const;
  template <class Paint>
  void forRows(double low, double high, Paint paint);
  template <class Paint>
  void forColumns(int first, int end, Paint paint) const;
  int columnFrom(double x) const;  // the first one at or beyond x
  int rowFrom(double y) const;

  CanvasGrid m_grid;
  Footprint m_spot;
  std::span<float> m_cells;
  int m_firstRow;
  int m_endRow;
  Point m_cell;  // the grid's step in spot radii
  Point m_perCell;
  double m_peakPerJoule;
  GaussianRun m_acrossRun;
  GaussianRun m_alongRun;
  SpotTable m_spotTable;  // for the wide rows of the last slope
  std::vector<float> m_across;
  std::vector<float> m_along;
  std::vector<float> m_shape;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/beam/profile.h"
#include "core/dose/gaussian_canvas.h"

#include <memory>

namespace bw {

/// Values of a radial profile, tabulated once for all bands of a map. A power for every cell would take most of the time.
class RadialTables {
 public:
  explicit RadialTables(const SpotProfile& profile);

  /// In spot radii; beyond it the profile is as weak as a Gaussian beyond its cut.
  double reach() const { return m_reach; }
  /// Against the squared distance in spot radii, read linearly.
  double at(double squared) const;
  /// The profile summed along a straight line v beside the spot's middle, up to u.
  double upTo(double v, double u) const;
  double peakPerWatt_1_m2(const Footprint& spot) const { return m_peak / (spot.across_m * spot.along_m); }

 private:
  static constexpr int entries = 8192;
  static constexpr int lines = 256;
  double m_reach;
  double m_peak;
  std::vector<double> m_value;
  std::vector<double> m_summed;  // lines + 2 rows of lines + 2
};

/// Sums spots that are no Gaussian, cell by cell; pulses one by one, a continuous beam's straight rows by their integral.
/// Read at points, a steep edge keeps a spot's energy on the average only (up to 0.3 % off on one).
class RadialCanvas {
 public:
  RadialCanvas(const CanvasGrid& grid, const Footprint& spot, const RadialTables& tables, std::span<float> cells, int firstRow, int endRow);

  void add(const DabRow& row);

 private:
  void addSpot(const Point& place, double peak_J_m2);
  void addSmeared(const Point& begin, const Point& along, double length, double density_J_m2);
  template <class Value>
  void addCells(const Point& low, const Point& high, Value value);

  CanvasGrid m_grid;
  Footprint m_spot;
  const RadialTables& m_tables;
  std::span<float> m_cells;
  int m_firstRow;
  int m_endRow;
  Point m_cell;
};

}  // namespace bw

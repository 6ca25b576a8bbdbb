// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/dose/gaussian_canvas.h"

#include <cmath>
#include <numbers>
#include <vector>

namespace bw::test {

/// The plain sum the canvases are held against: every dab by itself, 64-bit numbers, one power and one exponential each, no table, no
/// folding, a reach of 6 radii. `exponent` 2: a Gaussian, I = I0 exp(-2 (r/w)^m).
class DirectDose {
 public:
  DirectDose(const CanvasGrid& grid, const Footprint& spot, double exponent = 2) : m_grid(grid), m_spot(spot), m_exponent(exponent) {
    // Peak per joule, m 2^(2/m)/(2 pi w^2 Gamma(2/m)): tests/core/beam/profile_test.cpp checks it by quadrature.
    m_peak = exponent * std::pow(2, 2 / exponent) / (2 * std::numbers::pi * std::tgamma(2 / exponent) * spot.across_m * spot.along_m);
  }

  /// At a place on the part. A smeared row as `perRadius` midpoints a spot radius: off by 1/24 perRadius^-2 of the slope at its ends.
  double at(const Point& place, const DabRow& row, double perRadius = 100) const {
    if (!row.smeared) return at(place, row.first, row.step, static_cast<double>(row.count), row.energy_J);
    const double pieces = std::ceil(inRadii(row.step).norm() * static_cast<double>(row.count) * perRadius);
    const Point whole = row.step * static_cast<double>(row.count), step = whole / pieces;
    return at(place, row.first - row.step / 2 + step / 2, step, pieces, row.energy_J * static_cast<double>(row.count) / pieces);
  }

  double at(const Point& place, const std::vector<DabRow>& rows) const {
    double sum = 0;
    for (const DabRow& row : rows) sum += at(place, row);
    return sum;
  }

  Point place(int column, int row) const { return m_grid.origin + Point((column + 0.5) * m_grid.step.x(), (row + 0.5) * m_grid.step.y()); }

 private:
  Point inRadii(const Point& p) const { return {p.x() / m_spot.across_m, p.y() / m_spot.along_m}; }

  double at(const Point& place, const Point& first, const Point& step, double count, double energy_J) const {
    double sum = 0;
    for (double k = 0; k < count; ++k) sum += images(inRadii(place - first - step * k));
    return sum * energy_J * m_peak;
  }

  /// The spot and, on a periodic grid, all its images that can matter.
  double images(const Point& off) const {
    if (!m_grid.periodic) return shape(off);
    const Point period = inRadii({m_grid.columns * m_grid.step.x(), m_grid.rows * m_grid.step.y()});
    constexpr double reach = 6;
    double sum = 0;
    for (double j = std::ceil((-reach - off.y()) / period.y()); off.y() + j * period.y() <= reach; ++j)
      for (double i = std::ceil((-reach - off.x()) / period.x()); off.x() + i * period.x() <= reach; ++i)
        sum += shape(off + Point(i * period.x(), j * period.y()));
    return sum;
  }
  double shape(const Point& off) const {
    const double squared = off.squaredNorm();
    return squared > 36 ? 0 : std::exp(-2 * (m_exponent == 2 ? squared : std::pow(squared, m_exponent / 2)));
  }

  CanvasGrid m_grid;
  Footprint m_spot;
  double m_exponent;
  double m_peak;
};

}  // namespace bw::test

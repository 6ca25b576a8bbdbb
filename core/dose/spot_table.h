// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

namespace bw {

/// g = exp(-2 u^2), its first derivative and half its second at evenly spaced cells, wherever between two cells the spot stands. Read
/// linearly between tabled places 1/300 apart, which is off by 6e-6 at most (g'' <= 4): a spot costs no exponential.
class SpotTable {
 public:
  SpotTable(double cell, double reach);  // both in spot radii

  double cell() const { return m_cell; }
  /// Cells that a spot touches, a multiple of four: whole vectors.
  int width() const { return m_width; }

  struct Sums {
    std::vector<float> value, slope, bend;
    explicit Sums(std::size_t size) : value(size, 0), slope(size, 0), bend(size, 0) {}
  };

  /// Writes scale g to width() cells, or adds g and its derivatives to those from `at` on. `first` is where the first of them stands from
  /// the spot's middle: -reach <= first < cell - reach.
  void fill(float* out, double first, double scale) const;
  void add(Sums& sums, std::size_t at, double first) const;

 private:
  /// Where to read: between place `low` of the table and the next, `share` of the way.
  struct Between {
    std::size_t low;
    std::size_t high;
    float share;
  };
  Between between(double first) const;

  double m_cell;
  double m_reach;
  int m_width;
  int m_places;  // to a cell
  Sums m_table;  // width() cells for each place
};

}  // namespace bw

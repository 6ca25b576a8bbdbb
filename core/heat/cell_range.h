// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>

namespace bw {

/// Cells [first, first + count) both ways, counted from the part's corner.
struct CellRange {
  int firstAcross = 0, firstAlong = 0, across = 0, along = 0;

  int endAcross() const { return firstAcross + across; }
  int endAlong() const { return firstAlong + along; }
  bool empty() const { return across <= 0 || along <= 0; }
  std::size_t cells() const { return static_cast<std::size_t>(across) * static_cast<std::size_t>(along); }
  bool has(int i, int j) const { return i >= firstAcross && i < endAcross() && j >= firstAlong && j < endAlong(); }

  /// Where a cell of the part stands in a row of this range's cells.
  std::size_t at(int i, int j) const {
    return static_cast<std::size_t>(j - firstAlong) * static_cast<std::size_t>(across) + static_cast<std::size_t>(i - firstAcross);
  }
  bool operator==(const CellRange&) const = default;
};

/// Every cell of a range in so many parts both ways, or so many cells in one.
inline CellRange finer(const CellRange& r, int times) {
  return {r.firstAcross * times, r.firstAlong * times, r.across * times, r.along * times};
}
inline CellRange coarser(const CellRange& r, int times) {
  return {r.firstAcross / times, r.firstAlong / times, r.across / times, r.along / times};
}

/// A cell beyond an end of a row, seen in the mirror of that end.
inline int mirrored(int i, int count) {
  if (i < 0) i = -1 - i;
  if (i >= count) i = 2 * count - 1 - i;
  return std::clamp(i, 0, count - 1);
}

/// Means over the four quarters of a cell, low left, low right, high left, high right, by the polynomials of fourth degree that have the
/// means of five cells both ways; their mean is the cell's. `values` are a range's cells.
template <class Value>
std::array<double, 4> quartersOf(const Value* values, const CellRange& range, const CellRange& part, int across, int along) {
  const auto slope = [](double a, double b, double c, double d) { return (22 * (c - b) - 3 * (d - a)) / 128; };
  const auto inside = [](int i, int count, int first, int kept) { return std::clamp(mirrored(i, count) - first, 0, kept - 1); };
  std::array<int, 5> column{};
  for (int a = 0; a < 5; ++a) column[static_cast<std::size_t>(a)] = inside(across - 2 + a, part.across, range.firstAcross, range.across);
  std::array<double, 5> mean{}, side{};
  for (int b = 0; b < 5; ++b) {
    const int j = inside(along - 2 + b, part.along, range.firstAlong, range.along);
    const Value* line = values + static_cast<std::size_t>(j) * static_cast<std::size_t>(range.across);
    const auto cell = [&](std::size_t a) { return static_cast<double>(line[column[a]]); };
    mean[static_cast<std::size_t>(b)] = cell(2);
    side[static_cast<std::size_t>(b)] = slope(cell(0), cell(1), cell(3), cell(4));
  }
  const double up = slope(mean[0], mean[1], mean[3], mean[4]), twist = slope(side[0], side[1], side[3], side[4]);
  return {mean[2] - side[2] - up + twist, mean[2] + side[2] - up - twist, mean[2] - side[2] + up - twist, mean[2] + side[2] + up + twist};
}

}  // namespace bw

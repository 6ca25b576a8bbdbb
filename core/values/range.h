// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace bw {

/// A quantity known to lie between two bounds. Nine in ten such values lie inside [low, high]; `likely` is the best single guess.
/// A single number is a range of no width.
struct Range {
  double low = 0;
  double likely = 0;
  double high = 0;

  static constexpr Range exact(double value) { return {value, value, value}; }
  constexpr bool isExact() const { return low == high; }
  constexpr Range operator*(double factor) const { return {low * factor, likely * factor, high * factor}; }
  bool operator==(const Range&) const = default;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/bench/plain_dose.h"

#include <cmath>
#include <numbers>

namespace bw {

namespace {

int cellAt(double position_m, double side_m) { return static_cast<int>(std::floor(position_m / side_m)); }

std::size_t wrapped(int index, int count) { return static_cast<std::size_t>((index % count + count) % count); }

}  // namespace

std::vector<double> plainSteadyMap(const std::vector<Dab>& dabs, double spotRadius_m, const RepeatCell& cell, Grid grid) {
  const auto columns = static_cast<std::size_t>(grid.columns);
  std::vector<double> dose_J_m2(columns * static_cast<std::size_t>(grid.rows), 0.0);
  const double dx = cell.across_m / grid.columns, dy = cell.along_m / grid.rows;
  const double w2 = spotRadius_m * spotRadius_m, reach = 3 * spotRadius_m;
  for (const Dab& dab : dabs) {
    const double x = dab.position.x(), y = dab.position.y(), peak_J_m2 = 2 * dab.energy_J / (std::numbers::pi * w2);
    for (int j = cellAt(y - reach, dy); j <= cellAt(y + reach, dy); ++j) {
      for (int i = cellAt(x - reach, dx); i <= cellAt(x + reach, dx); ++i) {
        const double offX = (i + 0.5) * dx - x, offY = (j + 0.5) * dy - y;
        dose_J_m2[wrapped(j, grid.rows) * columns + wrapped(i, grid.columns)] +=
            peak_J_m2 * std::exp(-2 * (offX * offX + offY * offY) / w2);
      }
    }
  }
  return dose_J_m2;
}

}  // namespace bw

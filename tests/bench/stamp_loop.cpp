// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/bench/stamp_loop.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

struct Window {
  int left, right, bottom, top;  // cells [left, right) x [bottom, top)
};

/// Calls stamp(window, x, y, peak) for every pulse; x and y in cells from the middle of the window's first one: floats would
/// lose the last digits of places counted from the map's edge.
template <class Stamp>
void forPulses(const CanvasGrid& grid, double spotRadius_m, const std::vector<DabRow>& rows, Stamp stamp) {
  const double perCell = 1 / grid.step.x(), reach = 3 * spotRadius_m * perCell;
  const double peakPerJoule = 2 / (std::numbers::pi * spotRadius_m * spotRadius_m);
  for (const DabRow& row : rows) {
    const auto peak = static_cast<float>(row.energy_J * peakPerJoule);
    for (std::int64_t k = 0; k < row.count; ++k) {
      const Point place = row.first + row.step * static_cast<double>(k) - grid.origin;
      const double x = place.x() * perCell - 0.5, y = place.y() * perCell - 0.5;
      const Window window{std::max(0, static_cast<int>(std::ceil(x - reach))), std::min(grid.columns, static_cast<int>(x + reach) + 1),
                          std::max(0, static_cast<int>(std::ceil(y - reach))), std::min(grid.rows, static_cast<int>(y + reach) + 1)};
      stamp(window, static_cast<float>(x - window.left), static_cast<float>(y - window.bottom), peak);
    }
  }
}

float perSquare(const CanvasGrid& grid, double spotRadius_m) {
  const double cell = grid.step.x() / spotRadius_m;
  return static_cast<float>(-2 * cell * cell);
}

}  // namespace

void stampEach(const CanvasGrid& grid, double spotRadius_m, const std::vector<DabRow>& rows, std::vector<float>& cells) {
  const float scale = perSquare(grid, spotRadius_m);
  forPulses(grid, spotRadius_m, rows, [&](const Window& w, float x, float y, float peak) {
    const int width = w.right - w.left;
    for (int j = w.bottom; j < w.top; ++j) {
      float* __restrict line = cells.data() + static_cast<std::size_t>(j) * static_cast<std::size_t>(grid.columns) + w.left;
      const float dy = static_cast<float>(j - w.bottom) - y;
      for (int i = 0; i < width; ++i) {
        const float dx = static_cast<float>(i) - x;
        line[i] += peak * std::exp(scale * (dx * dx + dy * dy));
      }
    }
  });
}

void stampProducts(const CanvasGrid& grid, double spotRadius_m, const std::vector<DabRow>& rows, std::vector<float>& cells) {
  const float scale = perSquare(grid, spotRadius_m);
  std::vector<float> shape(static_cast<std::size_t>(grid.columns));
  forPulses(grid, spotRadius_m, rows, [&](const Window& w, float x, float y, float peak) {
    float* __restrict across = shape.data();
    const int width = w.right - w.left;
    for (int i = 0; i < width; ++i) {
      const float dx = static_cast<float>(i) - x;
      across[i] = peak * std::exp(scale * dx * dx);
    }
    for (int j = w.bottom; j < w.top; ++j) {
      float* __restrict line = cells.data() + static_cast<std::size_t>(j) * static_cast<std::size_t>(grid.columns) + w.left;
      const float dy = static_cast<float>(j - w.bottom) - y, along = std::exp(scale * dy * dy);
      for (int i = 0; i < width; ++i) line[i] += along * across[i];
    }
  });
}

}  // namespace bw

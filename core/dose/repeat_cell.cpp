// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/repeat_cell.h"

#include "core/dose/radial_canvas.h"

#include <algorithm>
#include <cmath>
#include <limits>

#ifdef __linux__
#include <sys/mman.h>
#endif

namespace bw {

namespace {

template <class Canvas>
void paintBand(Canvas canvas, const std::vector<DabRow>& rows, const std::stop_token& stop) {
  std::size_t n = 0;
  for (const DabRow& row : rows) {
    if ((n++ & 0x3f) == 0) throwIfStopped(stop);
    canvas.add(row);
  }
}

/// Two bands at once, where there is enough to do for it.
template <class Make>
void paintBands(const CanvasGrid& grid, const std::vector<DabRow>& rows, Make make, const std::stop_token& stop, const Crew& crew) {
  const double work = static_cast<double>(rows.size()) * 200 + static_cast<double>(grid.rows) * grid.columns;
  if (work < 2e5 || grid.rows < 2) return paintBand(make(0, grid.rows), rows, stop);
  const int middle = grid.rows / 2;
  auto other = crew.beside([&] { paintBand(make(middle, grid.rows), rows, stop); });
  paintBand(make(0, middle), rows, stop);
  other.get();
}

/// The next number without a factor above five: Fourier sums over it are quick.
int roundNumber(int count) {
  const auto isRound = [](int rest) {
    for (const int factor : {2, 3, 5}) {
      while (rest % factor == 0) rest /= factor;
    }
    return rest == 1;
  };
  while (!isRound(count)) ++count;
  return count;
}

/// A period so short that spots one period apart add up to an even dose: to 5e-9 for a Gaussian.
double evenPeriod(const SpotProfile& profile) { return profile.isGaussian() ? 0.5 : 1.0 / 32; }

/// The canvas a steady map is summed on. A period too short for its spots to show: several at once hold one frame's energy, whose mean
/// along them counts for each.
struct Fold {
  CanvasGrid canvas;
  double across = 1;  // how many periods the canvas holds
  double along = 1;
};

Fold foldOf(const SpotProfile& profile, const Footprint& spot, const RepeatCell& cell, Grid grid) {
  const double even = evenPeriod(profile);
  Fold fold;
  fold.across = std::max(1.0, std::ceil(even * spot.across_m / cell.across_m));
  if (cell.along_m < even * spot.along_m) fold.along = std::ceil(6 * spot.along_m / cell.along_m);
  const int rows = fold.along > 1 ? static_cast<int>(6 / (even / 2)) : grid.rows;
  fold.canvas = {grid.columns, rows, Point::Zero(), Point(fold.across * cell.across_m / grid.columns, fold.along * cell.along_m / rows),
                 true};
  return fold;
}

/// Every row as the mean of all, `times` as strong.
void evenOut(DoseMap& map, int rows, double times) {
  const auto columns = static_cast<std::size_t>(map.columns);
  std::vector<double> sum(columns, 0);
  for (std::size_t i = 0; i < map.dose_J_m2.size(); ++i) sum[i % columns] += static_cast<double>(map.dose_J_m2[i]);
  map.dose_J_m2.resize(columns * static_cast<std::size_t>(rows));
  for (std::size_t i = 0; i < map.dose_J_m2.size(); ++i) map.dose_J_m2[i] = static_cast<float>(sum[i % columns] * times / map.rows);
  map.rows = rows;
}

}  // namespace

double cellCount(const RepeatCell& cell, double longestStep_m) {
  return std::ceil(cell.across_m / longestStep_m) * std::ceil(cell.along_m / longestStep_m);
}

Grid gridOf(const RepeatCell& cell, double longestStep_m) {
  const auto count = [&](double side_m) { return roundNumber(static_cast<int>(std::ceil(side_m / longestStep_m))); };
  return {count(cell.across_m), count(cell.along_m)};
}

double cellsToVisit(const std::vector<DabRow>& rows, const SpotProfile& profile, const Footprint& spot, const Point& step_m) {
  const double reach = profile.isGaussian() ? GaussianCanvas::cut : std::pow(GaussianCanvas::cut, 2 / profile.exponent());
  const double slower = profile.isGaussian() ? 1 : 20;
  const Point cell(step_m.x() / spot.across_m, step_m.y() / spot.along_m);
  const Point window = 2 * reach * cell.cwiseInverse();
  double visits = 0;
  for (const DabRow& row : rows) {
    const Point step(row.step.x() / spot.across_m, row.step.y() / spot.along_m);
    const double count = static_cast<double>(row.count);
    const bool whole = row.smeared || (profile.isGaussian() && step.norm() <= GaussianCanvas::closeStep);
    const Point box = window + (whole ? Point(count * step.cwiseAbs().cwiseQuotient(cell)) : Point::Zero());
    // A slanting row touches a band of its box only; another spot's row goes over the whole box.
    const double touched = profile.isGaussian() ? std::min(box.prod(), box.maxCoeff() * 2 * window.maxCoeff()) : box.prod();
    visits += (whole ? 1 : count) * touched;
  }
  return slower * visits;
}

std::vector<float> blankCells(const CanvasGrid& grid) {
  std::vector<float> cells;
  const std::size_t count = static_cast<std::size_t>(grid.columns) * static_cast<std::size_t>(grid.rows);
  cells.reserve(count);
#ifdef MADV_HUGEPAGE
  constexpr std::uintptr_t page = 4096, large = 2 << 20;
  const std::uintptr_t begin = (reinterpret_cast<std::uintptr_t>(cells.data()) + page - 1) / page * page, bytes = count * sizeof(float);
  if (bytes > 2 * large) madvise(reinterpret_cast<void*>(begin), bytes - page, MADV_HUGEPAGE);  // a wish; refused, nothing is lost
#endif
  cells.resize(count, 0.0F);
  return cells;
}

DoseMap sumOnto(const CanvasGrid& grid, const std::vector<DabRow>& rows, const SpotProfile& profile, const Footprint& spot,
                std::stop_token stop, const Crew& crew) {
  DoseMap map;
  map.columns = grid.columns;
  map.rows = grid.rows;
  map.cellAcross_m = grid.step.x();
  map.cellAlong_m = grid.step.y();
  map.dose_J_m2 = blankCells(grid);
  const std::span<float> cells(map.dose_J_m2);
  if (profile.isGaussian()) {
    paintBands(
        grid, rows, [&](int from, int to) { return GaussianCanvas(grid, spot, cells, from, to); }, stop, crew);
  } else {
    const RadialTables tables(profile);
    paintBands(
        grid, rows, [&](int from, int to) { return RadialCanvas(grid, spot, tables, cells, from, to); }, stop, crew);
  }
  return map;
}

double steadyCost(const std::vector<DabRow>& rows, const SpotProfile& profile, const Footprint& spot, const RepeatCell& cell, Grid grid) {
  return cellsToVisit(rows, profile, spot, foldOf(profile, spot, cell, grid).canvas.step);
}

DoseMap steadyMap(const std::vector<DabRow>& rows, const SpotProfile& profile, const Footprint& spot, const RepeatCell& cell, Grid grid,
                  std::stop_token stop, const Crew& crew) {
  const Fold fold = foldOf(profile, spot, cell, grid);
  DoseMap map = sumOnto(fold.canvas, rows, profile, spot, stop, crew);
  if (fold.across > 1)
    for (float& dose : map.dose_J_m2) dose *= static_cast<float>(fold.across);
  if (fold.along > 1) evenOut(map, grid.rows, fold.along);
  map.cellAcross_m = cell.across_m / grid.columns;
  map.cellAlong_m = cell.along_m / grid.rows;
  return map;
}

DoseMap stillMap(const std::vector<DabRow>& rows, const SpotProfile& profile, const Footprint& spot, double longestStep_m,
                 std::stop_token stop, const Crew& crew) {
  Point low = Point::Constant(std::numeric_limits<double>::infinity()), high = -low;
  for (const DabRow& row : rows) {
    const Point spread = row.smeared ? Point(row.step.cwiseAbs() / 2) : Point::Zero();
    low = low.cwiseMin(row.first.cwiseMin(row.last()) - spread);
    high = high.cwiseMax(row.first.cwiseMax(row.last()) + spread);
  }
  const Point margin = GaussianCanvas::cut * Point(spot.across_m, spot.along_m), size = high - low + 2 * margin;
  const Grid grid = gridOf({size.x(), size.y()}, longestStep_m);
  return sumOnto({grid.columns, grid.rows, low - margin, Point(size.x() / grid.columns, size.y() / grid.rows), false}, rows, profile, spot,
                 stop, crew);
}

}  // namespace bw

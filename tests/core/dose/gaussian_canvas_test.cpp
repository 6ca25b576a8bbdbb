// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/gaussian_canvas.h"

#include "core/dose/repeat_cell.h"
#include "tests/core/dose/direct_dose.h"
#include "tests/core/dose/usual_spot.h"
#include "tests/support/catch.h"

#include <random>

using namespace bw;
using namespace bw::test;

namespace {

constexpr double w = 60e-6;  // spot radius

/// What the header promises for each row, of the row's own peak: close rows ripple by 1.2e-5 and end within 6e-5, wide ones are off by the
/// Taylor series' next term, single spots by what is cut off and by floats. Nothing may add up to more.
constexpr double promised = 1e-4;

struct Worst {
  double difference_J_m2 = 0;
  double peak_J_m2 = 0;
  double ofPeak() const { return difference_J_m2 / peak_J_m2; }
};

/// Map against plain sum at every `stride`-th point; the peak is the plain sum's.
Worst compare(const CanvasGrid& grid, const Footprint& spot, const std::vector<DabRow>& rows, int stride = 1) {
  const DoseMap map = sumOnto(grid, rows, gaussian, spot);
  const DirectDose direct(grid, spot);
  Worst worst;
  for (int n = 0; n < grid.columns * grid.rows; n += stride) {
    const int column = n % grid.columns, row = n / grid.columns;
    const double expected = direct.at(direct.place(column, row), rows);
    worst.difference_J_m2 = std::max(worst.difference_J_m2, std::abs(static_cast<double>(map.at(column, row)) - expected));
    worst.peak_J_m2 = std::max(worst.peak_J_m2, expected);
  }
  return worst;
}

/// In spot radii: pulses `pitch` apart at a slope (infinite: straight up), the first at `first`.
DabRow rowOf(const Point& first, double pitch, double slope, std::int64_t count, bool smeared = false,
             const Footprint& spot = roundSpot(w)) {
  const Point along = std::isinf(slope) ? Point(0, 1) : Point(1, slope).normalized();
  const auto scaled = [&](const Point& p) { return Point(p.x() * spot.across_m, p.y() * spot.along_m); };
  return {scaled(first), scaled(pitch * along), count, smeared, 0.001};
}

CanvasGrid gridOfRadii(int columns, int rows, double cellAcross, double cellAlong, bool periodic, const Footprint& spot = roundSpot(w)) {
  return {columns, rows, Point::Zero(), Point(cellAcross * spot.across_m, cellAlong * spot.along_m), periodic};
}

constexpr double straightUp = std::numeric_limits<double>::infinity();
constexpr double slopes[] = {0, 0.001, -0.001, 0.0124, 0.013, 0.049, 0.051, 0.3, 1, -1, 20, straightUp};

}  // namespace

TEST_CASE("Rows of pulses as the plain sum has them, close, just close and wide", "[dose]") {
  for (const double pitch : {0.05, 0.5, 0.639, 0.641, 1.0, 2.0, 4.0}) {
    for (const double slope : slopes) {
      for (const std::int64_t count : {std::int64_t{1}, std::int64_t{2}, std::int64_t{3}, std::int64_t{4}, std::int64_t{40}}) {
        const CanvasGrid grid = gridOfRadii(64, 48, 0.25, 0.25, false);
        const DabRow row = rowOf({5.03, 5.11}, pitch, slope, count);
        CAPTURE(pitch, slope, count);
        CHECK(compare(grid, roundSpot(w), {row}, 3).ofPeak() < promised);
        CHECK(compare(grid, roundSpot(w), {{row.last(), -row.step, count, false, row.energy_J}}, 5).ofPeak() < promised);
      }
    }
  }
}

TEST_CASE("Smeared rows as fine quadrature has them", "[dose]") {
  for (const double length : {0.1, 0.5, 2.0, 30.0}) {
    for (const double slope : slopes) {
      const CanvasGrid grid = gridOfRadii(64, 48, 0.25, 0.25, false);
      CAPTURE(length, slope);
      for (const std::int64_t pieces : {std::int64_t{1}, std::int64_t{4}}) {
        DabRow row = rowOf({5.03, 5.11}, length / static_cast<double>(pieces), slope, pieces, true);
        row.first += row.step / 2;
        CHECK(compare(grid, roundSpot(w), {row}, 5).ofPeak() < promised);
      }
    }
  }
}

TEST_CASE("Long rows with a slope stay exact to their far end", "[dose]") {
  // A line 1200 radii long, 60 mm of a 100 um spot; looked at around its far end only.
  for (const double pitch : {0.5, 0.641, 2.0}) {
    for (const double slope : {0.001, 0.0124, 0.049, -0.049, 0.051}) {
      const auto count = static_cast<std::int64_t>(1200 / pitch);
      DabRow row = rowOf({0, 0}, pitch, slope, count);
      row.first = Point(6 * w, 6 * w) - row.step * static_cast<double>(count - 1);
      const CanvasGrid grid = gridOfRadii(48, 48, 0.25, 0.25, false);
      CAPTURE(pitch, slope);
      CHECK(compare(grid, roundSpot(w), {row}, 7).ofPeak() < promised);
    }
  }
}

TEST_CASE("Coarse cells, cells that are not square, spots that are not round", "[dose]") {
  const Footprint stretched{w, 1.7 * w};
  for (const double pitch : {0.5, 0.639, 0.641, 2.0}) {
    for (const double slope : slopes) {
      CAPTURE(pitch, slope);
      const DabRow row = rowOf({5.03, 7.11}, pitch, slope, 20);
      CHECK(compare(gridOfRadii(20, 20, 1, 1, false), roundSpot(w), {row}).ofPeak() < promised);
      CHECK(compare(gridOfRadii(60, 20, 0.25, 1, false), roundSpot(w), {row}, 7).ofPeak() < promised);
      CHECK(compare(gridOfRadii(20, 60, 0.9, 0.24, false), roundSpot(w), {row}, 5).ofPeak() < promised);
      CHECK(compare(gridOfRadii(300, 30, 0.04, 0.5, false), roundSpot(w), {row}, 7).ofPeak() < promised);
      const DabRow tilted = rowOf({5.03, 7.11}, pitch, slope, 20, false, stretched);
      CHECK(compare(gridOfRadii(64, 64, 0.25, 0.2, false, stretched), stretched, {tilted}, 5).ofPeak() < promised);
      const DabRow smeared = rowOf({5.03, 7.11}, pitch, slope, 20, true, stretched);
      CHECK(compare(gridOfRadii(64, 64, 0.25, 0.2, false, stretched), stretched, {smeared}, 17).ofPeak() < promised);
    }
  }
}

TEST_CASE("A periodic grid takes rows much longer than itself, and from far away", "[dose]") {
  for (const double pitch : {0.3, 0.639, 0.641, 1.7}) {
    for (const double slope : slopes) {
      for (const Point& first : {Point(0.3, 0.7), Point(-1234.56, 789.01), Point(11.9, -5e4)}) {
        const CanvasGrid grid = gridOfRadii(40, 28, 0.3, 0.27, true);
        CAPTURE(pitch, slope, first.x());
        CHECK(compare(grid, roundSpot(w), {rowOf(first, pitch, slope, 300)}, 11).ofPeak() < promised);
      }
    }
  }
  // A cell not longer than the spot: images of one spot overlap.
  CHECK(compare(gridOfRadii(5, 4, 0.25, 0.25, true), roundSpot(w), {rowOf({0.3, 0.2}, 0.7, 0.01, 9)}).ofPeak() < promised);
  CHECK(compare(gridOfRadii(5, 4, 0.25, 0.25, true), roundSpot(w), {rowOf({0.3, 0.2}, 0.4, 0.3, 9)}).ofPeak() < promised);
}

TEST_CASE("A grid that is cut off takes of a row what falls on it", "[dose]") {
  const CanvasGrid grid = gridOfRadii(40, 32, 0.25, 0.25, false);  // 10 x 8 radii
  for (const double pitch : {0.5, 0.641, 2.0}) {
    for (const double slope : slopes) {
      for (const Point& first : {Point(-8, 4), Point(-8, -8), Point(9, 7.5), Point(-2.5, -2.5), Point(5, -30)}) {
        const DabRow row = rowOf(first, pitch, slope, static_cast<std::int64_t>(36 / pitch));
        CAPTURE(pitch, slope, first.x(), first.y());
        const Worst worst = compare(grid, roundSpot(w), {row});
        // The row's own peak, on the grid or not: what its middle gives where its pulses add up, or one spot.
        const DirectDose direct(grid, roundSpot(w));
        const double peak = direct.at(row.first + row.step * std::floor(static_cast<double>(row.count) / 2), row);
        CHECK(worst.difference_J_m2 < promised * peak);
      }
    }
  }
  // Wholly outside, on every side: nothing at all.
  for (const Point& first : {Point(-20, 4), Point(14, 4), Point(2, -4), Point(2, 12), Point(-100, -100)}) {
    for (const double pitch : {0.5, 2.0}) {
      const DoseMap map = sumOnto(grid, {rowOf(first, pitch, 0, 6)}, gaussian, roundSpot(w));
      CHECK(std::ranges::all_of(map.dose_J_m2, [](float dose) { return dose == 0; }));
    }
  }
}

TEST_CASE("A map in bands is the map in one piece, bit by bit", "[dose]") {
  std::mt19937 random(11);
  const auto between = [&](double low, double high) { return low + (high - low) * static_cast<double>(random()) / 4294967296.0; };
  std::vector<DabRow> rows;
  for (int n = 0; n < 200; ++n) {
    const double slope = n % 3 == 0 ? 0 : n % 3 == 1 ? between(-0.02, 0.02) : between(-3, 3);
    rows.push_back(
        rowOf({between(-20, 60), between(-20, 60)}, between(0.05, 3), slope, 1 + static_cast<std::int64_t>(random() % 80), n % 5 == 0));
  }
  for (const bool periodic : {true, false}) {
    const CanvasGrid grid = gridOfRadii(150, 97, 0.25, 0.3, periodic);
    const auto painted = [&](const std::vector<int>& edges) {
      std::vector<float> cells(150 * 97, 0.0F);
      for (std::size_t i = 1; i < edges.size(); ++i) {
        GaussianCanvas canvas(grid, roundSpot(w), cells, edges[i - 1], edges[i]);
        for (const DabRow& row : rows) canvas.add(row);
      }
      return cells;
    };
    const std::vector<float> whole = painted({0, 97});
    CHECK(painted({0, 48, 97}) == whole);
    CHECK(painted({0, 1, 2, 50, 96, 97}) == whole);
    CHECK(sumOnto(grid, rows, gaussian, roundSpot(w)).dose_J_m2 == whole);
  }
}

TEST_CASE("Energy of a row lies on the grid", "[dose]") {
  // Cells a quarter of a radius wide sum a Gaussian to 1e-30 (Poisson sum): what is missing is cut off (3e-7) or rounded.
  const CanvasGrid grid = gridOfRadii(160, 160, 0.25, 0.25, true);
  for (const double pitch : {0.01, 0.3, 0.639, 0.641, 1.0, 3.0}) {
    for (const double slope : slopes) {
      const DabRow row = rowOf({20, 20}, pitch, slope, 37);
      const DoseMap map = sumOnto(grid, {row}, gaussian, roundSpot(w));
      double energy = 0;
      for (const float dose : map.dose_J_m2) energy += static_cast<double>(dose) * map.cellAcross_m * map.cellAlong_m;
      CAPTURE(pitch, slope);
      CHECK(energy == Catch::Approx(37 * row.energy_J).epsilon(2e-6));
    }
  }
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/cell_block.h"

#include "core/heat/blurred_strip.h"
#include "core/heat/laid_light.h"
#include "tests/core/heat/sheets.h"
#include "tests/support/catch.h"

#include <cmath>
#include <numbers>

using namespace bw;

namespace {

const CellRange part{0, 0, 12, 10};

/// Mean over a cell of so many to the metre of a polynomial of fourth degree.
double meanOf(int i, double cell) {
  const auto integral = [](double x) { return x * x * x * x * x / 5 - x * x * x * x + 0.3 * x * x + 2 * x; };
  return (integral((i + 1) * cell) - integral(i * cell)) / cell;
}

}  // namespace

TEST_CASE("Quarters of a cell are right for polynomials and keep its heat", "[heat]") {
  std::vector<double> cells(part.cells());
  for (int j = 0; j < part.along; ++j)
    for (int i = 0; i < part.across; ++i) cells[part.at(i, j)] = meanOf(i, 0.1) * meanOf(j, 0.1);
  const auto quarters = quartersOf(cells.data(), part, part, 5, 4);
  for (int q = 0; q < 4; ++q)
    CHECK(quarters[static_cast<std::size_t>(q)] == Catch::Approx(meanOf(10 + q % 2, 0.05) * meanOf(8 + q / 2, 0.05)).epsilon(1e-12));
  const auto corner = quartersOf(cells.data(), part, part, 0, 9);
  CHECK((corner[0] + corner[1] + corner[2] + corner[3]) / 4 == Catch::Approx(cells[part.at(0, 9)]).epsilon(1e-12));
}

TEST_CASE("Means over cells of a blurred strip add up to what landed", "[heat]") {
  struct Row {
    double middle, size, variance, landed;
  };
  for (const Row& row : {Row{0.5, 0.2, 1e-4, 1}, Row{0.05, 0.2, 1e-3, 0.75}, Row{0.98, 0, 1e-5, 1}, Row{1.1, 0.4, 1e-6, 0.25},
                         Row{0.3, 0.1, 0.2, 1}, Row{0.5, 2, 1e-2, 0.5}, Row{1.2, 0.1, 1e-3, 0}}) {
    std::vector<double> means(64);
    addCellMeans(row.middle, row.size, row.variance, 1, 1.0 / 64, 0, 3, means);
    double sum = 0, worst = 0;
    for (int i = 0; i < 64; ++i) {
      sum += means[static_cast<std::size_t>(i)] / 64;
      double mean = 0;
      for (int k = 0; k < 200; ++k) mean += blurredShare_1_m((i + (k + 0.5) / 200) / 64, row.middle, row.size, row.variance, 1) / 200;
      worst = std::max(worst, std::abs(means[static_cast<std::size_t>(i)] - 3 * mean));
    }
    CAPTURE(row.middle, row.size, row.variance);
    CHECK(sum == Catch::Approx(3 * row.landed).margin(1e-8));
    CHECK(worst < 2e-3 * (1 + 3 / std::sqrt(row.variance)));
  }
}

TEST_CASE("A mode of cells decays as the metal says, to fourth order in the cell", "[heat]") {
  const PartSheet sheet = [] {
    PartSheet plain = test::constantSheet();
    plain.filmCoefficient_W_m2K = 0;
    return plain;
  }();
  const MetalEnthalpy metal(sheet.metal);
  const SheetLaw law(sheet, metal);
  const double alpha = 50.0 / (480 * 7850), k = 3 * std::numbers::pi, time = 0.05 / (alpha * k * k);
  // Straight between tables of a kelvin, so no more than a handful of digits.
  const auto errorOf = [&](int count) {
    CellBlock block(law, Point(1, 1), count, 1);
    block.fill(0);
    std::vector<double> mode;
    for (int i = 0; i < count; ++i) mode.push_back(count / k * (std::sin(k * (i + 1) / count) - std::sin(k * i / count)));
    block.source_W_m3() = mode;
    BorderHeat none;
    CHECK(block.step(1e-6, chebyshevStages(2), 0, 1, {}, none) == 0);
    std::ranges::fill(block.source_W_m3(), 0.0);
    const double before = block.state().front();
    for (int n = 0; n < 40; ++n)
      block.step(time / 40, chebyshevStages(chebyshevCount(time / 40, law.fastest_1_s(block.cell_m()))), 0, 1, {}, none);
    return std::abs(block.state().front() / before / std::exp(-0.05) - 1);
  };
  const double coarse = errorOf(12), fine = errorOf(24);
  CAPTURE(coarse, fine);
  CHECK(coarse > 2e-5);
  CHECK(fine < coarse / 10);
}

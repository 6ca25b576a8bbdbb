// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/draws.h"

#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>
#include <numeric>

using namespace bw;
using Catch::Approx;

TEST_CASE("Normal scores are those of the table", "[removal]") {
  // Standard normal quantiles: Abramowitz and Stegun, table 26.5.
  CHECK(normalScore(0.5) == Approx(0).margin(1e-12));
  CHECK(normalScore(0.95) == Approx(1.64485363).epsilon(1e-8));
  CHECK(normalScore(0.975) == Approx(1.95996398).epsilon(1e-8));
  CHECK(normalScore(0.001) == Approx(-3.09023231).epsilon(1e-8));
}

TEST_CASE("A Latin hypercube takes every piece of every variable once, and variables do not hang together", "[removal]") {
  const auto scores = latinHypercube(30, 500, 20);
  REQUIRE(scores.size() == 30);
  const double n = 500;
  double worst = 0;
  for (std::size_t v = 0; v < scores.size(); ++v) {
    auto sorted = scores[v];
    std::ranges::sort(sorted);
    for (std::size_t i = 0; i < sorted.size(); ++i) REQUIRE(sorted[i] == normalScore((static_cast<double>(i) + 0.5) / n));
    for (std::size_t w = 0; w < v; ++w)
      worst = std::max(worst, std::abs(std::inner_product(scores[v].begin(), scores[v].end(), scores[w].begin(), 0.0) / n));
  }
  CHECK(worst < 4 / std::sqrt(n));  // 435 pairs by chance: four standard errors
  CHECK(latinHypercube(30, 500, 20) == scores);
  CHECK(latinHypercube(30, 500, 21) != scores);
}

TEST_CASE("Nine in ten draws lie inside the range, half on either side of the likely value", "[removal]") {
  const Range range{0.8, 1.5, 3};
  CHECK(drawn(range, 0) == 1.5);
  CHECK(drawn(range, scoreOfNineInTen) == Approx(3));
  CHECK(drawn(range, -scoreOfNineInTen) == Approx(0.8));
  CHECK(drawn(range, 2 * scoreOfNineInTen) == Approx(6));  // log-normal: as many times again
  CHECK(drawn(Range::exact(2), 3) == 2);
  CHECK(drawn({0, 1, 2}, -scoreOfNineInTen) == Approx(0.01));
  double before = 0;
  for (double score = -4; score <= 4; score += 0.1) {
    CHECK(drawn(range, score) > before);
    before = drawn(range, score);
  }
}

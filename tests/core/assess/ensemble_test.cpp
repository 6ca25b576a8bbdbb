// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/ensemble.h"

#include "tests/support/catch.h"

#include <gsl/gsl_statistics_double.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

using namespace bw;
using Catch::Approx;

namespace {

std::vector<double> randomValues(std::size_t count, unsigned seed) {
  std::mt19937 random(seed);
  std::vector<double> values(count);
  for (double& value : values) value = static_cast<double>(random() % 1000U);
  return values;
}

}  // namespace

TEST_CASE("A prior has draws of equal weight that any seed repeats", "[assess]") {
  const Ensemble prior = priorOf({"paint", "hand"}, 50, 3), again = priorOf({"paint", "hand"}, 50, 3);
  CHECK(prior.size() == 50);
  REQUIRE(prior.scores.size() == 2);
  CHECK(prior.scores[0].size() == 50);
  CHECK(effectiveSize(prior.weights) == Approx(50));
  CHECK(prior.scores == again.scores);
  CHECK(prior.scores != priorOf({"paint", "hand"}, 50, 4).scores);
}

TEST_CASE("Of equal weights the quantiles are those of the values in order, whatever the weights' unit", "[assess]") {
  for (const std::size_t count : {1U, 2U, 5U, 24U, 160U, 161U}) {
    std::vector<double> values = randomValues(count, static_cast<unsigned>(count));
    for (const double weight : {1.0, 1.0 / 8, 1024.0}) {
      const Spread spread = spreadOf(values, std::vector<double>(count, weight));
      std::vector<double> sorted = values;
      std::ranges::sort(sorted);
      const auto at = [&](double share) { return sorted[static_cast<std::size_t>(std::floor(share * static_cast<double>(count - 1) + 0.5))]; };
      CHECK(spread.low == at(0.05));
      CHECK(spread.middle == at(0.5));
      CHECK(spread.high == at(0.95));
    }
  }
}

TEST_CASE("A draw of some weight counts as so many draws", "[assess]") {
  const std::vector<double> values = randomValues(200, 7);
  std::mt19937 random(8);
  std::vector<double> weights, many;
  for (const double value : values) {
    const auto times = 1 + random() % 9U;
    weights.push_back(static_cast<double>(times));
    many.insert(many.end(), times, value);
  }
  const Spread weighted = spreadOf(values, weights), repeated = spreadOf(many, std::vector<double>(many.size(), 1));
  CHECK(weighted.low == Approx(repeated.low).margin(10));  // neighbours among 200 values below 1000
  CHECK(weighted.middle == Approx(repeated.middle).margin(10));
  CHECK(weighted.high == Approx(repeated.high).margin(10));

  const double never = std::numeric_limits<double>::infinity();
  CHECK(spreadOf({4, never, 3}, {1, 1e-6, 1}).high == 4);  // what hardly can be does not make it never
  CHECK(spreadOf({4, never, 3}, {100, 1, 1}).high == 4);
  CHECK(spreadOf({4, never, 3}, {1, 100, 1}).high == never);
}

TEST_CASE("Rank correlation is Spearman's", "[assess]") {
  // Against GSL's, with ties and without, where all draws weigh the same.
  for (const std::size_t count : {5U, 40U, 300U}) {
    const std::vector<double> a = randomValues(count, 1), b = randomValues(count, 2);
    std::vector<double> work(2 * count);
    const double gsl = gsl_stats_spearman(a.data(), 1, b.data(), 1, count, work.data());
    CHECK(rankCorrelationSquared(a, b, std::vector<double>(count, 1)) == Approx(gsl * gsl).epsilon(1e-9));
  }
  // Ten people, IQ against hours of television: 1 - 6 x 194 / (10 x 99) = -29/165; a worked example from memory, the sum recomputed.
  const std::vector<double> iq{106, 100, 86, 101, 99, 103, 97, 113, 112, 110}, hours{7, 27, 2, 50, 28, 29, 20, 12, 6, 17};
  const std::vector<double> equal(10, 1);
  CHECK(rankCorrelationSquared(iq, hours, equal) == Approx(std::pow(29.0 / 165, 2)));
  std::vector<double> cubes;
  for (const double value : iq) cubes.push_back(value * value * value);
  CHECK(rankCorrelationSquared(iq, cubes, equal) == Approx(1));
  CHECK(rankCorrelationSquared(iq, std::vector<double>(10, 5), equal) == 0);
  CHECK(effectiveSize({1, 1, 1, 1}) == Approx(4));
  CHECK(effectiveSize({1, 0, 0, 0}) == Approx(1));
  CHECK(effectiveSize({3, 1}) == Approx(1.6));
}

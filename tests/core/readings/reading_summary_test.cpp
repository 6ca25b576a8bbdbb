// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/readings/reading_summary.h"

#include "core/learn/quantiles.h"
#include "tests/support/catch.h"

#include <cmath>
#include <limits>

using namespace bw;

namespace {

std::vector<Reading> readingsOfKind(const std::string& kind, const std::vector<double>& values) {
  std::vector<Reading> readings;
  for (const double value : values) readings.push_back({kind, value, {}, {}});
  return readings;
}

}  // namespace

TEST_CASE("Readings of a kind have a mean and the scatter of a single one", "[learn]") {
  // 2, 4, 4, 4, 5, 5, 7, 9: squares about the mean of 5 sum up to 32, by hand
  std::vector<Reading> readings = readingsOfKind("thickness_before_um", {2, 4, 4, 4, 5, 5, 7, 9});
  readings.push_back({"back_C", 96, 4, {}});
  const auto summaries = summariesOf(readings);
  REQUIRE(summaries.size() == 2);
  CHECK(summaries[0].kind == "thickness_before_um");
  CHECK(summaries[0].count == 8);
  CHECK(summaries[0].mean == Catch::Approx(5).epsilon(1e-14));
  CHECK(*summaries[0].deviation == Catch::Approx(std::sqrt(32.0 / 7)).epsilon(1e-14));
  CHECK(summaries[0].least == 2);
  CHECK(summaries[0].most == 9);
  CHECK(summaries[1].kind == "back_C");
  CHECK(summaries[1].mean == 96);
  CHECK_FALSE(summaries[1].deviation);
  CHECK(summariesOf({}).empty());
}

TEST_CASE("A small scatter on a large value keeps its digits", "[learn]") {
  const auto summaries = summariesOf(readingsOfKind("a_um", {1e9 + 1, 1e9 + 2, 1e9 + 3}));
  CHECK(*summaries.at(0).deviation == Catch::Approx(1).epsilon(1e-6));  // the values themselves hold 1e-7 of a unit
}

TEST_CASE("What is no number takes no part in a mean", "[learn]") {
  const auto summaries = summariesOf(readingsOfKind("a_um", {1, std::nan(""), std::numeric_limits<double>::infinity(), 3}));
  REQUIRE(summaries.size() == 1);
  CHECK(summaries[0].count == 2);
  CHECK(summaries[0].mean == 2);
  CHECK(summariesOf(readingsOfKind("a_um", {std::nan("")})).empty());
}

TEST_CASE("Many readings in one carry the span of nine in ten", "[learn]") {
  const auto summaries = summariesOf(readingsOfKind("a_um", {2, 4, 4, 4, 5, 5, 7, 9}));
  const Reading one = asOneReading(summaries.at(0));
  CHECK(one.kind == "a_um");
  CHECK(one.value == Catch::Approx(5).epsilon(1e-14));
  // Student's t of 7 degrees of freedom at 95 %: 1.8946 (tables, from memory); four digits are printed there
  CHECK(*one.uncertainty == Catch::Approx(1.8946 * std::sqrt(32.0 / 7)).epsilon(1e-4));
  CHECK_FALSE(asOneReading(summariesOf(readingsOfKind("a_um", {4})).at(0)).uncertainty);
}

TEST_CASE("A log's peak is its highest value, with the time it was reached first", "[learn]") {
  const auto peak = peakOf({"back_C", {0, 10, 20, 30}, {20, 96.5, 96.5, 40}});
  REQUIRE(peak);
  CHECK(peak->kind == "back_C");
  CHECK(peak->temperature_C == 96.5);
  CHECK(peak->time_s == 10);
  CHECK(peak->count == 4);
  CHECK_FALSE(peakOf({"back_C", {}, {}}));
}

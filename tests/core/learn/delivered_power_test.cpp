// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/delivered_power.h"
#include "tests/core/learn/learn_support.h"

#include <limits>

using namespace bw;
using namespace bw::test;

namespace {

std::vector<PowerReading> idealPowers(double gain, double offset_W, std::optional<double> passed = {}) {
  std::vector<PowerReading> given;
  for (const double dialled : {60.0, 120.0, 180.0, 240.0, 300.0}) {
    const double power = offset_W + gain * dialled;
    given.push_back({dialled / 300, {power, {}}, passed ? std::optional(power / *passed) : std::nullopt});
  }
  return given;
}

}  // namespace

TEST_CASE("Noise-free powers give line, share and loss exactly", "[learn]") {
  const auto power = fitDeliveredPower(idealPowers(0.9, -12, 0.94), 300, 0);
  REQUIRE(power.value);
  checkExact(power.value->line.gain, 0.9);
  checkExact(*power.value->line.offset, -12);
  checkExact(power.value->line.atFull, 258);
  checkExact(power.value->share, 0.86);
  checkExact(*power.value->loss, 0.06, 1e-6);
  CHECK(says(power, "the meter is taken as exact"));
}

TEST_CASE("The meter's uncertainty widens the power by its share but not the loss", "[learn]") {
  const auto power = fitDeliveredPower(idealPowers(0.9, -12, 0.94), 300, 0.03);
  REQUIRE(power.value);
  CHECK(power.value->line.atFull.low == Catch::Approx(258 * 0.97));
  CHECK(power.value->line.atFull.high == Catch::Approx(258 * 1.03));
  checkExact(*power.value->loss, 0.06, 1e-6);
  const auto one = fitDeliveredPower({{1, {255, {}}, {}}}, 300, 0.03);
  REQUIRE(one.value);
  CHECK(one.value->share.low == Catch::Approx(0.85 * 0.97).epsilon(1e-6));
  CHECK(one.value->share.likely == Catch::Approx(0.85));
  CHECK_FALSE(one.value->line.offset);
  CHECK(says(one, "one reading: more of them"));
}

TEST_CASE("More than the rated power is said", "[learn]") {
  CHECK(says(fitDeliveredPower(idealPowers(1.1, 0), 300, 0), "more than the rated power arrives"));
  auto swapped = idealPowers(0.9, 0, 1.2);
  CHECK(says(fitDeliveredPower(swapped, 300, 0), "the two were swapped"));
  REQUIRE(fitDeliveredPower(swapped, 300, 0).value);
  CHECK_FALSE(fitDeliveredPower(swapped, 300, 0).value->loss);
}

TEST_CASE("Powers that teach nothing get a sentence and no number", "[learn]") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  checkRefused(fitDeliveredPower({}, 300, 0), "no power");
  checkRefused(fitDeliveredPower({{1, {255, {}}, {}}}, 300, 0), "one reading does not tell how sure it is");
  checkRefused(fitDeliveredPower(idealPowers(0.9, 0), 0, 0), "rated power");
  checkRefused(fitDeliveredPower(idealPowers(0.9, 0), 300, nan), "meter's uncertainty");
  checkRefused(fitDeliveredPower(idealPowers(0.9, 0), 300, 1), "meter's uncertainty");
  checkRefused(fitDeliveredPower(idealPowers(-0.9, 400), 300, 0), "does not grow with its setting");
  checkRefused(fitDeliveredPower({{1.0 / 3, {nan, {}}, {}}, {2.0 / 3, {180, {}}, {}}}, 300, 0), "reading 1: not a number is no power");
  checkRefused(fitDeliveredPower({{-1.0 / 3, {90, {}}, {}}, {2.0 / 3, {180, {}}, {}}}, 300, 0), "reading 1: -100 is no setting");
  checkRefused(fitDeliveredPower({{1.0 / 3, {90, {}}, 0}, {2.0 / 3, {180, {}}, {}}}, 300, 0), "reading 1: 0 is no power before the optics");
  checkRefused(fitDeliveredPower({{1.0 / 3, {90, {}}, {}}, {2.0 / 3, {20, {}}, {}}, {1, {180, {}}, {}}}, 300, 0), "scatter too much");
}

TEST_CASE("Lit width against dialled width: scale and the mark's own width", "[learn]") {
  std::vector<Dialled> widths;
  for (const double mm : {10.0, 20.0, 40.0, 60.0}) widths.push_back({mm * 1e-3, {(0.96 * mm + 0.12) * 1e-3, {}}});
  const auto scale = fitProportion(widths, 80e-3, "width");
  REQUIRE(scale.value);
  checkExact(scale.value->gain, 0.96);
  checkExact(*scale.value->offset, 0.12e-3);
  checkExact(scale.value->atFull, 0.96 * 80e-3 + 0.12e-3);
  const auto twice = fitProportion({widths[2], widths[2]}, 80e-3, "width");
  REQUIRE(twice.value);
  checkExact(twice.value->gain, (0.96 * 40 + 0.12) / 40);
  CHECK(says(twice, "one setting: an offset cannot be told"));
  checkRefused(fitProportion({widths[0]}, 80e-3, "width"), "one reading does not tell how sure it is");
  checkRefused(fitProportion({}, 80e-3, "width"), "no width was entered");
}

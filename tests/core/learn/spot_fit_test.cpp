// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/spot_fit.h"
#include "tests/core/learn/learn_support.h"

#include <cmath>
#include <limits>
#include <numbers>

using namespace bw;
using namespace bw::test;

namespace {

constexpr double w = 60e-6;
constexpr double Eth = 0.2e-3;

/// Marks of an ideal Gaussian spot: D = w sqrt(2 ln(E/Eth)).
std::vector<Mark> idealMarks(const std::vector<double>& energies_J) {
  std::vector<Mark> marks;
  for (const double E : energies_J) marks.push_back({E, {}, {}, {E > Eth ? w * std::sqrt(2 * std::log(E / Eth)) : 0, {}}});
  return marks;
}

std::vector<Mark> withWidths(const std::vector<double>& widths_m) {
  std::vector<Mark> marks;
  for (std::size_t i = 0; i < widths_m.size(); ++i) marks.push_back({1e-3 * static_cast<double>(i + 1), {}, {}, {widths_m[i], {}}});
  return marks;
}

}  // namespace

TEST_CASE("Liu's ratios of width to radius give the spot back", "[learn]") {
  // D/w at 2, e, 5 and 10 times the threshold: 1.1774, 1.4142, 1.7941, 2.1460, computed from Liu's equation; five digits.
  std::vector<Mark> marks;
  const std::vector<std::pair<double, double>> table{{2, 1.1774}, {std::numbers::e, 1.4142}, {5, 1.7941}, {10, 2.1460}};
  for (const auto& [ratio, width] : table) marks.push_back({ratio * Eth, {}, {}, {width * w, {}}});
  const auto spot = fitSpot(marks);
  REQUIRE(spot.value);
  CHECK(spot.value->diameter_m.likely == Catch::Approx(2 * w).epsilon(1e-4));
  CHECK(spot.value->threshold.likely == Catch::Approx(Eth).epsilon(1e-4));
}

TEST_CASE("Noise-free marks give spot and threshold exactly", "[learn]") {
  const auto spot = fitSpot(idealMarks({0.25e-3, 0.4e-3, 0.7e-3, 1e-3, 2e-3}));
  REQUIRE(spot.value);
  CHECK(spot.value->dose == MarkDose::PulseEnergy);
  checkExact(spot.value->diameter_m, 2 * w);
  checkExact(spot.value->threshold, Eth);
  REQUIRE(spot.value->thresholdFluence_J_m2);
  checkExact(*spot.value->thresholdFluence_J_m2, 2 * Eth / (std::numbers::pi * w * w));
}

TEST_CASE("Lines go by power over speed, or by power alone", "[learn]") {
  // Dose across a line: the integral over time of 2P/(pi w^2) exp(-2((vt)^2 + y^2)/w^2) = sqrt(2/pi) P/(w v) exp(-2 y^2/w^2).
  std::vector<Mark> bySpeed;
  std::vector<Mark> byPower;
  const double threshold_J_m2 = 20000;
  for (const double P : {40.0, 60.0, 100.0, 160.0, 250.0}) {
    const double v = P < 100 ? 2.0 : 3.0;
    const auto width = [&](double speed) {
      return w * std::sqrt(2 * std::log(std::sqrt(2 / std::numbers::pi) * P / (w * speed) / threshold_J_m2));
    };
    bySpeed.push_back({{}, P, v, {width(v), {}}});
    byPower.push_back({{}, P, {}, {width(2.0), {}}});
  }
  const auto lines = fitSpot(bySpeed);
  REQUIRE(lines.value);
  checkExact(lines.value->diameter_m, 2 * w);
  checkExact(*lines.value->thresholdFluence_J_m2, threshold_J_m2);
  const auto powers = fitSpot(byPower);
  REQUIRE(powers.value);
  CHECK(powers.value->dose == MarkDose::Power);
  checkExact(powers.value->diameter_m, 2 * w);
  checkExact(powers.value->threshold, threshold_J_m2 * w * 2.0 * std::sqrt(std::numbers::pi / 2));
  CHECK_FALSE(powers.value->thresholdFluence_J_m2);
}

TEST_CASE("The order of the marks and the unit of the energy do not matter", "[learn]") {
  auto marks = withWidths({60e-6, 95e-6, 104e-6, 125e-6, 131e-6});
  const auto spot = fitSpot(marks);
  for (Mark& mark : marks) *mark.pulseEnergy_J *= 1e3;
  std::swap(marks[0], marks[3]);
  const auto same = fitSpot(marks);
  REQUIRE((spot.value && same.value));
  CHECK(same.value->diameter_m.low == Catch::Approx(spot.value->diameter_m.low).epsilon(1e-9));
  CHECK(same.value->diameter_m.high == Catch::Approx(spot.value->diameter_m.high).epsilon(1e-9));
  CHECK(same.value->threshold.high == Catch::Approx(1e3 * spot.value->threshold.high).epsilon(1e-9));
}

TEST_CASE("Few marks or a narrow span are said", "[learn]") {
  const auto off = [](std::vector<Mark> marks) {
    for (std::size_t i = 0; i < marks.size(); ++i) marks[i].width_m.value += i % 2 ? 1e-6 : -1e-6;
    return marks;
  };
  const auto three = fitSpot(off(idealMarks({0.3e-3, 0.8e-3, 2e-3})));
  REQUIRE(three.value);
  CHECK(says(three, "three readings: the range is wide"));
  const auto six = fitSpot(off(idealMarks({0.3e-3, 0.45e-3, 0.7e-3, 1e-3, 1.4e-3, 2e-3})));
  REQUIRE(six.value);
  CHECK_FALSE(says(six, "the range is wide"));
  CHECK(three.value->diameter_m.high - three.value->diameter_m.low > 2 * (six.value->diameter_m.high - six.value->diameter_m.low));
  CHECK(says(fitSpot(idealMarks({1e-3, 1.1e-3, 1.2e-3, 1.3e-3, 1.4e-3})), "within a factor of two"));
}

TEST_CASE("A mark far from the others is named by its place in the list", "[learn]") {
  auto marks = idealMarks({0.1e-3, 0.25e-3, 0.4e-3, 0.7e-3, 1e-3, 1.5e-3, 2e-3});
  for (std::size_t i = 1; i < marks.size(); ++i) marks[i].width_m.value += (i % 2 ? 1e-6 : -1e-6);
  CHECK_FALSE(says(fitSpot(marks), "far from the rest"));
  marks[4].width_m.value *= 1.4;
  CHECK(says(fitSpot(marks), "reading 5 lies far from the rest"));
}

TEST_CASE("Energies that left no mark stay out of the line", "[learn]") {
  const auto with = fitSpot(idealMarks({0.1e-3, 0.15e-3, 0.4e-3, 0.7e-3, 1e-3, 2e-3}));
  REQUIRE(with.value);
  checkExact(with.value->diameter_m, 2 * w);
  CHECK(says(with, "two readings left no mark"));
  auto contrary = idealMarks({0.4e-3, 0.7e-3, 1e-3, 2e-3});
  contrary.push_back({0.9e-3, {}, {}, {0, {}}});
  CHECK(says(fitSpot(contrary), "although the others say it should"));
  checkRefused(fitSpot(idealMarks({0.05e-3, 0.1e-3, 0.15e-3, 0.19e-3})), "no readings with a mark");
}

TEST_CASE("Stated uncertainty makes two marks do, and is doubted when the scatter is larger", "[learn]") {
  auto two = idealMarks({0.4e-3, 1.6e-3});
  checkRefused(fitSpot(two), "two readings with a mark cannot tell the spot");
  for (Mark& mark : two) mark.width_m.uncertainty = 4e-6;
  const auto spot = fitSpot(two);
  REQUIRE(spot.value);
  CHECK(spot.value->diameter_m.likely == Catch::Approx(2 * w).epsilon(1e-9));
  CHECK(spot.value->diameter_m.high > 1.02 * spot.value->diameter_m.likely);
  auto scattered = withWidths({60e-6, 105e-6, 104e-6, 135e-6, 131e-6});
  for (Mark& mark : scattered) mark.width_m.uncertainty = 0.5e-6;
  CHECK(says(fitSpot(scattered), "scatter more than their stated uncertainty"));
}

TEST_CASE("Marks that teach nothing get a sentence and no number", "[learn]") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  checkRefused(fitSpot({}), "no marks");
  checkRefused(fitSpot(withWidths({80e-6})), "one reading with a mark cannot tell the spot");
  checkRefused(fitSpot(withWidths({80e-6, 80e-6, 80e-6, 80e-6})), "alike: nothing learnt");
  checkRefused(fitSpot(withWidths({120e-6, 100e-6, 80e-6, 60e-6})), "do not widen as the power grows");
  checkRefused(fitSpot(withWidths({100e-6, 80e-6, 120e-6, 95e-6})), "widen too little for how they scatter");
  checkRefused(fitSpot(withWidths({80e-6, nan, 100e-6})), "reading 2: not a number is no width");
  checkRefused(fitSpot(withWidths({80e-6, -90e-6, 100e-6})), "reading 2: -9e-05 is no width");
  checkRefused(fitSpot(withWidths({80e-6, std::numeric_limits<double>::infinity(), 100e-6})), "reading 2");
  auto marks = withWidths({60e-6, 80e-6, 90e-6});
  marks[2].pulseEnergy_J = -1;
  checkRefused(fitSpot(marks), "reading 3: -1 is no pulse energy");
  marks[2].pulseEnergy_J = 0;
  checkRefused(fitSpot(marks), "reading 3: 0 is no pulse energy");
  marks[2] = {{}, 20, {}, {90e-6, {}}};
  checkRefused(fitSpot(marks), "do not all name the same");
  for (Mark& mark : marks) mark = {1e-3, {}, {}, {1e-6 * static_cast<double>(80 + (&mark - marks.data())), {}}};
  checkRefused(fitSpot(marks), "same power");
  marks[1].width_m.uncertainty = -1;
  checkRefused(fitSpot(marks), "is no uncertainty");
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/energy_ceiling.h"

#include "core/beam/delivery.h"
#include "tests/core/learn/learn_support.h"

#include <algorithm>
#include <limits>

using namespace bw;
using namespace bw::test;

namespace {

/// What a machine delivers by the program's own rule.
std::vector<RateReading> idealRates(const std::vector<double>& rates_Hz) {
  Machine machine;
  machine.ratedPower_W = 300;
  machine.spotDiameter_m = 1e-4;
  machine.maxPulseEnergy_J = {2e-3};
  std::vector<RateReading> given;
  for (const double rate : rates_Hz) {
    Settings settings;
    settings.repetitionRate_Hz = rate;
    settings.pulseDuration_s = 100e-9;
    given.push_back({rate, {deliver(machine, settings).meanPower_W, {}}});
  }
  return given;
}

}  // namespace

TEST_CASE("Noise-free powers give ceiling and corner exactly", "[learn]") {
  const auto ceiling = fitEnergyCeiling(idealRates({800e3, 20e3, 60e3, 100e3, 200e3, 400e3}), 0);
  REQUIRE(ceiling.value);
  checkExact(ceiling.value->pulseEnergy_J, 2e-3);
  checkExact(*ceiling.value->meanPower_W, 300);
  checkExact(*ceiling.value->fallsBeyond_Hz, 150e3);
}

TEST_CASE("A corner that was not reached is not made up", "[learn]") {
  const auto rising = fitEnergyCeiling(idealRates({20e3, 40e3, 60e3, 80e3, 100e3}), 0.03);
  REQUIRE(rising.value);
  CHECK(rising.value->pulseEnergy_J.likely == Catch::Approx(2e-3));
  CHECK(rising.value->pulseEnergy_J.high == Catch::Approx(2e-3 * 1.03));
  CHECK_FALSE(rising.value->fallsBeyond_Hz);
  CHECK_FALSE(rising.value->meanPower_W);
  CHECK(says(rising, "was not reached"));
  checkRefused(fitEnergyCeiling(idealRates({200e3, 400e3, 600e3, 800e3}), 0), "at least 1.5 mJ, shows at lower rates only");
}

TEST_CASE("A bad reading is named by its place in the list", "[learn]") {
  auto given = idealRates({800e3, 20e3, 60e3, 100e3, 200e3, 400e3, 30e3, 500e3});
  for (std::size_t i = 0; i < given.size(); ++i) given[i].power_W.value *= i % 2 ? 1.002 : 0.998;
  given[6].power_W.value *= 1.3;
  CHECK(says(fitEnergyCeiling(given, 0), "reading 7 lies far from the rest"));
}

TEST_CASE("Rates that teach nothing get a sentence and no number", "[learn]") {
  checkRefused(fitEnergyCeiling({}, 0), "no readings at 0 rates");
  checkRefused(fitEnergyCeiling(idealRates({20e3, 400e3}), 0), "two readings at 2 rates");
  checkRefused(fitEnergyCeiling(idealRates({20e3, 20e3, 400e3}), 0), "three readings at 2 rates");
  auto bad = idealRates({20e3, 60e3, 100e3, 400e3});
  bad[1].power_W.value = std::numeric_limits<double>::quiet_NaN();
  checkRefused(fitEnergyCeiling(bad, 0), "reading 2: not a number is no power");
  bad[1].power_W.value = 10;
  bad[0].repetitionRate_Hz = 0;
  checkRefused(fitEnergyCeiling(bad, 0), "reading 1: 0 is no repetition rate");
  checkRefused(fitEnergyCeiling(idealRates({20e3, 60e3, 400e3}), -0.1), "meter's uncertainty");
}

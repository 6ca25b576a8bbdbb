// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/beam/delivery.h"

#include "tests/support/catch.h"

#include <cmath>
#include <numbers>

using namespace bw;
using Catch::Approx;

namespace {

Machine pulsedMachine() {
  Machine machine;
  machine.ratedPower_W = 300;
  machine.M2 = 1.8;
  machine.spotDiameter_m = 120e-6;
  machine.pulseDurations_s = {45e-9, 90e-9, 180e-9, 270e-9};
  machine.maxPulseEnergy_J = {2e-3};
  return machine;
}

Settings settingsAt(double power, double rate_Hz, double duration_s) {
  Settings settings;
  settings.powerFraction = power;
  settings.repetitionRate_Hz = rate_Hz;
  settings.pulseDuration_s = duration_s;
  return settings;
}

}  // namespace

TEST_CASE("Greatest pulse energy", "[beam]") {
  Machine machine = pulsedMachine();
  SECTION("one for all durations") {
    for (const double duration : {10e-9, 90e-9, 1e-6}) CHECK(largestPulseEnergy_J(machine, duration) == 2e-3);
  }
  SECTION("one beside each duration, the straight line between, the nearest end beyond") {
    machine.maxPulseEnergy_J = {0.5e-3, 1e-3, 1.4e-3, 2e-3};
    const std::pair<double, double> rows[] = {{45e-9, 0.5e-3},  {90e-9, 1e-3},   {270e-9, 2e-3}, {135e-9, 1.2e-3},
                                              {225e-9, 1.7e-3}, {20e-9, 0.5e-3}, {1e-6, 2e-3}};
    for (const auto& [duration, energy] : rows) {
      CAPTURE(duration);
      CHECK(largestPulseEnergy_J(machine, duration) == Approx(energy));
    }
  }
  SECTION("the peak-power ceiling binds where it is lower") {
    machine.maxPeakPower_W = 10e3;
    CHECK(largestPulseEnergy_J(machine, 90e-9) == Approx(0.9e-3));
    CHECK(largestPulseEnergy_J(machine, 270e-9) == Approx(2e-3));
  }
  SECTION("none stated") {
    machine.maxPulseEnergy_J.clear();
    CHECK(std::isinf(largestPulseEnergy_J(machine, 90e-9)));
    CHECK(deliver(machine, settingsAt(1, 10e3, 90e-9)).meanPower_W == Approx(300));
  }
}

TEST_CASE("Mean power is the setting or the greatest energy times the rate, whichever is lower", "[beam]") {
  // 300 W rated, 2 mJ: below 150 kHz the pulses are at their ceiling.
  struct Row {
    double power, rate_Hz, meanPower_W, energy_J;
  };
  const Row row = GENERATE(Row{0.85, 240e3, 255, 255 / 240e3}, Row{1, 150e3, 300, 2e-3}, Row{1, 50e3, 100, 2e-3},
                           Row{0.1, 50e3, 30, 0.6e-3}, Row{0, 50e3, 0, 0});
  const BeamResult beam = deliver(pulsedMachine(), settingsAt(row.power, row.rate_Hz, 180e-9));
  CHECK(beam.meanPower_W == Approx(row.meanPower_W));
  CHECK(*beam.pulseEnergy_J == Approx(row.energy_J));
  CHECK(beam.peakPower_W == Approx(row.energy_J / 180e-9));
}

TEST_CASE("What was measured at the part stands in the rating's place", "[beam]") {
  Machine machine = pulsedMachine();
  machine.deliveredPower_W = 255;
  CHECK(deliver(machine, settingsAt(1, 200e3, 90e-9)).meanPower_W == Approx(255));
  CHECK(deliver(machine, settingsAt(0.5, 200e3, 90e-9)).meanPower_W == Approx(127.5));
  CHECK(deliver(machine, settingsAt(1, 100e3, 90e-9)).meanPower_W == Approx(200));  // 2 mJ a pulse is all there is
  machine.kind = MachineKind::Continuous;
  CHECK(deliver(machine, settingsAt(1, 0, 0)).meanPower_W == Approx(255));
}

TEST_CASE("A pulse of 5 mJ in a spot of 0.5 mm radius peaks at 1.273 J/cm2", "[beam]") {
  // F0 = 2E/(pi w2), textbook.
  Machine machine = pulsedMachine();
  machine.spotDiameter_m = 1e-3;
  machine.maxPulseEnergy_J = {5e-3};
  const BeamResult beam = deliver(machine, settingsAt(1, 10e3, 180e-9));
  CHECK(*beam.pulseEnergy_J == Approx(5e-3));
  CHECK(*beam.peakFluence_J_m2 == Approx(1.273e4).epsilon(3e-4));
  CHECK(beam.peakIrradiance_W_m2 == Approx(*beam.peakFluence_J_m2 / 180e-9));
}

TEST_CASE("Out of focus the spot widens and the fluence falls with its area", "[beam]") {
  const Machine machine = pulsedMachine();
  Settings settings = settingsAt(1, 200e3, 180e-9);
  const BeamResult focus = deliver(machine, settings);
  CHECK(focus.spotDiameter_m == Approx(120e-6));
  CHECK(focus.rayleighRange_m == Approx(std::numbers::pi * 60e-6 * 60e-6 / (1.8 * 1064e-9)));
  for (const double side : {-1.0, 1.0}) {
    settings.focusOffset_m = side * focus.rayleighRange_m;
    const BeamResult off = deliver(machine, settings);
    CHECK(off.spotDiameter_m == Approx(120e-6 * std::numbers::sqrt2));
    CHECK(*off.peakFluence_J_m2 == Approx(*focus.peakFluence_J_m2 / 2));
    CHECK(off.rayleighRange_m == Approx(focus.rayleighRange_m));
  }
}

TEST_CASE("A continuous beam has no pulse; its gate takes from the mean, not from the peak", "[beam]") {
  Machine machine = pulsedMachine();
  machine.kind = MachineKind::Continuous;
  machine.ratedPower_W = 1500;
  Settings settings = settingsAt(0.8, 0, 0);
  settings.dutyFraction = 0.25;
  const BeamResult beam = deliver(machine, settings);
  CHECK_FALSE(beam.pulseEnergy_J);
  CHECK_FALSE(beam.peakFluence_J_m2);
  CHECK(beam.meanPower_W == Approx(300));
  CHECK(beam.peakPower_W == Approx(1200));
  CHECK(beam.peakIrradiance_W_m2 == Approx(1200 * 2 / (std::numbers::pi * 60e-6 * 60e-6)));
}

TEST_CASE("Duty of a pulsed beam takes from the mean after the ceilings", "[beam]") {
  Settings settings = settingsAt(1, 50e3, 180e-9);
  settings.dutyFraction = 0.5;
  const BeamResult beam = deliver(pulsedMachine(), settings);
  CHECK(beam.meanPower_W == Approx(50));
  CHECK(*beam.pulseEnergy_J == Approx(2e-3));
}

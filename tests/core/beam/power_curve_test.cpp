// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/beam/power_curve.h"

#include "core/beam/delivery.h"
#include "core/start/typical_machines.h"
#include "tests/support/catch.h"

#include <cmath>

using namespace bw;
using Catch::Approx;

TEST_CASE("The power rises with the rate as far as a pulse can carry it, and is level beyond", "[beam]") {
  const Machine machine = machineLike(MachineKind::Pulsed, 300, 120e-6);  // 2 mJ, 10 to 800 kHz: corner by hand 300 W/2 mJ = 150 kHz
  const auto curves = powerAgainstRate(machine);
  REQUIRE(curves.size() == 1);  // one ceiling for all durations: one curve
  const auto& points = curves.front().points;
  REQUIRE(points.size() == 3);
  CHECK(points[0].power_W == Approx(20));
  CHECK(points[1].rate_Hz == Approx(150e3));
  CHECK(points[1].power_W == Approx(300));
  CHECK(points[2].power_W == Approx(300));
  CHECK(points[2].pulseEnergy_J == Approx(300 / 800e3));
  CHECK(*curves.front().fullFrom_Hz == Approx(150e3));
}

TEST_CASE("Between its points the curve says what the plan's beam gets", "[beam]") {
  Machine machine = machineLike(MachineKind::Pulsed, 300, 120e-6);
  machine.maxPulseEnergy_J = {0.5e-3, 1e-3, 1.5e-3, 2e-3};
  machine.maxPeakPower_W = 20e3;  // binds at 45 ns: 0.9 mJ would be allowed, 0.5 mJ is listed; at 90 ns 1.8 mJ
  const auto curves = powerAgainstRate(machine);
  REQUIRE(curves.size() == 4);
  for (const PowerCurve& curve : curves) {
    for (std::size_t i = 0; i + 1 < curve.points.size(); ++i) {
      const PowerPoint &from = curve.points[i], &to = curve.points[i + 1];
      for (const double share : {0.0, 0.3, 0.8, 1.0}) {
        Settings settings;
        settings.powerFraction = 1;
        settings.pulseDuration_s = curve.pulseDuration_s;
        settings.repetitionRate_Hz = std::lerp(from.rate_Hz, to.rate_Hz, share);
        CHECK(std::lerp(from.power_W, to.power_W, share) == Approx(deliver(machine, settings).meanPower_W));
      }
    }
  }
}

TEST_CASE("A measured power takes the place of the rated one; without a ceiling there is no corner", "[beam]") {
  Machine machine = machineLike(MachineKind::Pulsed, 300, 120e-6);
  machine.deliveredPower_W = 240;
  CHECK(*powerAgainstRate(machine).front().fullFrom_Hz == Approx(120e3));
  machine.maxPulseEnergy_J.clear();
  const PowerCurve flat = powerAgainstRate(machine).front();
  CHECK(flat.points.size() == 2);
  CHECK(flat.points.front().power_W == 240);
  CHECK(*flat.fullFrom_Hz == 10e3);
  machine.maxPulseEnergy_J = {0.1e-3};  // 80 W at the highest rate
  CHECK_FALSE(powerAgainstRate(machine).front().fullFrom_Hz);
}

TEST_CASE("Machines without rates have no curve", "[beam]") {
  CHECK(powerAgainstRate(machineLike(MachineKind::Continuous, 1500, 400e-6)).empty());
  Machine machine = machineLike(MachineKind::Pulsed, 300, 120e-6);
  machine.repetitionRate_Hz = {0, 0};
  CHECK(powerAgainstRate(machine).empty());
  machine = machineLike(MachineKind::Pulsed, 300, 120e-6);
  machine.pulseDurations_s.clear();
  CHECK(powerAgainstRate(machine).empty());
}

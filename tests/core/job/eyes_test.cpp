// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/eyes.h"

#include "tests/support/catch.h"

#include <cmath>
#include <numbers>
#include <vector>

using namespace bw;

namespace {

constexpr double infrared_m = 1064e-9;
constexpr auto icnirp = EyeGuide::Icnirp2013;
constexpr auto directive = EyeGuide::Directive2006;
constexpr double pupil_m2 = std::numbers::pi / 4 * 7e-3 * 7e-3;

/// Limit of each pulse of a train, from the mean irradiance.
double perPulse_J_m2(EyeGuide guide, double pulse_s, double rate_Hz) {
  return *eyeLimit_W_m2(guide, {infrared_m, rate_Hz, pulse_s}) / rate_Hz;
}

Machine pulsedMachine() {
  Machine machine;
  machine.kind = MachineKind::Pulsed;
  machine.ratedPower_W = 300;
  machine.M2 = 1.8;
  machine.spotDiameter_m = 120e-6;
  return machine;
}

Settings pulses(double rate_Hz, double duration_s) {
  Settings settings;
  settings.repetitionRate_Hz = rate_Hz;
  settings.pulseDuration_s = duration_s;
  return settings;
}

}  // namespace

TEST_CASE("Limits of a steady beam at 1064 nm", "[job]") {
  // 90 t^0.75 J/m2: ICNIRP, Health Phys. 105 (2013) 271, table 5; Directive 2006/25/EC annex II table 2.2. Values computed from it.
  for (const EyeGuide guide : {icnirp, directive}) {
    CHECK(*eyeLimit_J_m2(guide, infrared_m, 1) == Catch::Approx(90));
    CHECK(*eyeLimit_J_m2(guide, infrared_m, 0.1) / 0.1 == Catch::Approx(160).epsilon(0.001));
    CHECK(*eyeLimit_J_m2(guide, infrared_m, 10) / 10 == Catch::Approx(50.61).epsilon(1e-4));
    CHECK(*eyeLimit_W_m2(guide, {infrared_m, 0, 0}) == Catch::Approx(50));  // from ten seconds on, the same tables: a hair stricter
    CHECK(*eyeLimit_W_m2(guide, {808e-9, 0, 0}) == Catch::Approx(10 * std::pow(10, 0.002 * 108)));
  }
}

TEST_CASE("Limit of a single short pulse through the pupil at 1064 nm", "[job]") {
  CHECK(*eyeLimit_J_m2(icnirp, infrared_m, 10e-9) * pupil_m2 == Catch::Approx(7.70e-7).epsilon(2e-3));     // ICNIRP 2013, worked value
  CHECK(*eyeLimit_J_m2(directive, infrared_m, 10e-9) * pupil_m2 == Catch::Approx(1.92e-6).epsilon(4e-3));  // 0.05 J/m2, table 2.2
  CHECK_FALSE(eyeLimit_J_m2(icnirp, infrared_m, 1e-12));
}

TEST_CASE("Limits of a train of pulses over ten seconds at 1064 nm", "[job]") {
  struct Row {
    EyeGuide guide;
    double pulse_s;
    double rate_Hz;
    double limit_J_m2;
    const char* source;
  };
  const std::vector<Row> rows = {
      {icnirp, 10e-9, 1e3, 10e-3, "ICNIRP 2013 worked example: C_P 0.5, rule 3 governs"},
      {icnirp, 10e-9, 20e3, 2.5e-3, "rule 2: 50 W/m2 over 20 kHz"},
      {directive, 10e-9, 20e3, 2.364e-3, "rule 3: 0.05 (2e5)^-0.25"},
      {icnirp, 10e-9, 100e3, 0.5e-3, "rule 2: 50 W/m2 over 100 kHz"},
      {directive, 10e-9, 100e3, 0.473e-3, "rule 3: five pulses in 50 us are one, 0.05 (2e5)^-0.25 / 5"},
  };
  for (const Row& row : rows) {
    INFO(row.source);
    CHECK(perPulse_J_m2(row.guide, row.pulse_s, row.rate_Hz) == Catch::Approx(row.limit_J_m2).epsilon(2e-3));
  }
  const EyeExposure exposure{infrared_m, 20e3, 10e-9};
  CHECK(*eyeLimit_W_m2(exposure) == *eyeLimit_W_m2(directive, exposure));  // the stricter of the two
}

TEST_CASE("A train is never allowed more than a steady beam or a single pulse", "[job]") {
  for (const EyeGuide guide : {icnirp, directive}) {
    for (const double wavelength_m : {808e-9, 1030e-9, 1064e-9, 1180e-9, 1300e-9}) {
      for (const double rate_Hz : {0.2, 100.0, 1e4, 2.4e5, 1e6}) {
        for (const double pulse_s : {2e-9, 200e-9, 20e-6}) {
          const double mean_W_m2 = *eyeLimit_W_m2(guide, {wavelength_m, rate_Hz, pulse_s});
          CHECK(mean_W_m2 > 0);
          CHECK(mean_W_m2 <= *eyeLimit_W_m2(guide, {wavelength_m, 0, 0}) * (1 + 1e-12));
          CHECK(mean_W_m2 / rate_Hz <= *eyeLimit_J_m2(guide, wavelength_m, pulse_s) * (1 + 1e-12));
        }
      }
    }
  }
}

TEST_CASE("Both ends of the band belong to it, and 2 kW needs the density of the stricter limit", "[job]") {
  CHECK(eyeLimit_W_m2({1400e-9, 0, 0}));
  CHECK(eyeLimit_W_m2({1400 * 1e-9, 0, 0}));  // which is a hair more in binary
  CHECK(eyeLimit_W_m2({700e-9, 0, 0}));
  CHECK(opticalDensity(1935, *eyeLimit_W_m2({infrared_m, 0, 0})) == 7);
}

TEST_CASE("Outside 700 to 1400 nm the limits are not known", "[job]") {
  for (const double wavelength_m : {532e-9, 1550e-9, 10.6e-6}) {
    CHECK_FALSE(eyeLimit_W_m2({wavelength_m, 0, 0}));
    Machine machine = pulsedMachine();
    machine.wavelength_m = wavelength_m;
    const EyesResult result = eyes(machine, pulses(240e3, 180e-9));
    CHECK_FALSE(result.hazardDistance_m);
    CHECK_FALSE(result.diffuseDistance_m);
    CHECK_FALSE(result.opticalDensity);
  }
}

TEST_CASE("Hazard distance, diffuse distance and optical density", "[job]") {
  // Lens on laser, 1/e2 widths: 1.5 kW, f 160 mm, 10 mm beam; computed from the formula of ANSI Z136.1 (from memory).
  CHECK(hazardDistance_m(1500, 50.61, 10.0 / 160) == Catch::Approx(139.0).epsilon(1e-3));
  // OSHA Technical Manual III:6 (from memory), Nd:YAG 100 W, f 25.4 mm, 6.3 mm beam: 6.3 m at 51 W/m2. It takes the beam's 1/e width,
  // so 4 P stands for 8 P here.
  CHECK(hazardDistance_m(100 / 2.0, 51, 6.3 / 25.4) == Catch::Approx(6.3).epsilon(0.03));
  // Diffuse, all of it returned, 10 s, 50.61 W/m2; computed from the formula.
  const std::vector<std::pair<double, double>> diffuse = {{100, 0.79}, {200, 1.12}, {500, 1.77}, {1000, 2.51}, {1500, 3.07}, {3000, 4.34}};
  for (const auto& [power_W, distance_m] : diffuse) CHECK(diffuseDistance_m(power_W, 50.61) == Catch::Approx(distance_m).margin(0.006));
  // OSHA Technical Manual III:6 (from memory), the same laser: 0.8 m.
  CHECK(diffuseDistance_m(100, 51) == Catch::Approx(0.8).epsilon(0.03));
  // 4.71, 5.01, 5.41, 5.71, 5.89, 6.19 before rounding up: all the power through 7 mm over 50.61 W/m2, computed.
  const std::vector<std::pair<double, double>> densities = {{100, 5}, {200, 6}, {500, 6}, {1000, 6}, {1500, 6}, {3000, 7}};
  for (const auto& [power_W, density] : densities) CHECK(opticalDensity(power_W, 50.61) == density);
}

TEST_CASE("Eyes of a pulsed machine: rated power counts, not the setting; a measured divergence wins", "[job]") {
  Machine machine = pulsedMachine();
  Settings settings = pulses(240e3, 180e-9);
  const EyesResult full = eyes(machine, settings);
  // Full angle 2 M2 lambda / (pi w0) = 20.3 mrad; the Directive's third rule at 240 kHz: twelve pulses in 50 us are one.
  const double limit_W_m2 = 0.05 * std::pow(2e5, -0.25) / 12 * 240e3;
  const double angle_rad = 2 * 1.8 * infrared_m / (std::numbers::pi * 60e-6);
  CHECK(angle_rad == Catch::Approx(20.3e-3).epsilon(2e-3));
  CHECK(*full.hazardDistance_m == Catch::Approx(std::sqrt(8 * 300 / (std::numbers::pi * limit_W_m2)) / angle_rad));
  CHECK(*full.diffuseDistance_m < *full.hazardDistance_m);
  settings.powerFraction = 0.1;
  CHECK(*eyes(machine, settings).hazardDistance_m == *full.hazardDistance_m);
  machine.divergence_rad = angle_rad / 2;
  CHECK(*eyes(machine, settings).hazardDistance_m == Catch::Approx(2 * *full.hazardDistance_m));
}

TEST_CASE("A gated continuous beam counts as a train", "[job]") {
  Machine machine = pulsedMachine();
  machine.kind = MachineKind::Continuous;
  Settings settings;
  const EyesResult steady = eyes(machine, settings);
  machine.gate_Hz = 1000;
  CHECK(*eyes(machine, settings).hazardDistance_m == *steady.hazardDistance_m);  // the gate stays open
  settings.dutyFraction = 0.5;
  CHECK(*eyes(machine, settings).hazardDistance_m >= *steady.hazardDistance_m);
}

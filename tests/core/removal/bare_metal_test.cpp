// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/bare_metal.h"

#include "tests/support/catch.h"

#include <cmath>

using namespace bw;

namespace {

BareMetal metalOf(double absorptance, double conductivity, double density, double specificHeat, double rise_K) {
  BareMetal metal;
  metal.absorptance = absorptance;
  metal.conductivity_W_mK = conductivity;
  metal.heatCapacity_J_m3K = density * specificHeat;
  metal.before_C = 20;
  metal.melting_C = 20 + rise_K;
  metal.boiling_C = 20 + 2 * rise_K;
  metal.vaporisation_J_m3 = 67e9;
  return metal;
}

const BareMetal bareSteel = metalOf(0.37, 53.3, 7850, 440, 1516);
const BareMetal bareAluminium = metalOf(0.05, 237, 2700, 900, 640);

}  // namespace

TEST_CASE("Fluence at which bare metal begins to melt", "[removal]") {
  struct Row {
    const char* name;
    BareMetal metal;
    double J_cm2[5];  // at 10, 30, 100, 200, 500 ns
  };
  // Computed from F = dT sqrt(pi k rho c tau)/(2A) with the properties written here, in high-precision arithmetic outside this program.
  const Row rows[] = {{"steel at 20 C", bareSteel, {0.493, 0.853, 1.56, 2.20, 3.48}},
                      {"steel, mean", metalOf(0.37, 35, 7850, 650, 1516), {0.485, 0.840, 1.53, 2.17, 3.43}},
                      {"304", metalOf(0.30, 20, 7900, 560, 1400), {0.389, 0.674, 1.23, 1.74, 2.75}},
                      {"aluminium", bareAluminium, {2.72, 4.72, 8.61, 12.2, 19.2}},
                      {"copper", metalOf(0.03, 400, 8960, 385, 1065), {11.7, 20.2, 37.0, 52.3, 82.6}},
                      {"zinc", metalOf(0.40, 116, 7140, 388, 400), {0.159, 0.275, 0.502, 0.710, 1.12}},
                      {"titanium", metalOf(0.42, 21.9, 4506, 524, 1648), {0.250, 0.433, 0.791, 1.12, 1.77}}};
  const double durations_s[] = {10e-9, 30e-9, 100e-9, 200e-9, 500e-9};
  for (const Row& row : rows) {
    for (int i = 0; i < 5; ++i) {
      INFO(row.name << " at " << durations_s[i] << " s");
      CHECK(row.metal.meltFluence_J_m2(durations_s[i]) / 1e4 == Catch::Approx(row.J_cm2[i]).epsilon(0.006));
    }
  }
}

TEST_CASE("Warm metal melts sooner", "[removal]") {
  BareMetal warm = bareSteel;
  warm.before_C = 20 + 1516 / 2.0;
  CHECK(warm.meltFluence_J_m2(1e-7) == Catch::Approx(bareSteel.meltFluence_J_m2(1e-7) / 2));
}

TEST_CASE("Depth that reaches melting in one pulse", "[removal]") {
  struct Row {
    BareMetal metal;
    double duration_s, ratio, depth_um;
  };
  // Root of the constant-flux solution (Carslaw and Jaeger 2nd ed. section 2.9): tests/reference/removal_values.py, melt_depth_um.
  const Row rows[] = {{bareSteel, 30e-9, 1.05, 0.0371},     {bareSteel, 30e-9, 2, 0.4759},      {bareSteel, 30e-9, 5, 0.984},
                      {bareSteel, 200e-9, 1.05, 0.0959},    {bareSteel, 200e-9, 2, 1.2288},     {bareSteel, 200e-9, 5, 2.5407},
                      {bareAluminium, 30e-9, 1.05, 0.0933}, {bareAluminium, 30e-9, 2, 1.1964},  {bareAluminium, 30e-9, 5, 2.4738},
                      {bareAluminium, 200e-9, 1.05, 0.241}, {bareAluminium, 200e-9, 2, 3.0892}, {bareAluminium, 200e-9, 5, 6.3873}};
  for (const Row& row : rows) {
    INFO(row.duration_s << " s, " << row.ratio << " times the melt fluence");
    const double fluence = row.ratio * row.metal.meltFluence_J_m2(row.duration_s);
    CHECK(row.metal.meltDepth_m(fluence, row.duration_s) * 1e6 == Catch::Approx(row.depth_um).epsilon(2e-3));
  }
  CHECK(bareSteel.meltDepth_m(0.99 * bareSteel.meltFluence_J_m2(1e-7), 1e-7) == 0);
  CHECK(bareSteel.meltDepth_m(0, 1e-7) == 0);
}

TEST_CASE("Etch begins at boiling and grows in proportion to what is above", "[removal]") {
  const double boil = 2 * bareSteel.meltFluence_J_m2(1e-7);  // boiling is twice melting's rise in this metal
  CHECK(bareSteel.etchPerPulse_m(0.999 * boil, 1e-7) == 0);
  for (const double above : {100.0, 1e4, 1e5}) CHECK(bareSteel.etchPerPulse_m(boil + above, 1e-7) == Catch::Approx(0.37 * above / 67e9));
}

TEST_CASE("Rise of a surface under constant flux", "[removal]") {
  // Holman, Heat Transfer, example 4-2 (surface value computed from the same formula): k 45, alpha 1.4e-5, 3.2e5 W/m2, 30 s, from 35 C.
  BareMetal metal;
  metal.conductivity_W_mK = 45;
  metal.heatCapacity_J_m3K = 45 / 1.4e-5;
  CHECK(35 + metal.flashRise_K(3.2e5, 30) == Catch::Approx(199.4).margin(0.1));
  // Cengel, Heat and Mass Transfer chapter 4 (from memory): 1250 W/m2 for 20 min on wood (1.26, 1.1e-5) 149 C and aluminium 22.0 C, from 20 C.
  metal.conductivity_W_mK = 1.26;
  metal.heatCapacity_J_m3K = 1.26 / 1.1e-5;
  CHECK(20 + metal.flashRise_K(1250, 1200) == Catch::Approx(148.6).margin(0.2));
  metal.conductivity_W_mK = 237;
  metal.heatCapacity_J_m3K = 237 / 9.71e-5;
  CHECK(20 + metal.flashRise_K(1250, 1200) == Catch::Approx(22.0).margin(0.1));
}

TEST_CASE("A pulse of the melt fluence brings the surface just to melting", "[removal]") {
  for (const BareMetal& metal : {bareSteel, bareAluminium}) {
    const double fluence = metal.meltFluence_J_m2(1e-7);
    CHECK(metal.before_C + metal.flashRise_K(metal.absorptance * fluence / 1e-7, 1e-7) == Catch::Approx(metal.melting_C));
  }
}

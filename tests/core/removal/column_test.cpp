// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/column.h"

#include "tests/core/removal/steel.h"
#include "tests/support/catch.h"

#include <cmath>

using namespace bw;

namespace {

CoatLayer paint(double thickness_m, double depth_m) {
  CoatLayer layer;
  layer.thickness_m = thickness_m;
  layer.absorptance = 0.9;
  layer.opticalDepth_m = depth_m;
  layer.removalEnthalpy_J_m3 = 1.5e9;
  layer.ejectionTime_s = 200e-9;
  layer.heatCapacity_J_m3K = 1.95e6;
  layer.diffusivity_m2_s = 0.3 / 1.95e6;
  layer.removalRise_K = 330;
  return layer;
}

void checkEnergy(const Column& column) {
  const EnergyAccount& energy = column.energy();
  CHECK(std::abs(energy.absorbed - energy.carriedOff - energy.intoPart - column.stored_J_m2()) <= 1e-6 * energy.absorbed);
}

/// A Gaussian spot going over, `radius_s` the time of its 1/e2 radius, in pieces of half that.
void passage(Column& column, double peak_W_m2, double radius_s) {
  for (int i = -5; i < 5; ++i) {
    const double dt = radius_s / 2, t = (i + 0.5) * dt;
    column.shine(peak_W_m2 * std::exp(-2 * t * t / (radius_s * radius_s)) * dt, dt);
  }
}

}  // namespace

TEST_CASE("The continuous column agrees with a finer one of its own making", "[removal]") {
  struct Row {
    double d_um, coat_um, peak_MW_m2, radius_us, gap_ms;
    int count;
    double depth_um;
  };
  // tests/reference/continuous_depths.py: cells of d/20, 200 steps a spot radius.
  const Row rows[] = {{10, 80, 2000, 20, 4, 1, 19.5}, {10, 80, 2000, 20, 4, 2, 46},  {10, 80, 500, 50, 4, 2, 21.5},
                      {20, 100, 1000, 60, 8, 2, 62},  {20, 100, 300, 400, 8, 1, 68}, {10, 150, 300, 300, 8, 2, 120}};
  for (const Row& row : rows) {
    const CoatLayer layer = paint(row.coat_um * 1e-6, row.d_um * 1e-6);
    Column column(std::span(&layer, 1), steel(), 2e-3);
    for (int i = 0; i < row.count; ++i) {
      passage(column, row.peak_MW_m2 * 1e6, row.radius_us * 1e-6);
      column.rest(row.gap_ms * 1e-3);
    }
    INFO(row.d_um << " um, " << row.peak_MW_m2 << " MW/m2, " << row.radius_us << " us, " << row.count << " passages: " << column.depth_m() * 1e6 << " um for " << row.depth_um);
    CHECK(column.depth_m() * 1e6 == Catch::Approx(row.depth_um).epsilon(0.12));
    checkEnergy(column);
  }
}

TEST_CASE("Under constant irradiance a thick coat recedes at I A / H, late by d (1 + alpha/(v d))", "[removal]") {
  // Moving front: what is absorbed leaves at H, but for the store that travels with the front.
  const CoatLayer layer = paint(400e-6, 20e-6);
  for (const double flux : {2e8, 1e9}) {
    Column column(std::span(&layer, 1), steel(), 2e-3);
    const double speed = flux * layer.absorptance / layer.removalEnthalpy_J_m3, time = 300e-6 / speed;
    for (int i = 0; i < 400; ++i) column.shine(flux * time / 400, time / 400);
    const double d = layer.opticalDepth_m;
    const double store = d * (1 + layer.diffusivity_m2_s / (speed * d));  // of unit H, if matter conducted up to H
    INFO("I = " << flux << " W/m2: " << column.depth_m() << " m of " << speed * time);
    CHECK(column.depth_m() < speed * time - 0.8 * d);
    CHECK(column.depth_m() == Catch::Approx(speed * time - store).margin(0.5 * d));
    checkEnergy(column);
  }
}

TEST_CASE("A film over cold metal stalls below k (T_rem - T0)/(A L)", "[removal]") {
  const CoatLayer layer = paint(30e-6, 5e-6);
  const double balance = 0.3 * layer.removalRise_K / (layer.absorptance * layer.thickness_m);  // 3.7 MW/m2
  for (const double ratio : {0.3, 3.0}) {
    Column column(std::span(&layer, 1), steel(), 0.1);  // metal too thick to warm up
    for (int i = 0; i < 200; ++i) column.shine(ratio * balance * 0.1e-3, 0.1e-3);
    INFO(ratio);
    CHECK((column.depth_m() > 0) == (ratio > 1));
    checkEnergy(column);
  }
}

TEST_CASE("The last film goes when the metal under it has reached the removal temperature", "[removal]") {
  const CoatLayer layer = paint(30e-6, 5e-6);
  Column column(std::span(&layer, 1), steel(), 0.2e-3);  // thin sheet: warms through
  double fallen_s = 0;
  while (!column.isBare() && fallen_s < 1) {
    column.shine(1e6 * 1e-3, 1e-3);  // below the stall: only the metal's warmth can do it
    fallen_s += 1e-3;
  }
  CHECK(column.isBare());
  // Sheet and coat take about rho c L dT over the absorbed flux.
  CHECK(fallen_s == Catch::Approx(0.2e-3 * 3.6e6 * 330 / (0.9 * 1e6)).epsilon(0.2));
  checkEnergy(column);
}

TEST_CASE("Layers of a column go from the top, and bare metal takes its share", "[removal]") {
  const CoatLayer coat[] = {paint(40e-6, 10e-6), paint(20e-6, 15e-6)};
  Column column(coat, steel(), 1e-3);
  for (int i = 0; i < 100 && !column.isBare(); ++i) {
    passage(column, 1e9, 100e-6);
    column.rest(5e-3);
    if (column.left_m(0) > 0) CHECK(column.left_m(1) == Catch::Approx(20e-6));
    checkEnergy(column);
  }
  REQUIRE(column.isBare());
  CHECK(column.depth_m() == Catch::Approx(60e-6));
  const EnergyAccount before = column.energy();
  column.shine(1000, 1e-4);
  CHECK(column.energy().intoPart - before.intoPart == Catch::Approx(500));
  CHECK(column.energy().deliveredBare - before.deliveredBare == Catch::Approx(1000));
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/column.h"

#include "core/values/stopped.h"
#include "tests/core/removal/judged.h"
#include "tests/core/removal/steel.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>

using namespace bw;

namespace {

CoatLayer paintOf(double thickness_m, double depth_m) {
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
  const double left = energy.absorbed - energy.carriedOff - energy.intoPart - column.stored_J_m2() - column.lost_J_m2();
  CHECK(std::abs(left) <= 1e-6 * energy.absorbed);
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
    const CoatLayer layer = paintOf(row.coat_um * 1e-6, row.d_um * 1e-6);
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
  const CoatLayer layer = paintOf(400e-6, 20e-6);
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
  const CoatLayer layer = paintOf(30e-6, 5e-6);
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
  const CoatLayer layer = paintOf(30e-6, 5e-6);
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
  const CoatLayer coat[] = {paintOf(40e-6, 10e-6), paintOf(20e-6, 15e-6)};
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

TEST_CASE("The fine column under pulses agrees with one of other make", "[removal]") {
  // tests/reference/column_depths.py: another language, other steps, cells of d/20. There the light that passes the coat is lost: so it is
  // in a metal that stays cold.
  std::ifstream stream(std::string(BAREWRIGHT_SOURCE_DIR) + "/tests/reference/column_depths.csv");
  std::string line;
  std::getline(stream, line);
  double squares = 0, count = 0;
  while (std::getline(stream, line)) {
    INFO(line);
    const bool raster = line.starts_with("raster");
    std::ranges::replace(line, ',', ' ');
    std::istringstream fields(line.substr(line.find(' ')));
    double depth_um = 0, coat_um = 0, rate_kHz = 0, ratio = 0, expected_um = 0;
    std::size_t repetitions = 0;
    fields >> depth_um >> coat_um >> rate_kHz >> ratio >> repetitions >> expected_um;
    REQUIRE(fields);
    const CoatLayer layer = paintOf(coat_um * 1e-6, depth_um * 1e-6);
    BareMetal metal = steel();
    metal.absorptance = layer.absorptance;
    metal.conductivity_W_mK = 5e5;
    const double peak = ratio * layer.removalEnthalpy_J_m3 * layer.opticalDepth_m / layer.absorptance, rate = rate_kHz * 1e3;
    const Column column(std::span(&layer, 1), metal, 0.05, {}, ColumnSettings::fine());
    const double depth = raster ? test::depthsOf(column, test::pulsesOfFrame(peak, rate), 1, 0.4, repetitions, 1, true).back()
                                : test::depthsOf(column, test::pulseAlone(peak), 1, 1 / rate, repetitions, 1, true).back();
    const double error = depth * 1e6 / expected_um - 1;
    INFO(depth * 1e6 << " um");
    CHECK(std::abs(error) < 0.06);  // a cell or two of the thinnest depth removed, light that is left in the metal
    squares += error * error;
    ++count;
  }
  REQUIRE(count > 20);
  CHECK(std::sqrt(squares / count) < 0.02);
}

TEST_CASE("Where matter conducts up to its removal, a thick coat is late by d (1 + alpha/(v d)), the fine column shows", "[removal]") {
  // Moving front: ahead of it the coat holds H (1 + alpha/(v d)) d, the steady solution of the heat equation with exp(-z/d) sources.
  CoatLayer layer = paintOf(300e-6, 20e-6);
  layer.removalRise_K = layer.removalEnthalpy_J_m3 / layer.heatCapacity_J_m3K;
  layer.ejectionTime_s = 50e-9;
  for (const double flux : {2e8, 1e9}) {
    BareMetal metal = steel();
    metal.absorptance = layer.absorptance;
    Column column(std::span(&layer, 1), metal, 2e-3, {}, ColumnSettings::fine());
    const double speed = flux * layer.absorptance / layer.removalEnthalpy_J_m3, time = 200e-6 / speed;
    column.shine(flux * time, time);
    const double lag = layer.opticalDepth_m + layer.diffusivity_m2_s / speed;
    INFO("I = " << flux << " W/m2: " << column.depth_m() << " m of " << speed * time << " less " << lag);
    CHECK(speed * time - column.depth_m() == Catch::Approx(lag).epsilon(0.1));  // two cells
    checkEnergy(column);
  }
}

TEST_CASE("The fine column stalls at the same film as the balance says", "[removal]") {
  const CoatLayer layer = paintOf(60e-6, 2e-6);
  const double balance = 0.3 * layer.removalRise_K / (layer.absorptance * (layer.thickness_m - layer.opticalDepth_m));
  for (const double ratio : {0.9, 1.2}) {
    Column column(std::span(&layer, 1), steel(), 0.1, {}, ColumnSettings::fine());
    column.shine(ratio * balance * 0.1, 0.1);
    INFO(ratio);
    CHECK((column.depth_m() > 0) == (ratio > 1));
    checkEnergy(column);
  }
}

TEST_CASE("A pulse shorter than the ejection time removes d ln x, a long one tends to d (x - 1)", "[removal]") {
  CoatLayer layer = paintOf(300e-6, 20e-6);
  layer.diffusivity_m2_s = 1e-12;  // nothing leaks
  const double x = 3, fluence = x * layer.removalEnthalpy_J_m3 * layer.opticalDepth_m / layer.absorptance;
  BareMetal metal = steel();
  metal.absorptance = layer.absorptance;
  const auto depth = [&](double duration_s) {
    Column column(std::span(&layer, 1), metal, 1e-3, {}, ColumnSettings::fine());
    column.shine(fluence, duration_s);
    column.rest(1e-6);
    checkEnergy(column);
    return column.depth_m();
  };
  CHECK(depth(20e-9) == Catch::Approx(20e-6 * std::log(x)).margin(1.1e-6));  // a cell
  CHECK(depth(100e-6) == Catch::Approx(20e-6 * (x - 1)).margin(1.6e-6));
  CHECK(depth(1e-6) > depth(20e-9));
}

TEST_CASE("However a coat leaves, the fine column keeps its energy", "[removal]") {
  CoatLayer white = test::paleCoatOf(60, 30, 0.7);
  white.liftChance = 0.2;
  ColumnSettings settings = ColumnSettings::fine();
  settings.air = {20, 0.9, 20};
  for (const Behaviour behaviour : {Behaviour::Decomposes, Behaviour::Softens, Behaviour::Spalls, Behaviour::Scorches}) {
    CoatLayer top = paintOf(30e-6, 8e-6);
    top.behaviour = behaviour;
    top.residueShare = 0.2;
    top.absorptanceAfterHeating = 0.97;
    for (const auto& coat : {std::vector{top, white}, std::vector{white, top}, std::vector{top}}) {
      Column column(coat, steel(), 1e-3, {}, settings);
      for (int pass = 0; pass < 4; ++pass) {
        column.beginPass();
        for (const Hit& hit : test::pulsesOfFrame(4e4, 100e3)) {
          column.shine(hit.fluence_J_m2, 50e-9);
          column.rest(1e-4);
          checkEnergy(column);
        }
      }
      CHECK(column.depth_m() > 0);
    }
  }
}

TEST_CASE("The fine column knows the ways in which coats leave", "[removal]") {
  const auto after = [](std::vector<CoatLayer> coat, double fluence, int pulses, double duration_s = 50e-9) {
    Column column(coat, steel(), 5e-3, {}, ColumnSettings::fine());
    for (int i = 0; i < pulses; ++i) {
      column.shine(fluence, duration_s);
      column.rest(1e-3);
    }
    return column;
  };
  const CoatLayer plain = paintOf(40e-6, 10e-6);
  const double threshold = plain.removalEnthalpy_J_m3 * plain.opticalDepth_m / plain.absorptance;

  CoatLayer soft = plain;
  soft.behaviour = Behaviour::Softens;
  soft.residueShare = 0.25;
  CHECK(after({soft}, 1.5 * threshold, 30, 1e-6).left_m(0) == Catch::Approx(10e-6).margin(0.6e-6));  // one pass: a quarter stays, to a cell
  CHECK(after({soft}, 3 * threshold, 30, 50e-9).isBare());                                           // above 1e11 W/m2 it is blown off

  CoatLayer spalling = plain;
  spalling.behaviour = Behaviour::Spalls;
  CHECK(after({plain}, 0.7 * threshold, 1).depth_m() == 0);
  CHECK(after({spalling}, 0.7 * threshold, 1).depth_m() > 0);

  CoatLayer pale = plain, scorching;
  pale.absorptance = 0.4;
  scorching = pale;
  scorching.behaviour = Behaviour::Scorches;
  scorching.absorptanceAfterHeating = 0.9;
  const double warms = 0.7 * plain.removalEnthalpy_J_m3 * plain.opticalDepth_m / pale.absorptance;  // beyond the removal temperature
  CHECK(after({scorching}, warms, 2).energy().absorbed > 1.3 * after({pale}, warms, 2).energy().absorbed);

  const CoatLayer white = test::paleCoatOf(60, 30, 0.7);
  CoatLayer flaking = white;
  flaking.liftChance = 0.5;
  CHECK(after({white, plain}, 2e4, 3).left_m(0) == Catch::Approx(60e-6));
  CHECK(after({flaking, plain}, 2e4, 3).left_m(0) == 0);
  CHECK(after({flaking, plain}, 2e4, 3).left_m(1) > 0);
  CHECK(after({white, plain}, 2e4, 3).progress_m() > 0);
}

TEST_CASE("A column follows the history of a place, and stops when told to", "[removal]") {
  const CoatLayer layer = paintOf(60e-6, 10e-6);
  std::vector<Hit> hits = test::pulsesOfFrame(3e4, 100e3);
  Column whole(std::span(&layer, 1), steel(), 1e-3, {}, ColumnSettings::fine()), apart = whole;
  whole.follow(irradianceOf(hits, 20e-9), 0.02);
  double now = 0;
  for (const Hit& hit : hits) {
    apart.rest(hit.time_s - now);
    apart.shine(hit.fluence_J_m2, 20e-9);
    now = hit.time_s + 20e-9;
  }
  apart.rest(0.02 - now);
  CHECK(whole.depth_m() > 0);
  CHECK(whole.depth_m() == apart.depth_m());
  CHECK(whole.energy().intoPart == Catch::Approx(apart.energy().intoPart).epsilon(1e-9));

  hits = {{0, 100, 5e-6}};  // a piece of a continuous beam keeps its own duration
  CHECK(irradianceOf(hits, 20e-9).front().irradiance_W_m2 == Catch::Approx(2e7));

  std::stop_source stop;
  stop.request_stop();
  Column stopped(std::span(&layer, 1), steel(), 1e-3, stop.get_token(), ColumnSettings::fine());
  const auto work = [&] {
    for (int i = 0; i < 1000; ++i) {
      stopped.shine(10, 1e-6);
      stopped.rest(1e-4);
    }
  };
  CHECK_THROWS_AS(work(), Stopped);
}

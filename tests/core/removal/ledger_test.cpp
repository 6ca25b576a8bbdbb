// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/ledger.h"
#include "core/removal/threshold.h"

#include "tests/core/removal/paint.h"
#include "tests/core/removal/steel.h"
#include "tests/support/catch.h"

#include <cmath>
#include <numbers>
#include <random>

using namespace bw;
using test::paint;

namespace {

constexpr double short_s = 20e-9;
constexpr double instant_s = 1e-18;  // no heat moves meanwhile: closed forms hold exactly

double thresholdOf(const CoatLayer& layer) { return layer.removalEnthalpy_J_m3 * layer.opticalDepth_m / layer.absorptance; }

/// Nothing lost, nothing made: to 1e-6 of what was absorbed.
void checkEnergy(const Ledger& ledger) {
  const EnergyAccount& energy = ledger.energy();
  CHECK(energy.absorbed <= energy.delivered);
  CHECK(std::abs(energy.absorbed - energy.carriedOff - energy.intoPart - ledger.stored_J_m2()) <= 1e-6 * energy.absorbed);
  CHECK(ledger.stored_J_m2() >= 0);
}

struct Shot {
  double depth_m = 0;
  EnergyAccount energy;
};

/// One cold pulse.
Shot coldShot(const CoatLayer& layer, double fluence, double duration_s = instant_s) {
  const CoatedMetal part({layer}, steel());
  Ledger ledger(part);
  ledger.pulse(fluence, duration_s);
  checkEnergy(ledger);
  return {ledger.depth_m(), ledger.energy()};
}

/// Sums over a Gaussian spot of w = 1 m and peak fluence x times the threshold: volume, absorbed energy and what is left behind of it.
struct Spot {
  double volume = 0, absorbed = 0, left = 0;
};

Spot gaussianShot(const CoatLayer& layer, double x) {
  Spot spot;
  const double dr = 0.002;
  for (double r = dr / 2; r < 2.6; r += dr) {
    const Shot shot = coldShot(layer, x * thresholdOf(layer) * std::exp(-2 * r * r));
    const double ring = 2 * std::numbers::pi * r * dr;
    spot.volume += ring * shot.depth_m;
    spot.absorbed += ring * shot.energy.absorbed;
    spot.left += ring * (shot.energy.absorbed - shot.energy.carriedOff);
  }
  return spot;
}

}  // namespace

TEST_CASE("One short cold pulse removes d ln x and leaves 1/x of its energy there", "[removal]") {
  const CoatLayer layer = paint(1e-3);
  for (const double x : {1.2, 2.0, 3.0, 5.0, std::exp(2.0)}) {  // absorption over d, removal at H: closed form
    const Shot shot = coldShot(layer, x * thresholdOf(layer));
    INFO("x = " << x);
    CHECK(shot.depth_m == Catch::Approx(layer.opticalDepth_m * std::log(x)).epsilon(1e-6));
    CHECK(shot.energy.carriedOff / shot.energy.absorbed == Catch::Approx(1 - 1 / x).epsilon(1e-6));
  }
  CHECK(coldShot(layer, 0.999 * thresholdOf(layer)).depth_m == 0);
}

TEST_CASE("The ledger's threshold is that of a pulse of its length", "[removal]") {
  // Half-space heated by exponentially absorbed light, as in thresholdFluence_J_m2. Metals, scale, rust and paint.
  for (const double depth_m : {22e-9, 0.25e-6, 4e-6, 10e-6}) {
    for (const double diffusivity : {1.5e-7, 1e-6, 4e-5}) {
      CoatLayer layer = paint(1e-3, depth_m);
      layer.diffusivity_m2_s = diffusivity;
      const double pulse_s = 150e-9;
      const double threshold = thresholdFluence_J_m2(layer.removalEnthalpy_J_m3, depth_m, layer.absorptance, diffusivity, pulse_s);
      CAPTURE(depth_m, diffusivity);
      CHECK(coldShot(layer, 0.999 * threshold, pulse_s).depth_m == 0);
      CHECK(coldShot(layer, 1.001 * threshold, pulse_s).depth_m > 0);
    }
  }
}

TEST_CASE("An isolated Gaussian shot leaves (1 + ln x)/x of its energy", "[removal]") {
  const CoatLayer layer = paint(1e-3);
  struct Row {
    double x, left;
  };
  for (const Row& row : {Row{2, 0.85}, Row{3, 0.70}, Row{5, 0.52}, Row{std::exp(2.0), 0.41}}) {  // integral of the row above over the spot
    const Spot spot = gaussianShot(layer, row.x);
    INFO("x = " << row.x);
    CHECK(spot.left / spot.absorbed == Catch::Approx((1 + std::log(row.x)) / row.x).epsilon(1e-3));
    CHECK(spot.left / spot.absorbed == Catch::Approx(row.left).margin(0.005));
  }
}

TEST_CASE("A pulse far longer than matter takes to leave tends to d (x - 1)", "[removal]") {
  CoatLayer layer = paint(1e-3);
  layer.diffusivity_m2_s = 1e-12;  // no leak: only the ejection counts
  for (const double x : {1.5, 3.0, 6.0}) {
    const double threshold = thresholdOf(layer);
    double before = layer.opticalDepth_m * std::log(x);
    for (const double parts : {4, 16, 64}) {
      const double depth = coldShot(layer, x * threshold, parts * layer.ejectionTime_s).depth_m;
      CHECK(depth > before);
      before = depth;
    }
    CHECK(before == Catch::Approx(layer.opticalDepth_m * (x - 1)).epsilon(0.05));
  }
}

TEST_CASE("A train of small pulses on a thick coat recedes at I A / H", "[removal]") {
  // Steady state: nothing more is stored, all that is absorbed leaves, at H for small pulses. A pulse of x thresholds heats what it
  // removes to (1 + x) H at most, so that the depth falls short by ln(1 + x)/x at most.
  for (const double x : {0.002, 0.02, 0.1, 0.5}) {
    for (const double rate_Hz : {2e5, 1e6}) {
      const CoatLayer layer = paint(1);
      const CoatedMetal part({layer}, steel());
      Ledger ledger(part);
      const double fluence = x * thresholdOf(layer);
      const auto train = [&](int pulses) {
        for (int i = 0; i < pulses; ++i) {
          ledger.pulse(fluence, short_s);
          ledger.rest(1 / rate_Hz - short_s);
        }
      };
      train(20000);
      const double start = ledger.depth_m(), pulses = 20000;
      train(20000);
      const double ofSteady = (ledger.depth_m() - start) / (pulses * fluence * layer.absorptance / layer.removalEnthalpy_J_m3);
      INFO("x = " << x << ", " << rate_Hz << " Hz");
      CHECK(ofSteady < 1 + 1e-3);
      CHECK(ofSteady > std::log1p(x) / x - 1e-3);
      checkEnergy(ledger);
    }
  }
}

TEST_CASE("Isolated Gaussian shots remove most per joule at e2 times the threshold", "[removal]") {
  const CoatLayer layer = paint(1e-3);
  const auto volumePerAbsorbed = [&](double x) {
    const Spot spot = gaussianShot(layer, x);
    return spot.volume / spot.absorbed;
  };
  double best = 0, at = 0;
  for (double x = 5; x < 11; x += 0.25) {
    if (volumePerAbsorbed(x) > best) {
      best = volumePerAbsorbed(x);
      at = x;
    }
  }
  CHECK(at == Catch::Approx(std::exp(2.0)).epsilon(0.05));
  // Absorbed energy per volume H 2x/ln^2 x: 3.7 H at best, 8.3 H at x = 2.
  CHECK(1 / best / layer.removalEnthalpy_J_m3 == Catch::Approx(3.69).epsilon(0.01));
  CHECK(1 / volumePerAbsorbed(2) / layer.removalEnthalpy_J_m3 == Catch::Approx(8.33).epsilon(0.01));
}

TEST_CASE("Craters widen by Liu's law", "[removal]") {
  // D^2 = 2 w^2 ln(F0/Fth): J. M. Liu, Opt. Lett. 7 (1982) 196. D/w = 1.1774, 1.4142, 1.7941, 2.1460.
  const CoatLayer layer = paint(1e-3);
  struct Row {
    double ratio, widthOverRadius;
  };
  for (const Row& row : {Row{2, 1.1774}, Row{std::exp(1.0), 1.4142}, Row{5, 1.7941}, Row{10, 2.1460}}) {
    double low = 0, high = 2;
    for (int i = 0; i < 30; ++i) {
      const double r = 0.5 * (low + high);
      (coldShot(layer, row.ratio * thresholdOf(layer) * std::exp(-2 * r * r)).depth_m > 0 ? low : high) = r;
    }
    CHECK(2 * low == Catch::Approx(row.widthOverRadius).epsilon(1e-3));
  }
}

TEST_CASE("Energy is kept over any run of pulses and rests through several layers down to the metal", "[removal]") {
  std::mt19937 random(7);
  const auto between = [&](double a, double b) { return a * std::pow(b / a, std::uniform_real_distribution<>(0, 1)(random)); };
  for (int run = 0; run < 60; ++run) {
    std::vector<CoatLayer> coat;
    for (int i = 0; i < 1 + run % 3; ++i) {
      CoatLayer layer = paint(between(3e-6, 100e-6), between(1e-6, 200e-6));
      layer.absorptance = between(0.1, 1);
      layer.removalEnthalpy_J_m3 = between(0.5e9, 5e9);
      layer.removalRise_K = run % 4 == 0 ? 0 : between(100, 1000);
      layer.diffusivity_m2_s = between(5e-8, 5e-6);
      coat.push_back(layer);
    }
    const CoatedMetal part(coat, steel());
    Ledger ledger(part);
    double depth = 0;
    for (int i = 0; i < 400; ++i) {
      ledger.pulse(between(1e2, 2e5), between(1e-9, 1e-6));
      ledger.rest(between(1e-6, 1));
      CHECK(ledger.depth_m() >= depth);
      depth = ledger.depth_m();
    }
    INFO("run " << run);
    checkEnergy(ledger);
  }
}

TEST_CASE("Rest takes the store to the part and nothing else", "[removal]") {
  const std::vector<CoatLayer> coat = {paint(40e-6)};
  const CoatedMetal part(coat, steel());
  Ledger ledger(part);
  ledger.pulse(0.8 * thresholdOf(coat[0]), short_s);
  double stored = ledger.stored_J_m2();
  CHECK(stored > 0);
  for (int i = 0; i < 40; ++i) {
    ledger.rest(1e-4);
    CHECK(ledger.stored_J_m2() <= stored * (1 + 1e-12));
    stored = ledger.stored_J_m2();
  }
  ledger.rest(1);
  CHECK(ledger.stored_J_m2() < 1e-6 * ledger.energy().absorbed);
  CHECK(ledger.depth_m() == 0);
  checkEnergy(ledger);
}

TEST_CASE("A film thinner than two micrometres or a tenth of the optical depth counts as gone", "[removal]") {
  CHECK(paint(1e-3, 10e-6).filmLimit_m() == Catch::Approx(2e-6));
  CHECK(paint(1e-3, 50e-6).filmLimit_m() == Catch::Approx(5e-6));
  CHECK(paint(12e-6, 2e-3).filmLimit_m() == Catch::Approx(6e-6));  // never more than half the layer
  for (const double spare_m : {0.2e-6, -0.2e-6}) {
    CoatLayer layer = paint(0);
    layer.thickness_m = layer.opticalDepth_m * std::log(3.0) + layer.filmLimit_m() + spare_m;
    const std::vector<CoatLayer> coat = {layer};
    const CoatedMetal part(coat, steel());
    Ledger ledger(part);
    // What a thin layer lets through does not heat it: the depth is then less than d ln x, so aim from the outcome.
    ledger.pulse(3 * thresholdOf(layer), short_s);
    const double left = layer.thickness_m - ledger.depth_m();
    CHECK((ledger.left_m(0) == 0) == ledger.isBare());
    CHECK((left <= 0 || left >= layer.filmLimit_m()));
    checkEnergy(ledger);
  }
}

TEST_CASE("A layer thinner than its optical depth keeps only what it absorbs", "[removal]") {
  std::vector<CoatLayer> coat = {paint(5e-6, 50e-6)};
  coat[0].absorptance = steel().absorptance;  // then nothing but exp(-z/d) goes down
  const CoatedMetal part(coat, steel());
  Ledger ledger(part);
  const double fluence = 0.5 * thresholdOf(coat[0]);
  ledger.pulse(fluence, short_s);
  CHECK(ledger.energy().intoPart == Catch::Approx(steel().absorptance * fluence * std::exp(-0.1)).epsilon(1e-9));
  checkEnergy(ledger);
}

TEST_CASE("Layers go one after another, and a layer of high removal enthalpy stops the beam", "[removal]") {
  CoatLayer zinc = paint(15e-6, 1e-6);
  zinc.removalEnthalpy_J_m3 = 1e15;
  const std::vector<CoatLayer> coat = {paint(30e-6), paint(30e-6), zinc};
  const CoatedMetal part(coat, steel());
  Ledger ledger(part);
  for (int i = 0; i < 500; ++i) {
    ledger.pulse(3 * thresholdOf(coat[0]), short_s);
    ledger.rest(1e-4);
    if (ledger.left_m(0) > 0) CHECK(ledger.left_m(1) == coat[1].thickness_m);
  }
  CHECK(ledger.left_m(0) == 0);
  CHECK(ledger.left_m(1) == 0);
  CHECK(ledger.left_m(2) == zinc.thickness_m);
  CHECK_FALSE(ledger.isBare());
  CHECK(ledger.etch_m() == 0);
  checkEnergy(ledger);
}

TEST_CASE("Bare metal takes up its share of everything and etches from the first pulse", "[removal]") {
  const BareMetal metal = steel();
  const CoatedMetal part({}, metal);
  Ledger ledger(part);
  REQUIRE(ledger.isBare());
  const double fluence = 30e4;
  for (int i = 0; i < 10; ++i) {
    ledger.rest(1e-5);
    ledger.pulse(fluence, 1e-7);
  }
  CHECK(ledger.energy().delivered == Catch::Approx(10 * fluence));
  CHECK(ledger.energy().deliveredBare == Catch::Approx(10 * fluence));
  CHECK(ledger.energy().intoPart == Catch::Approx(10 * 0.5 * fluence));
  CHECK(ledger.energy().intoPartBare == Catch::Approx(10 * 0.5 * fluence));
  CHECK(ledger.etch_m() > 0);
  CHECK(ledger.etch_m() == Catch::Approx(10 * metal.etchPerPulse_m(fluence, 1e-7)));
  CHECK(ledger.depth_m() == 0);
  checkEnergy(ledger);
}

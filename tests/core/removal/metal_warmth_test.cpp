// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/metal_warmth.h"
#include "core/removal/coat_foot.h"
#include "tests/core/removal/paint.h"
#include "tests/core/removal/steel.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

using namespace bw;
using Catch::Approx;

namespace {

constexpr double flash_s = 100e-9, heat_J_m2 = 5000;

/// Plane source on a half space: Q/sqrt(pi k rho c t), Carslaw and Jaeger 2nd ed. section 10.2.
double riseBy(double age_s) {
  const BareMetal metal = steel();
  return heat_J_m2 / std::sqrt(std::numbers::pi * metal.conductivity_W_mK * metal.heatCapacity_J_m3K * age_s);
}

/// Largest departure from the sum over all pulses, just before each next one.
double worstOf(const std::vector<double>& gaps_s) {
  MetalWarmth warmth(steel());
  std::vector<double> ends;
  double now = 0, worst = 0;
  for (const double gap_s : gaps_s) {
    warmth.take(heat_J_m2, flash_s);
    ends.push_back(now);
    warmth.rest(gap_s);
    now += gap_s;
    double exact = 0;
    for (const double end : ends) exact += riseBy(now - end);
    worst = std::max(worst, std::abs(warmth.rise_K() / exact - 1));
  }
  return worst;
}

}  // namespace

TEST_CASE("The metal's face keeps the warmth of pulses as the sum over half-space sources", "[removal]") {
  std::vector<double> bursts, chance;
  std::mt19937 random(3);
  for (int i = 0; i < 300; ++i) {
    bursts.push_back(i % 6 == 5 ? 3e-3 : 5e-6);
    chance.push_back(1e-6 * std::pow(10.0, 3 * std::uniform_real_distribution(0.0, 1.0)(random)));
  }
  CHECK(worstOf(std::vector<double>(300, 4e-6)) < 0.07);
  CHECK(worstOf(bursts) < 0.07);
  CHECK(worstOf(chance) < 0.07);
}

TEST_CASE("A flash warms the metal's face as a steady flux does by its end, and its mean falls off as the root of time", "[removal]") {
  MetalWarmth warmth(steel());
  CHECK(warmth.isCold());
  const double flash = steel().flashRise_K(heat_J_m2 / flash_s, flash_s);
  CHECK(warmth.take(heat_J_m2, flash_s) == Approx(flash).epsilon(1e-9));
  CHECK(warmth.rise_K() == Approx(flash).epsilon(1e-9));
  constexpr double gap_s = 100e-6;
  CHECK(warmth.rest(gap_s) == Approx(2 * riseBy(gap_s)).epsilon(0.03));  // mean of 1/sqrt(t)
  CHECK(warmth.rise_K() == Approx(riseBy(gap_s)).epsilon(0.01));
}

TEST_CASE("A coat's foot lets go once it has taken up what its layer leaves at, and not by a flash", "[removal]") {
  const CoatLayer layer = test::paint(60e-6);
  const double removal_K = layer.removalRise_K, leaves_K = layer.leavesAt_J_m3() / layer.heatCapacity_J_m3K;
  CoatFoot warm(layer), hot(layer), flashed(layer);
  CHECK(warm.late_s() == Approx(4e-12 / layer.diffusivity_m2_s));
  warm.follow(removal_K, 1);  // as hot as it must be, for ever: it holds no more than that
  CHECK(!warm.letsGo());

  // Twice as hot: ln 2 latenesses to the removal temperature, then the rest at the flux of the difference.
  const double lasts_s = hot.late_s() * (std::log(2.0) + (leaves_K - removal_K) / removal_K);
  hot.follow(2 * removal_K, 0.99 * lasts_s);
  CHECK(!hot.letsGo());
  hot.follow(2 * removal_K, 0.02 * lasts_s);
  CHECK(hot.letsGo());

  flashed.follow(10 * removal_K, 100e-9);
  CHECK(!flashed.letsGo());
  flashed.follow(0, 1);
  flashed.follow(2 * removal_K, 0.99 * lasts_s);  // cold again
  CHECK(!flashed.letsGo());
}

TEST_CASE("A foot heated in many short times takes up as much as in one", "[removal]") {
  const CoatLayer layer = test::paint(60e-6);
  const double lasts_s = CoatFoot(layer).late_s() * (std::log(2.0) + layer.leavesAt_J_m3() / layer.sensibleEnthalpy_J_m3() - 1);
  CoatFoot foot(layer);
  constexpr int steps = 1000;
  int step = 0;
  while (step < 2 * steps && !foot.letsGo()) {
    foot.follow(2 * layer.removalRise_K, lasts_s / steps);
    ++step;
  }
  CHECK(step == Approx(steps).margin(1));
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/beam/profile.h"

#include "tests/support/catch.h"

#include <cmath>
#include <numbers>

using namespace bw;
using Catch::Approx;

namespace {

/// Power of a beam of one watt, by the midpoint rule over rings.
double powerOf_W(const SpotProfile& profile, double radius_m) {
  constexpr int rings = 200000;
  constexpr double reach = 4;
  double sum = 0;
  for (int i = 0; i < rings; ++i) {
    const double ratio = reach * (i + 0.5) / rings;
    sum += 2 * std::numbers::pi * ratio * profile.relative(ratio) * reach / rings;
  }
  return sum * radius_m * radius_m * profile.peakPerWatt_1_m2(radius_m);
}

}  // namespace

TEST_CASE("A spot holds all its power, whatever its shape and size", "[beam]") {
  const double exponent = GENERATE(2.0, 4.0, 20.0);
  for (const double radius_m : {20e-6, 0.5e-3}) CHECK(powerOf_W(SpotProfile(exponent), radius_m) == Approx(1).epsilon(1e-8));
}

TEST_CASE("Peak of a spot", "[beam]") {
  // m = 2: 2/pi. The others by quadrature: tests/reference/edge_ratio.py.
  CHECK(SpotProfile(2).peakPerWatt_1_m2(1) == Approx(2 / std::numbers::pi).epsilon(1e-12));
  CHECK(SpotProfile(4).peakPerWatt_1_m2(1) == Approx(0.5079490875).epsilon(1e-9));
  CHECK(SpotProfile(20).peakPerWatt_1_m2(1) == Approx(0.3586017899).epsilon(1e-9));
}

TEST_CASE("Irradiance at the spot's radius is 1/e2 of the peak", "[beam]") {
  for (const auto shape : {BeamProfile::Gaussian, BeamProfile::SuperGaussian, BeamProfile::FlatTop}) {
    CHECK(SpotProfile(shape).relative(0) == 1);
    CHECK(SpotProfile(shape).relative(1) == Approx(std::exp(-2.0)));
  }
  CHECK(SpotProfile(BeamProfile::Gaussian).isGaussian());
  CHECK_FALSE(SpotProfile(BeamProfile::FlatTop).isGaussian());
}

TEST_CASE("A flat top is flat and steep", "[beam]") {
  const SpotProfile flat(BeamProfile::FlatTop);
  CHECK(flat.relative(0.8) > 0.97);
  CHECK(flat.relative(1.15) < 1e-6);
  // Close to one watt over pi w2.
  CHECK(flat.peakPerWatt_1_m2(1) == Approx(1 / std::numbers::pi).epsilon(0.15));
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/caustic_fit.h"

#include "core/beam/caustic.h"
#include "tests/core/learn/learn_support.h"

#include <cmath>
#include <limits>

using namespace bw;
using namespace bw::test;

namespace {

constexpr double lambda = 1064e-9;

std::vector<Plane> planesOf(double waist_m, double M2, double focus_m, const std::vector<double>& positions_m) {
  const Caustic caustic(waist_m / 2, M2, lambda);
  std::vector<Plane> planes;
  for (const double z : positions_m) planes.push_back({z, {2 * caustic.radiusAt_m(z - focus_m), {}}});
  return planes;
}

}  // namespace

TEST_CASE("Noise-free planes give waist, place and M2 exactly", "[learn]") {
  // ISO 11146-1 by hand, M2 1.5 and f 254 mm from a 10 mm beam: waist 51.62 um, Rayleigh length 1.311 mm (five and four digits).
  const auto beam = fitCaustic(planesOf(51.62e-6, 1.5, 254e-3, {249e-3, 251e-3, 253e-3, 254e-3, 256e-3, 259e-3}), lambda);
  REQUIRE(beam.value);
  checkExact(beam.value->waistDiameter_m, 51.62e-6);
  checkExact(beam.value->waistPosition_m, 254e-3, 1e-9);
  checkExact(beam.value->M2, 1.5);
  CHECK(beam.value->rayleighRange_m.likely == Catch::Approx(1.311e-3).epsilon(4e-4));
  CHECK(beam.value->fullAngle_rad.likely == Catch::Approx(10.0 / 254).epsilon(4e-4));  // the beam before the lens over its focal length
}

TEST_CASE("The standard's advice on planes is checked and said", "[learn]") {
  const auto good = fitCaustic(planesOf(100e-6, 2, 0, {-12e-3, -11e-3, -10e-3, -9e-3, -3e-3, -1.5e-3, 0, 1e-3, 2e-3, 10e-3}), lambda);
  REQUIRE(good.value);
  CHECK(good.value->planesInside == 5);
  CHECK(good.value->planesOutside == 5);
  CHECK(says(good, "10 places, 5 within one Rayleigh length of the focus and 5 beyond two, as ISO 11146-1 asks"));
  const auto near = fitCaustic(planesOf(100e-6, 2, 0, {-3e-3, -2e-3, 0, 1e-3, 2e-3, 3e-3}), lambda);
  CHECK(says(near, "ISO 11146-1 asks for at least ten, about half of them in each"));
  const auto aside = fitCaustic(planesOf(100e-6, 2, 0, {1e-3, 3e-3, 6e-3, 9e-3, 12e-3}), lambda);
  CHECK(says(aside, "outside the places measured"));
}

TEST_CASE("M2 stays at or above 1, and what cannot be a beam is refused", "[learn]") {
  const std::vector<double> places{-6e-3, -4e-3, -2e-3, 0, 2e-3, 4e-3, 6e-3};
  auto planes = planesOf(60e-6, 1, 0, places);
  for (std::size_t i = 0; i < planes.size(); ++i) planes[i].diameter_m.value *= i % 2 ? 1.03 : 0.97;
  const auto cut = fitCaustic(planes, lambda);
  REQUIRE(cut.value);
  CHECK(cut.value->M2.low == 1);
  CHECK(cut.value->M2.high > 1);
  CHECK(says(cut, "its range is cut there"));
  checkRefused(fitCaustic(planes, 10.6e-6), "below 1, which no beam can have");
}

TEST_CASE("Planes that teach nothing get a sentence and no number", "[learn]") {
  const std::vector<double> places{-6e-3, -3e-3, 0, 3e-3, 6e-3};
  const auto good = planesOf(100e-6, 2, 0, places);
  const double nan = std::numeric_limits<double>::quiet_NaN();
  checkRefused(fitCaustic({}, lambda), "no readings at 0 places");
  checkRefused(fitCaustic({good[0], good[1], good[2]}, lambda), "three readings at 3 places");
  checkRefused(fitCaustic({good[0], good[0], good[2], good[2]}, lambda), "four readings at 2 places");
  checkRefused(fitCaustic(good, 0), "wavelength");
  checkRefused(fitCaustic(good, nan), "wavelength");
  auto bad = good;
  bad[1].diameter_m.value = 0;
  checkRefused(fitCaustic(bad, lambda), "reading 2: 0 is no diameter");
  bad[1] = {nan, {1e-4, {}}};
  checkRefused(fitCaustic(bad, lambda), "reading 2: not a number is no position");
  for (Plane& plane : bad) plane = {static_cast<double>(&plane - bad.data()), {1e-4, {}}};
  checkRefused(fitCaustic(bad, lambda), "all diameters are alike");
  bad[2].diameter_m.value = 1.2e-4;
  checkRefused(fitCaustic(bad, lambda), "do not grow away from a focus");
  const std::vector<double> nearlyAlike{103e-6, 98e-6, 100e-6, 99e-6, 101e-6};
  for (std::size_t i = 0; i < bad.size(); ++i) bad[i].diameter_m.value = nearlyAlike[i];
  checkRefused(fitCaustic(bad, lambda), "change too little");
  // Far from the focus on both sides the waist is lost in the scatter.
  auto far = planesOf(20e-6, 1.2, 0, {-100e-3, -90e-3, -80e-3, 80e-3, 90e-3, 100e-3});
  for (std::size_t i = 0; i < far.size(); ++i) far[i].diameter_m.value *= i % 2 ? 1.01 : 0.99;
  checkRefused(fitCaustic(far, lambda), "nearer to the focus");
}

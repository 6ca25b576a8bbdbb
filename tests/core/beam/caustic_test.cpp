// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/beam/caustic.h"

#include "tests/support/catch.h"

#include <cmath>
#include <numbers>

using namespace bw;
using Catch::Approx;

TEST_CASE("Waist and Rayleigh range behind a lens", "[beam]") {
  struct Row {
    double M2, collimatedDiameter_m, focalLength_m, spotDiameter_m, rayleighRange_m;
  };
  // ISO 11146-1 at 1064 nm, computed from its formulas outside this program.
  const Row row = GENERATE(Row{1, 10e-3, 0.200, 27.09e-6, 0.5419e-3}, Row{1.5, 10e-3, 0.200, 40.64e-6, 0.8128e-3},
                           Row{1.5, 10e-3, 0.254, 51.62e-6, 1.311e-3}, Row{10, 10e-3, 0.160, 216.8e-6, 3.468e-3});
  const double waist = waistBehindLens_m(row.M2, 1064e-9, row.focalLength_m, row.collimatedDiameter_m / 2);
  CHECK(2 * waist == Approx(row.spotDiameter_m).epsilon(3e-4));
  CHECK(Caustic(waist, row.M2, 1064e-9).rayleighRange_m() == Approx(row.rayleighRange_m).epsilon(3e-4));
}

TEST_CASE("Half divergence behind a lens of 200 mm is the collimated radius over the focal length", "[beam]") {
  const Caustic caustic(waistBehindLens_m(1, 1064e-9, 0.2, 5e-3), 1, 1064e-9);
  CHECK(caustic.fullAngle_rad() / 2 == Approx(25.0e-3).epsilon(1e-6));
}

TEST_CASE("The beam widens by the square root of two at one Rayleigh range, on both sides", "[beam]") {
  const Caustic caustic(60e-6, 1.8, 1064e-9);
  const double zR = caustic.rayleighRange_m();
  CHECK(caustic.radiusAt_m(0) == Approx(60e-6));
  for (const double side : {-1.0, 1.0}) {
    CHECK(caustic.radiusAt_m(side * zR) == Approx(60e-6 * std::numbers::sqrt2));
    CHECK(caustic.radiusAt_m(side * 1000 * zR) == Approx(500 * zR * caustic.fullAngle_rad()).epsilon(1e-6));
  }
}

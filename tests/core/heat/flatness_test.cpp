// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/flatness.h"

#include "tests/support/catch.h"

#include <algorithm>

using namespace bw;

namespace {

const SheetMechanics steel08{0.8e-3, 12e-6, 210e9, 0.3, 140e6};

}  // namespace

TEST_CASE("A skin held both ways yields at the published rise and again on cooling", "[heat]") {
  struct Row {
    const char* name;
    double yield_MPa, modulus_GPa, expansion, poisson, yieldRise_K;
  };
  // sy (1 - nu)/(E a): Boley and Weiner, from memory. Ours is twice that: yield in compression and again in tension.
  const Row rows[] = {{"DC04", 140, 210, 12e-6, 0.3, 39},    {"S235", 235, 210, 12e-6, 0.3, 65},     {"S355", 355, 210, 12e-6, 0.3, 99},
                      {"304", 215, 193, 17e-6, 0.29, 47},    {"6016-T4", 110, 70, 23e-6, 0.33, 46},  {"6061-T6", 276, 70, 23e-6, 0.33, 115}};
  for (const Row& row : rows) {
    INFO(row.name);
    const SheetMechanics sheet{1e-3, row.expansion, row.modulus_GPa * 1e9, row.poisson, row.yield_MPa * 1e6};
    CHECK(skinYieldRise_K(sheet) == Catch::Approx(2 * row.yieldRise_K).margin(1.0));
  }
}

TEST_CASE("A warm disc oil-cans at the published rise of a supported disc, eased by the cold sheet around it", "[heat]") {
  // Uniformly warm disc whose edge cannot give way: a dT = 0.350 h^2/((1 + nu) R^2), 5.74 K for 0.8 mm of steel and R 50 mm (Roark, from
  // memory). In a wide cold sheet the stress is E a dT/2 instead of E a dT/(1 - nu): the rise may be 2/(1 - nu) times as much.
  CHECK(oilCanRise_K(steel08, 0.1) * (1 - 0.3) / 2 == Catch::Approx(5.74).epsilon(0.01));
  CHECK(oilCanRise_K(steel08, 0.2) == Catch::Approx(oilCanRise_K(steel08, 0.1) / 4));
  SheetMechanics thick = steel08;
  thick.thickness_m *= 3;
  CHECK(oilCanRise_K(thick, 0.1) == Catch::Approx(9 * oilCanRise_K(steel08, 0.1)));
}

TEST_CASE("A yielded skin bows the sheet as its bending moment says", "[heat]") {
  // Thin skin z under sy at arm t/2: kappa = 12 M (1 - nu)/(E t^3), bow kappa L^2/8; the same geometry as kappa 0.30 1/m, L 200 mm: 1.5 mm.
  CHECK(0.30 * 0.2 * 0.2 / 8 == Catch::Approx(1.5e-3));
  const double z = 20e-6, t = 0.8e-3;
  const double moment = 140e6 * z * t / 2, kappa = 12 * moment * (1 - 0.3) / (210e9 * t * t * t);
  CHECK(skinBow_m(steel08, z) == Catch::Approx(kappa * 0.3 * 0.3 / 8));
  CHECK(skinBow_m(steel08, 0) == 0);
  CHECK(skinBow_m(steel08, 5 * t) == skinBow_m(steel08, t));
}

namespace {

double warpIndex(double rise_K, double width_m, double depth_m) { return flatness(steel08, rise_K, width_m, depth_m).index(); }

}  // namespace

TEST_CASE("The warp index is the worst of its three", "[heat]") {
  CHECK(warpIndex(0, 0.05, 0) == 0);
  const double yieldRise = 140e6 / (210e9 * 12e-6);
  CHECK(warpIndex(yieldRise, 1e-3, 0) == Catch::Approx(1));  // a spot too small to buckle
  CHECK(warpIndex(oilCanRise_K(steel08, 0.2), 0.2, 0) == Catch::Approx(1));
  CHECK(warpIndex(0, 0.05, 20e-6) == Catch::Approx(skinBow_m(steel08, 20e-6) / 1e-3));
  double before = 0;
  for (double rise = 1; rise < 200; rise += 10) {
    CHECK(warpIndex(rise, 0.04, 10e-6) >= before);
    before = warpIndex(rise, 0.04, 10e-6);
  }
}

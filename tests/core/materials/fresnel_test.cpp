// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/materials/fresnel.h"

#include "tests/support/catch.h"

#include <array>
#include <cmath>
#include <numbers>
#include <vector>

using namespace bw;

namespace {

constexpr double degree = std::numbers::pi / 180;

struct Mirror {
  const char* name;
  RefractiveIndex index;
  double squareOn;
  std::vector<std::array<double, 3>> oblique;  // angle in degrees, s, p
};

// n and k at 1.064 um: Johnson and Christy (1974, 1972), Rakic (1995), Querry (1987), Karlsson and Ribbing (1982), as collected by
// refractiveindex.info. Absorptances are Fresnel's equations for those, computed in high precision outside this program.
const std::vector<Mirror> metals = {
    {"iron", {2.9585, 3.9977}, 0.374, {{45, 0.281, 0.482}, {60, 0.207, 0.593}, {75, 0.113, 0.743}, {80, 0.077, 0.752}}},
    {"aluminium", {1.3763, 10.2449}, 0.0498, {{45, 0.035, 0.070}, {60, 0.025, 0.096}, {75, 0.013, 0.162}, {80, 0.009, 0.205}}},
    {"copper", {0.3508, 7.0333}, 0.0274, {{45, 0.019, 0.038}, {60, 0.014, 0.052}, {75, 0.007, 0.082}, {80, 0.005, 0.095}}},
    {"zinc", {4.5994, 3.8730}, 0.397, {{45, 0.300, 0.510}, {60, 0.223, 0.632}, {75, 0.122, 0.825}, {80, 0.084, 0.872}}},
    {"stainless steel", {3.8298, 5.3354}, 0.296, {{45, 0.219, 0.390}, {60, 0.160, 0.496}, {75, 0.086, 0.682}, {80, 0.059, 0.740}}},
};

}  // namespace

TEST_CASE("Fresnel absorptance of polished metals, square and oblique", "[materials]") {
  constexpr double rounding = 0.0006;  // the values have three decimals
  for (const Mirror& metal : metals) {
    INFO(metal.name);
    CHECK(fresnelAbsorptance(metal.index, 0).unpolarised() == Catch::Approx(metal.squareOn).margin(rounding));
    for (const auto& [angle, s, p] : metal.oblique) {
      INFO(angle << " degrees");
      const auto absorptance = fresnelAbsorptance(metal.index, angle * degree);
      CHECK(absorptance.s == Catch::Approx(s).margin(rounding));
      CHECK(absorptance.p == Catch::Approx(p).margin(rounding));
    }
  }
}

TEST_CASE("More metals square on", "[materials]") {
  // Same collection: titanium and chromium Johnson and Christy, magnesium Hagemann, lead Mathewson.
  const std::vector<std::pair<RefractiveIndex, double>> rows = {
      {{3.4654, 4.0085}, 0.385}, {{3.5408, 3.5777}, 0.424}, {{2.058, 10.739}, 0.066}, {{1.8076, 6.6622}, 0.138}};
  for (const auto& [index, absorptance] : rows) CHECK(fresnelAbsorptance(index, 0).s == Catch::Approx(absorptance).margin(0.0006));
}

TEST_CASE("Fresnel limits: no s or p square on, nothing taken at grazing incidence, all of p at Brewster's angle", "[materials]") {
  const RefractiveIndex iron{2.9585, 3.9977};
  CHECK(fresnelAbsorptance(iron, 0).s == Catch::Approx(fresnelAbsorptance(iron, 0).p));
  CHECK(fresnelAbsorptance(iron, 90 * degree).unpolarised() == Catch::Approx(0).margin(1e-12));
  CHECK(fresnelAbsorptance({1.5, 0}, std::atan(1.5)).p == Catch::Approx(1));
}

TEST_CASE("A tilted real surface follows the polished one up to a ceiling", "[materials]") {
  const RefractiveIndex iron{2.9585, 3.9977};
  CHECK(tiltedAbsorptance(0.5, iron, 0) == Catch::Approx(0.5));
  CHECK(tiltedAbsorptance(0.5, iron, 60 * degree) == Catch::Approx(0.5 * (0.207 + 0.593) / 2 / 0.374).epsilon(0.003));
  CHECK(tiltedAbsorptance(0.88, iron, 70 * degree) == Catch::Approx(0.9));
  CHECK(tiltedAbsorptance(0.95, iron, 70 * degree) == Catch::Approx(0.95));  // blacker than the ceiling from the start
  CHECK(tiltedAbsorptance(0.4, std::nullopt, 70 * degree) == 0.4);
}

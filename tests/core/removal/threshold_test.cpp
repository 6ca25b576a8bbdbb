// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/threshold.h"

#include "tests/support/catch.h"

#include <cmath>
#include <numbers>

using namespace bw;

namespace {

// A coat of H d / A = 1 J/m2 with d = 1 m and alpha = 1 m2/s: the pulse duration is s itself.
double unitThreshold(double s) { return thresholdFluence_J_m2(1, 1, 1, 1, s); }

}  // namespace

TEST_CASE("erfcx agrees with scipy over the range the threshold uses", "[removal]") {
  struct Row {
    double x, erfcx;
  };
  // scipy.special.erfcx, printed by tests/reference/removal_values.py. Around 5 the method changes.
  const Row rows[] = {{0, 1}, {0.001, 0.9988726200811509}, {0.3, 0.7345993345676554}, {1, 0.427583576155807}, {2, 0.2553956763105058},
                      {3.5, 0.1552936556088943}, {4.9, 0.1128790905597587}, {4.9999, 0.1107067710524527}, {5, 0.1107046377330686},
                      {5.0001, 0.1107025044944983}, {6, 0.09277656780053836}, {8, 0.06998516620088094}, {12, 0.04685422101489376},
                      {20, 0.02817434874105132}, {26, 0.02168358485056291}, {35, 0.01611313095681598}, {50, 0.01128153626532377}};
  for (const Row& row : rows) {
    INFO("x = " << row.x);
    CHECK(std::abs(erfcx(row.x) / row.erfcx - 1) < 1e-10);
  }
}

TEST_CASE("The threshold of a short pulse is H d / A", "[removal]") {
  // H 1.5 J/mm3, d 10 um, A 0.9, alpha 1.5e-7: a pulse of 1 ns has no time to leak.
  CHECK(thresholdFluence_J_m2(1.5e9, 10e-6, 0.9, 1.5e-7, 1e-9) == Catch::Approx(1.5e9 * 10e-6 / 0.9).epsilon(1e-3));
  CHECK(unitThreshold(1e-8) == Catch::Approx(1).epsilon(1e-4));
}

TEST_CASE("The threshold of a long pulse grows as the root of its duration", "[removal]") {
  // F A / (H d) -> sqrt(pi s) / 2: constant flux on the surface, Carslaw and Jaeger 2nd ed. section 2.9.
  for (const double s : {1e4, 1e6}) CHECK(unitThreshold(s) / std::sqrt(std::numbers::pi * s) * 2 == Catch::Approx(1).epsilon(1 / std::sqrt(s)));
  CHECK(unitThreshold(4e6) / unitThreshold(1e6) == Catch::Approx(2).epsilon(2e-3));
}

TEST_CASE("The threshold agrees with a half-space solved in finite volumes", "[removal]") {
  struct Row {
    double s, ratio;
  };
  // tests/reference/removal_values.py, held_rise: no closed form in it.
  for (const Row& row : {Row{0.01, 1.07586}, Row{0.1, 1.24373}, Row{1, 1.79868}, Row{4, 2.64522}, Row{25, 5.26024}}) {
    INFO("s = " << row.s);
    CHECK(unitThreshold(row.s) == Catch::Approx(row.ratio).epsilon(5e-4));
  }
}

TEST_CASE("The threshold's series and closed form meet, and it never falls with the duration", "[removal]") {
  CHECK(unitThreshold(0.0499 * 0.0499) == Catch::Approx(unitThreshold(0.0501 * 0.0501)).epsilon(2e-4));
  double before = 0;
  for (double s = 1e-8; s < 1e6; s *= 1.3) {
    CHECK(unitThreshold(s) > before);
    before = unitThreshold(s);
  }
}

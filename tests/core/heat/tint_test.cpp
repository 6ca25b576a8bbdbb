// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/tint.h"

#include "tests/support/catch.h"

#include <cmath>
#include <vector>

using namespace bw;

TEST_CASE("Straw comes at 210 C in ten minutes and far hotter in an instant", "[heat]") {
  struct Row {
    double duration_s, straw_C;
  };
  // Straw is a film of 46 nm. Temper colours of carbon steel (published charts) put it at 210 C for minutes; the shorter times are the
  // growth law's own predictions, worked out apart from this program.
  for (const Row& row : {Row{0.010, 557}, Row{1, 366}, Row{10, 300}, Row{600, 210}}) {
    INFO(row.duration_s << " s");
    CHECK(tintFilm_m(row.straw_C - 4, row.duration_s) < 46e-9);
    CHECK(tintFilm_m(row.straw_C + 4, row.duration_s) > 46e-9);
  }
}

TEST_CASE("Films grow with temperature and with the root of time", "[heat]") {
  for (double temperature = 20; temperature < 1400; temperature += 20) CHECK(tintRate_m2_s(temperature + 20) > tintRate_m2_s(temperature));
  CHECK(tintFilm_m(300, 400) == Catch::Approx(2 * tintFilm_m(300, 100)));
}

TEST_CASE("The equivalent temperature of ten minutes' hold is the hold's", "[heat]") {
  const std::vector<double> time = {0, 150, 600};
  for (const double hold : {100.0, 210.0, 400.0, 900.0}) {
    CHECK(equivalentTintTemperature_C(time, std::vector<double>(3, hold)) == Catch::Approx(hold).margin(0.01));
  }
}

TEST_CASE("A history's equivalent temperature counts time at heat only", "[heat]") {
  const std::vector<double> shortHold = {0, 60}, longHold = {0, 6000};
  const std::vector<double> hot = {250, 250};
  CHECK(equivalentTintTemperature_C(shortHold, hot) < 250);
  CHECK(equivalentTintTemperature_C(longHold, hot) > 250);
  // Adding time at room temperature changes nothing; a split of the steps neither.
  const double plain = equivalentTintTemperature_C(shortHold, hot);
  CHECK(equivalentTintTemperature_C(std::vector<double>{0, 30, 60, 60.001, 1e5}, std::vector<double>{250, 250, 250, 20, 20}) ==
        Catch::Approx(plain).margin(0.05));
  CHECK(equivalentTintTemperature_C({}, {}) == 20);
  CHECK(equivalentTintTemperature_C(std::vector<double>{0, 600}, std::vector<double>{20, 20}) == Catch::Approx(20).margin(0.01));
}

TEST_CASE("Scorching counts time at temperature by its activation energy", "[heat]") {
  const std::vector<double> time = {0, 150, 600};
  CHECK(equivalentScorchTemperature_C(time, std::vector<double>(3, 190.0)) == Catch::Approx(190).margin(0.01));
  // exp(-E/RT) x time is the same: from 600 s at 180 C to 6 s, E 130 kJ/mol: 1/T = 1/453.15 - R ln(100)/E.
  const double hot_C = 1 / (1 / 453.15 - 8.314462618e-3 * std::log(100) / 130) - 273.15;
  CHECK(equivalentScorchTemperature_C(std::vector<double>{0, 6}, std::vector<double>{hot_C, hot_C}) == Catch::Approx(180).margin(0.1));
}

TEST_CASE("When a history passes a temperature, and when it has done as much as ten minutes there", "[heat]") {
  const std::vector<double> time = {0, 10, 20}, warm = {20, 220, 220};
  CHECK(*firstAbove(time, warm, 120) == Catch::Approx(5));
  CHECK(*firstAbove(time, warm, 20) == 0);
  CHECK_FALSE(firstAbove(time, warm, 221));
  const std::vector<double> longer = {0, 1000}, hold = {210, 210};
  CHECK(*firstAsMuch(longer, hold, tintRate_m2_s, 210) == Catch::Approx(600));
  CHECK_FALSE(firstAsMuch(longer, hold, tintRate_m2_s, 250));
}

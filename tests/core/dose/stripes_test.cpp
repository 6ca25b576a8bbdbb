// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/stripes.h"

#include "tests/core/dose/steady_process.h"
#include "tests/support/catch.h"

#include <cmath>
#include <complex>
#include <numbers>

using namespace bw;
using namespace bw::test;
using Catch::Approx;

namespace {

using std::numbers::pi;

/// 5 + the sum of amplitude cos(2 pi k x / period + phase), `count` points.
struct Wave {
  int k;
  double amplitude;
};

std::vector<double> meansOf(int count, const std::vector<Wave>& waves) {
  std::vector<double> means;
  for (int i = 0; i < count; ++i) {
    double value = 5;
    for (const Wave& wave : waves) value += wave.amplitude * std::cos(2 * pi * wave.k * i / count + 0.3 * wave.k);
    means.push_back(value);
  }
  return means;
}

/// Contrast of one harmonic by its definition: twice the Fourier sum over the sum.
double contrastOf(const std::vector<double>& means, int k) {
  std::complex<double> sum = 0;
  double total = 0;
  for (std::size_t i = 0; i < means.size(); ++i) {
    sum += means[i] * std::polar(1.0, -2 * pi * k * static_cast<double>(i) / static_cast<double>(means.size()));
    total += means[i];
  }
  return 2 * std::abs(sum) / total;
}

SteadyProcess darkTurns(double travel_m_s) {
  SteadyProcess process = smallRaster();
  process.settings.beamOffInTurns = true;
  process.settings.travelSpeed_m_s = travel_m_s;
  return process;
}

}  // namespace

TEST_CASE("The strongest of some cosines is found, period and contrast", "[dose]") {
  for (const int count : {64, 81, 250, 1000}) {
    const auto stripe = strongestStripe(meansOf(count, {{3, 0.5}, {7, 1.0}, {11, 0.25}}), 7e-3);
    CAPTURE(count);
    REQUIRE(stripe);
    CHECK(stripe->period_m == Approx(1e-3));
    CHECK(stripe->contrast == Approx(0.2).epsilon(1e-12));
    CHECK(stripe->cause.empty());
  }
}

TEST_CASE("Stripes are looked for between 0.1 and 10 mm, and above a thousandth", "[dose]") {
  const auto strongest = [](double period_m, const std::vector<Wave>& waves) { return strongestStripe(meansOf(1000, waves), period_m); };
  CHECK(strongest(10e-3, {{1, 1}})->period_m == Approx(10e-3));
  CHECK_FALSE(strongest(10.1e-3, {{1, 1}}));
  CHECK(strongest(20.2e-3, {{1, 1}, {3, 0.1}})->period_m == Approx(20.2e-3 / 3));
  CHECK(strongest(10e-3, {{100, 1}})->period_m == Approx(0.1e-3));
  CHECK_FALSE(strongest(10e-3, {{101, 1}}));
  CHECK_FALSE(strongest(0.099e-3, {{1, 1}}));
  CHECK(strongest(5e-3, {{5, 5 * 0.00101}})->contrast == Approx(0.00101));
  CHECK_FALSE(strongest(5e-3, {{5, 5 * 0.00099}}));
  CHECK_FALSE(strongestStripe(std::vector<double>(100, 0.0), 5e-3));  // no dose, no stripes
  CHECK_FALSE(strongestStripe({3.0}, 5e-3));
}

TEST_CASE("Rows and columns are averaged each in its direction", "[dose]") {
  DoseMap map;
  map.columns = 3;
  map.rows = 2;
  map.dose_J_m2 = {1, 2, 3, 5, 6, 10};
  CHECK(columnMeans(map) == std::vector<double>{3, 4, 6.5});
  CHECK(rowMeans(map) == std::vector<double>{2, 7});
  CHECK(rippleOf({2, 7}) == Approx(5.0 / 9));
}

TEST_CASE("Lines beat with the frames as theory has it", "[dose]") {
  constexpr int lines = 12;
  int compared = 0;
  for (const double travel_m_s : {0.03, 0.07, 0.1, 0.16, 0.3, 0.45}) {
    const SteadyProcess process = darkTurns(travel_m_s);
    const double advance = process.advance_m(), litAdvance = travel_m_s * 3e-3 / 9;
    REQUIRE(process.frame().period_s() == Approx(lines * (3e-3 / 9 + 250e-6)));
    const std::vector<double> means = rowMeans(process.map(8));
    for (int k = 1; k < 40 && k < static_cast<int>(means.size()) / 2; ++k) {
      const double expected = beatContrast(k, lines, process.settings.lineSpacing_m, advance, litAdvance, process.radius_m);
      CAPTURE(travel_m_s, k);
      if (expected > 1e-3) {
        CHECK(contrastOf(means, k) == Approx(expected).epsilon(0.02));
        ++compared;
      } else {
        CHECK(contrastOf(means, k) < 1.1e-3);
      }
    }
  }
  CHECK(compared > 20);
}

TEST_CASE("Frames that follow without a seam leave no stripes but their lines'", "[dose]") {
  // N x spacing a whole multiple of the advance: the lines of all frames lie evenly, advance/(N or a share of it) apart.
  SteadyProcess process = darkTurns(0);
  for (const int multiple : {1, 2, 4}) {
    process.settings.travelSpeed_m_s = 12 * 0.15e-3 / multiple / process.frame().period_s();
    const std::vector<double> means = rowMeans(process.map(8));
    CAPTURE(multiple);
    for (int k = 1; k < static_cast<int>(means.size()) / 2; ++k) {
      if (k * (multiple + 1) % 12 != 0) CHECK(contrastOf(means, k) < 1e-5);
      CHECK(beatContrast(k, 12, 0.15e-3, process.advance_m(), 0, process.radius_m) < (k * (multiple + 1) % 12 != 0 ? 1e-9 : 2.0));
    }
  }
  process.settings.travelSpeed_m_s *= 1.3;
  CHECK(strongestStripe(rowMeans(process.map(8)), process.advance_m()));
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/evenness.h"

#include "core/dose/stripes.h"
#include "tests/core/dose/usual_spot.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <random>

using namespace bw;
using namespace bw::test;
using Catch::Approx;

namespace {

using std::numbers::pi;

DoseMap mapOf(std::vector<float> dose) {
  DoseMap map;
  map.columns = static_cast<int>(dose.size());
  map.rows = 1;
  map.cellAcross_m = map.cellAlong_m = 1e-5;
  map.dose_J_m2 = std::move(dose);
  return map;
}

/// Profile and edge ratio of a swath of these settings by a continuous beam, travel across the lines.
struct Swath {
  SwathProfile profile;
  std::optional<double> edge;
  RepeatCell cell;
  double energy_J = 0;

  Swath(const Settings& settings, double turnaround_s, BeamProfile shape = BeamProfile::Gaussian) {
    ScanHead head;
    head.turnaround_s = turnaround_s;
    const Frame frame = buildFrame(settings, head);
    const Travel travel(settings.travelSpeed_m_s, settings.travelAngle_rad);
    const auto rows = rowsOf(frame, travel, {false, 0, 1000}, radius_m);
    cell = {settings.stepOver_m, settings.travelSpeed_m_s * frame.period_s()};
    const DoseMap map = steadyMap(rows, SpotProfile(shape), roundSpot(radius_m), cell, gridOf(cell, radius_m / 4));
    profile = swathProfile(rows, litBounds(frame, travel), SpotProfile(shape), radius_m, cell, columnMeans(map));
    edge = edgeRatio(profile, 2 * radius_m);
    energy_J = energyOf(rows);
  }
};

Settings sineOf(double width_m) {
  Settings settings;
  settings.pattern = Pattern::Sine;
  settings.width_m = width_m;
  settings.oscillationRate_Hz = 200;
  settings.travelSpeed_m_s = 0.005;
  settings.stepOver_m = 0.9 * width_m;
  return settings;
}

Settings rasterOf(double width_m) {
  Settings settings;
  settings.width_m = width_m;
  settings.height_m = 2e-3;
  settings.lineSpacing_m = 0.08e-3;
  settings.scanSpeed_m_s = 9;
  settings.travelSpeed_m_s = 0.02;
  settings.stepOver_m = 0.9 * width_m;
  return settings;
}

/// Share of a Gaussian spot at x that falls between two places.
double caught(double x, double low, double high) {
  const double scale = std::numbers::sqrt2 / radius_m;
  return (std::erf(scale * (high - x)) - std::erf(scale * (low - x))) / 2;
}

double areaUnder(const SwathProfile& profile) {
  const double step = profile.position_m[1] - profile.position_m[0];
  return step * std::accumulate(profile.oneSwath_J_m2.begin(), profile.oneSwath_J_m2.end(), 0.0);
}

}  // namespace

TEST_CASE("Statistics of a map that can be counted by hand", "[dose]") {
  std::vector<float> dose;
  for (int i = 100; i >= 0; --i) dose.push_back(static_cast<float>(i));  // 0 .. 100, mean 50
  const DoseResult result = evennessOf(mapOf(dose));
  CHECK(result.mean_J_m2 == Approx(50));
  CHECK(result.min_J_m2 == 0);
  CHECK(result.max_J_m2 == 100);
  CHECK(result.p05_J_m2 == 5);
  CHECK(result.p95_J_m2 == 95);
  CHECK(result.cv == Approx(std::sqrt(850.0) / 50));  // variance of 0 .. n is n(n+2)/12
  CHECK(result.missedFraction == Approx(25.0 / 101));  // 0 .. 24
}

TEST_CASE("Statistics agree with their definitions on random doses", "[dose]") {
  std::minstd_rand random(3);
  std::lognormal_distribution<double> draw(9, 0.7);
  std::vector<float> dose(40007);
  for (float& value : dose) value = static_cast<float>(draw(random));
  const DoseResult result = evennessOf(mapOf(dose));

  std::vector<double> sorted(dose.begin(), dose.end());
  std::ranges::sort(sorted);
  const double count = static_cast<double>(sorted.size()), mean = std::accumulate(sorted.begin(), sorted.end(), 0.0) / count;
  double squares = 0, missed = 0;
  for (const double value : sorted) {
    squares += (value - mean) * (value - mean);
    missed += value < mean / 2 ? 1 : 0;
  }
  CHECK(result.mean_J_m2 == Approx(mean).epsilon(1e-12));
  CHECK(result.cv == Approx(std::sqrt(squares / count) / mean).epsilon(1e-9));
  CHECK(result.missedFraction == Approx(missed / count));
  CHECK(result.p05_J_m2 == Approx(sorted[2000]).epsilon(1e-3));
  CHECK(result.p95_J_m2 == Approx(sorted[38006]).epsilon(1e-3));
}

TEST_CASE("Quantiles are exact where most doses crowd together", "[dose]") {
  // Half a million within a thousandth of the range, a few far away.
  std::minstd_rand random(5);
  std::uniform_real_distribution<double> draw(0.9999, 1.0001);
  std::vector<float> dose(500000);
  for (float& value : dose) value = static_cast<float>(draw(random));
  for (int i = 0; i < 20; ++i) dose.push_back(static_cast<float>(10 + i));
  const DoseResult result = evennessOf(mapOf(dose));
  std::ranges::sort(dose);
  const double last = static_cast<double>(dose.size() - 1);
  CHECK(result.p05_J_m2 == static_cast<double>(dose[static_cast<std::size_t>(0.05 * last + 0.5)]));
  CHECK(result.p95_J_m2 == static_cast<double>(dose[static_cast<std::size_t>(0.95 * last + 0.5)]));
}

TEST_CASE("An even map has no spread", "[dose]") {
  const DoseMap map = mapOf(std::vector<float>(500, 1234.5F));
  const DoseResult result = evennessOf(map);
  CHECK(result.cv == Approx(0).margin(1e-9));
  CHECK(result.missedFraction == 0);
  CHECK(result.p05_J_m2 == result.p95_J_m2);
  CHECK(rippleOf(columnMeans(map)) == 0);
}

TEST_CASE("Ripple of parallel lines", "[dose]") {
  // Lines p apart of a Gaussian: 1 + 2 sum q^(n^2) cos(2 pi n x/p), q = exp(-pi^2 w^2/(2 p^2)) (Poisson sum).
  for (const double pitch : {1.0, 1.5, 2.0, 3.0}) {
    const double q = std::exp(-pi * pi / (2 * pitch * pitch));
    double top = 1, bottom = 1;
    for (int n = 1; n < 30; ++n) {
      top += 2 * std::pow(q, n * n);
      bottom += 2 * std::pow(q, n * n) * (n % 2 == 0 ? 1 : -1);
    }
    const RepeatCell cell{pitch * radius_m, 1e-6};
    const Grid grid{64, 1};
    const DabRow middleOfACell{{cell.across_m / 128, 0}, Point::Zero(), 1, false, 1};
    CAPTURE(pitch);
    CHECK(rippleOf(columnMeans(steadyMap({middleOfACell}, gaussian, roundSpot(radius_m), cell, grid))) ==
          Approx((top - bottom) / (top + bottom)).epsilon(1e-4));
  }
}

TEST_CASE("Edge ratio of a sine oscillation", "[dose]") {
  // Arcsine density blurred by the spot, by quadrature: tests/reference/edge_ratio.py.
  const std::pair<double, double> rows[] = {{6, 2.17554249}, {20, 2.62580453}, {100, 2.87585097}};
  for (const auto& [spots, expected] : rows) {
    CAPTURE(spots);
    const Swath swath(sineOf(spots * 2 * radius_m), 0);
    CHECK(swath.profile.litExtent_m == Approx(spots * 2 * radius_m));
    REQUIRE(swath.edge);
    CHECK(*swath.edge == Approx(expected).epsilon(2e-3));
  }
}

TEST_CASE("One swath of a sine oscillation is the arcsine density blurred by the spot", "[dose]") {
  // 1/(pi sqrt((W/2)^2 - x^2)) taken as x = W/2 sin(phi), phi even: the poles are gone, and the midpoint rule is exact for a periodic
  // integrand as smooth as the spot.
  for (const double spots : {1.5, 6.0, 20.0}) {
    const double width_m = spots * 2 * radius_m;
    const Swath swath(sineOf(width_m), 0);
    constexpr int pieces = 4000;
    double worst = 0, most = 0;
    for (std::size_t i = 0; i < swath.profile.position_m.size(); ++i) {
      double expected = 0;
      for (int n = 0; n < pieces; ++n) {
        const double off = (swath.profile.position_m[i] - width_m / 2 * std::sin(2 * pi * (n + 0.5) / pieces)) / radius_m;
        expected += std::exp(-2 * off * off) * std::sqrt(2 / pi) / radius_m * swath.energy_J / swath.cell.along_m / pieces;
      }
      worst = std::max(worst, std::abs(swath.profile.oneSwath_J_m2[i] - expected));
      most = std::max(most, expected);
    }
    CAPTURE(spots);
    CHECK(worst < 2e-3 * most);  // the nodes of the convolution widen the spot by 1.3e-3
  }
}

TEST_CASE("Ripple and stripes of lines across the travel", "[dose]") {
  // Single lines `pitch` apart along the travel: the same theta series, in the rows of the map.
  for (const double pitch : {1.0, 2.0, 3.0}) {
    const double q = std::exp(-pi * pi / (2 * pitch * pitch));
    double top = 1, bottom = 1;
    for (int n = 1; n < 30; ++n) {
      top += 2 * std::pow(q, n * n);
      bottom += 2 * std::pow(q, n * n) * (n % 2 == 0 ? 1 : -1);
    }
    const RepeatCell cell{1e-3, pitch * radius_m};
    const DabRow line{{cell.across_m / 2, cell.along_m / 128}, Point(cell.across_m, 0), 1, true, 1};
    const DoseMap map = steadyMap({line}, gaussian, roundSpot(radius_m), cell, {40, 64});
    CAPTURE(pitch);
    CHECK(rippleOf(rowMeans(map)) == Approx((top - bottom) / (top + bottom)).epsilon(1e-4));
    const auto stripe = strongestStripe(rowMeans(map), cell.along_m);
    CHECK(stripe.has_value() == (cell.along_m >= 0.1e-3 && 2 * q > 1e-3));
    if (stripe) CHECK(stripe->contrast == Approx(2 * q).epsilon(1e-4));
  }
}

TEST_CASE("Edge ratio is not told below five spots", "[dose]") {
  CHECK_FALSE(Swath(sineOf(4.9 * 2 * radius_m), 0).edge);
  CHECK(Swath(sineOf(5.1 * 2 * radius_m), 0).edge);
}

TEST_CASE("Edges of a raster with and without its turns", "[dose]") {
  Settings settings = rasterOf(12e-3);
  const double turnaround_s = 250e-6, overshoot_m = 9 * turnaround_s / 4;
  const Swath burning(settings, turnaround_s);
  CHECK(burning.profile.litExtent_m == Approx(12e-3 + 2 * overshoot_m));
  // Seconds per metre that a line and its turn spend on the outer tenth they run into, over those in the middle (both ends are alike).
  const double end = 6e-3 + overshoot_m, tenth = 0.2 * end;
  double seconds = 0;
  constexpr int samples = 20000;
  for (int i = 0; i < samples; ++i) {
    const double u = turnaround_s * (i + 0.5) / samples, x = 6e-3 + 9 * (u - u * u / turnaround_s);
    seconds += caught(x, end - tenth, end) * turnaround_s / samples / 2;  // every other turn is at the other end
    seconds += caught(6e-3 * (i + 0.5) / samples, end - tenth, end) * (6e-3 / 9) / samples;
  }
  CHECK(*burning.edge == Approx(seconds / (tenth / 9)).epsilon(2e-3));

  settings.beamOffInTurns = true;
  const Swath dark(settings, turnaround_s);
  CHECK(dark.profile.litExtent_m == Approx(12e-3));
  CHECK(*dark.edge < 1);
  // What a blurred step loses over its edge: w/sqrt(8 pi).
  CHECK(*dark.edge == Approx(1 - radius_m / std::sqrt(8 * pi) / 1.2e-3).epsilon(2e-3));
}

TEST_CASE("One swath alone holds the energy of one frame per advance", "[dose]") {
  for (const BeamProfile shape : {BeamProfile::Gaussian, BeamProfile::SuperGaussian, BeamProfile::FlatTop}) {
    const Swath swath(sineOf(2.4e-3), 0, shape);
    CHECK(areaUnder(swath.profile) * swath.cell.along_m == Approx(swath.energy_J).epsilon(2e-3));
  }
}

TEST_CASE("Summed profile is the swath laid beside itself", "[dose]") {
  for (const double angle : {pi / 2, 0.0, 0.65}) {
    Settings settings = rasterOf(6e-3);
    settings.travelAngle_rad = angle;
    settings.stepOver_m = 1.3e-3;
    const Swath swath(settings, 250e-6);
    const auto& p = swath.profile;
    const double step = p.position_m[1] - p.position_m[0];
    const auto alone = [&](double x) {  // linear reading
      const double place = (x - p.position_m.front()) / step;
      if (place < 0 || place >= static_cast<double>(p.position_m.size() - 1)) return 0.0;
      const auto i = static_cast<std::size_t>(place);
      return std::lerp(p.oneSwath_J_m2[i], p.oneSwath_J_m2[i + 1], place - std::floor(place));
    };
    double mean = 0, worst = 0;
    for (std::size_t i = 0; i < p.position_m.size(); ++i) {
      double sum = 0;
      for (int k = -30; k <= 30; ++k) sum += alone(p.position_m[i] + k * 1.3e-3);
      mean += sum / static_cast<double>(p.position_m.size());
      worst = std::max(worst, std::abs(sum - p.summed_J_m2[i]));
    }
    CAPTURE(angle);
    CHECK(worst < 0.02 * mean);
  }
}

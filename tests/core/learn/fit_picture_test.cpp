// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/fit_picture.h"

#include "tests/core/learn/learn_support.h"

#include <algorithm>
#include <cmath>

using namespace bw;
using Catch::Approx;

namespace {

Machine machine() {
  Machine machine;
  machine.ratedPower_W = 300;
  machine.spotDiameter_m = 120e-6;
  machine.repetitionRate_Hz = {10e3, 800e3};
  machine.scan.maxWidth_m = 80e-3;
  return machine;
}

/// Widths of Liu's law for a spot of 130 um and a threshold of 20 W, scattered by some per cent.
MarkSeries marks() {
  MarkSeries series;
  const double wobble[] = {1.03, 0.98, 1.01, 0.97, 1.02, 0.99};
  int i = 0;
  for (const double power_W : {30.0, 45.0, 70.0, 110.0, 180.0, 290.0}) {
    const double width_m = 130e-6 * std::sqrt(std::log(power_W / 20) / 2);
    series.marks.push_back({{}, power_W, {}, {width_m * wobble[i++], {}}});
  }
  return series;
}

FitPicture pictureOf(const Measurements& measurements, FitKind kind) {
  const auto pictures = picturesOf(machine(), measurements, proposeMachine(machine(), measurements));
  const auto found = std::ranges::find(pictures, kind, &FitPicture::kind);
  REQUIRE(found != pictures.end());
  return *found;
}

double interpolated(const FittedCurve& curve, double x, double Range::*end) {
  const auto above = std::ranges::find_if(curve, [x](const CurvePoint& point) { return point.x >= x; });
  REQUIRE(above != curve.end());
  if (above == curve.begin()) return above->y.*end;
  const CurvePoint &a = *(above - 1), &b = *above;
  return std::lerp(a.y.*end, b.y.*end, (x - a.x) / (b.x - a.x));
}

}  // namespace

TEST_CASE("The curve of marks follows Liu's law of its own spot and threshold", "[learn]") {
  Measurements measurements;
  measurements.marks = {marks()};
  const FitPicture picture = pictureOf(measurements, FitKind::SpotByPower);
  const SpotFit spot = *fitSpot(measurements.marks[0].marks).value;
  REQUIRE(picture.curve.size() > 10);
  CHECK(picture.points.size() == 6);
  CHECK(picture.curve.front().x == Approx(spot.threshold.likely));
  CHECK(picture.curve.back().x == Approx(290));
  for (const CurvePoint& point : picture.curve) {
    const double law = spot.diameter_m.likely * std::sqrt(std::max(0.0, std::log(point.x / spot.threshold.likely)) / 2);
    CHECK(point.y.likely == Approx(law).margin(1e-9));
    CHECK(point.y.low <= point.y.likely);
    CHECK(point.y.likely <= point.y.high);
  }
}

TEST_CASE("The band is narrower in the middle of the readings than at the threshold, and holds the truth here", "[learn]") {
  Measurements measurements;
  measurements.marks = {marks()};
  const FitPicture picture = pictureOf(measurements, FitKind::SpotByPower);
  const auto width = [&](double x) { return interpolated(picture.curve, x, &Range::high) - interpolated(picture.curve, x, &Range::low); };
  CHECK(width(90) < width(25));
  const double truth = 130e-6 * std::sqrt(std::log(100.0 / 20) / 2);
  CHECK(interpolated(picture.curve, 100, &Range::low) < truth);
  CHECK(interpolated(picture.curve, 100, &Range::high) > truth);
}

TEST_CASE("Lines of power and of the frame pass through what they were made of", "[learn]") {
  Measurements measurements;
  for (const double share : {0.25, 0.5, 0.75, 1.0}) measurements.powers.push_back({share, {3 + 0.85 * 300 * share, {}}, {}});
  for (const double width_m : {0.02, 0.04, 0.08}) measurements.widths.push_back({width_m, {0.98 * width_m, {}}});
  measurements.meterUncertainty = 0.05;
  const FitPicture power = pictureOf(measurements, FitKind::Power);
  CHECK(interpolated(power.curve, 150, &Range::likely) == Approx(130.5));
  // The meter's own 5 % is in the band although the readings do not scatter.
  CHECK(interpolated(power.curve, 150, &Range::high) == Approx(130.5 * 1.05).epsilon(1e-3));
  CHECK(interpolated(pictureOf(measurements, FitKind::LitWidth).curve, 0.06, &Range::likely) == Approx(0.98 * 0.06));
}

TEST_CASE("The curve of power by rate has its corner, and a frame's time its turnaround", "[learn]") {
  Measurements measurements;
  RateSeries series;
  for (const double rate_kHz : {20.0, 40.0, 80.0, 120.0, 200.0, 300.0, 500.0})
    series.readings.push_back({rate_kHz * 1e3, {std::min(1.8e-3 * rate_kHz * 1e3, 290.0), {}}});
  measurements.rates = {series};
  for (const double width_m : {0.02, 0.04, 0.06})
    measurements.frameTimes.push_back({width_m, 9, 100, 100 * (width_m / 9 + 310e-6), 1e-4, {}, false});
  const FitPicture ceiling = pictureOf(measurements, FitKind::Ceiling);
  CHECK(interpolated(ceiling.curve, 60e3, &Range::likely) == Approx(108).epsilon(1e-3));
  CHECK(interpolated(ceiling.curve, 400e3, &Range::likely) == Approx(290).epsilon(1e-3));
  const FitPicture turn = pictureOf(measurements, FitKind::Turnaround);
  CHECK(turn.points.front().y.value == Approx(310e-6));
  CHECK(turn.curve.front().y.likely == Approx(310e-6));
}

TEST_CASE("What cannot be fitted keeps its readings and says why", "[learn]") {
  Measurements measurements;
  MarkSeries series = marks();
  series.marks.resize(2);
  measurements.marks = {series};
  const FitPicture picture = pictureOf(measurements, FitKind::SpotByPower);
  CHECK(picture.points.size() == 2);
  CHECK(picture.curve.empty());
  CHECK_THAT(picture.problem, Catch::Matchers::Contains("cannot tell the spot"));
  CHECK(picturesOf(machine(), {}, proposeMachine(machine(), {})).empty());
}

TEST_CASE("The beam along its axis is drawn through its waist", "[learn]") {
  Measurements measurements;
  for (const double z_mm : {-6.0, -4.0, -2.0, 0.0, 2.0, 4.0, 6.0})
    measurements.diameters.push_back({z_mm * 1e-3, {120e-6 * std::sqrt(1 + z_mm * z_mm / 9), {}}});
  const FitPicture picture = pictureOf(measurements, FitKind::Caustic);
  const auto least = std::ranges::min(picture.curve, {}, [](const CurvePoint& point) { return point.y.likely; });
  CHECK(least.y.likely == Approx(120e-6).epsilon(2e-3));  // the curve's nearest point, not the waist itself
  CHECK(std::abs(least.x) < 0.2e-3);
}

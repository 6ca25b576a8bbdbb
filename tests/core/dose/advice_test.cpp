// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/advice.h"

#include "core/dose/evenness.h"
#include "core/dose/stripes.h"
#include "tests/core/dose/usual_spot.h"
#include "tests/support/catch.h"

#include <cmath>
#include <numbers>

using namespace bw;
using namespace bw::test;
using Catch::Approx;

namespace {

const Emission pulses{true, 240e3, 255};

ScanHead head(double turnaround_s = 250e-6) {
  ScanHead made;
  made.turnaround_s = turnaround_s;
  return made;
}

Settings raster() {
  Settings s;
  s.width_m = 8e-3;
  s.height_m = 3e-3;
  s.scanSpeed_m_s = 9;
  s.lineSpacing_m = 0.08e-3;
  s.travelSpeed_m_s = 0.05;
  s.travelAngle_rad = std::numbers::pi / 2;
  s.stepOver_m = 7e-3;
  return s;
}

EvennessAdvice adviceFor(const Settings& s, const Emission& emission = pulses) {
  return {s, head(), emission, BeamProfile::Gaussian, radius_m};
}

/// Ripples read off the whole map, by another road than the advice's.
Unevenness onTheMap(const Settings& s, const Emission& emission = pulses) {
  const Frame frame = buildFrame(s, head());
  const RepeatCell cell{s.stepOver_m, s.travelSpeed_m_s * frame.period_s()};
  const auto rows = rowsOf(frame, Travel(s.travelSpeed_m_s, s.travelAngle_rad), emission, radius_m);
  const DoseMap map = steadyMap(rows, SpotProfile(BeamProfile::Gaussian), roundSpot(radius_m), cell, gridOf(cell, radius_m / 4));
  return {rippleOf(columnMeans(map)), rippleOf(rowMeans(map))};
}

double framesOn(const Settings& s) { return EvennessAdvice::framesOnAPlace(s, buildFrame(s, head()).period_s()).value_or(0); }

}  // namespace

TEST_CASE("Ripples of the quick sums are those of the whole map", "[dose]") {
  Settings sine = raster();
  sine.pattern = Pattern::Sine;
  sine.oscillationRate_Hz = 150;
  sine.travelSpeed_m_s = 0.02;
  Settings slanted = raster();
  slanted.travelAngle_rad = 0.7;
  Settings rings = raster();
  rings.pattern = Pattern::Circles;
  for (const Settings& s : {raster(), sine, slanted, rings}) {
    for (const Emission& emission : {pulses, Emission{false, 0, 1000}}) {
      const Unevenness quick = adviceFor(s, emission).now(), whole = onTheMap(s, emission);
      CAPTURE(static_cast<int>(s.pattern), s.travelAngle_rad, emission.pulsed);
      // Places an eighth of a radius apart see a little higher tops than the map's quarters.
      CHECK(quick.across == Approx(whole.across).margin(0.02));
      CHECK(quick.along == Approx(whole.along).margin(0.02));
    }
  }
}

TEST_CASE("The even travel lays frames a whole number deep", "[dose]") {
  Settings s = raster();
  for (const double speed : {0.013, 0.021, 0.034, 0.05}) {
    s.travelSpeed_m_s = speed;
    const auto even = adviceFor(s).travelSpeed();
    CAPTURE(speed, framesOn(s));
    REQUIRE(even);
    CHECK(framesOn(*even) == Approx(std::round(framesOn(*even))).margin(0.02));
    CHECK(even->travelSpeed_m_s >= speed / 2);
    CHECK(even->travelSpeed_m_s <= speed * 2);
    CHECK(onTheMap(*even).along < 0.5 * onTheMap(s).along);
    Settings onlyThat = *even;
    onlyThat.travelSpeed_m_s = speed;
    CHECK(onlyThat == s);
  }
}

TEST_CASE("The even spacing keeps the number of lines and lays frames a whole number deep", "[dose]") {
  Settings s = raster();
  s.travelSpeed_m_s = 0.018;
  const auto even = adviceFor(s).lineSpacing();
  REQUIRE(even);
  CHECK(buildFrame(*even, head()).stretches().size() == buildFrame(s, head()).stretches().size());
  CHECK(framesOn(*even) == Approx(std::round(framesOn(*even))).margin(0.02));
  CHECK(onTheMap(*even).along < 0.5 * onTheMap(s).along);
}

TEST_CASE("Step-over and trim of least ripple do better on the map too", "[dose]") {
  const Settings s = raster();
  const double before = onTheMap(s).across;
  REQUIRE(before > 0.2);  // the turns burn
  const auto stepped = adviceFor(s).stepOver(), trimmed = adviceFor(s).edgeTrim();
  REQUIRE(stepped);
  REQUIRE(trimmed);
  CHECK(stepped->stepOver_m != s.stepOver_m);
  CHECK(onTheMap(*stepped).across < 0.9 * before);
  CHECK(trimmed->edgeTrim_m > 0);
  CHECK(trimmed->edgeTrim_m <= s.width_m / 10);
  CHECK(onTheMap(*trimmed).across < 0.9 * before);
}

TEST_CASE("No step-over in reach is better than the one advised", "[dose]") {
  const Settings s = raster();
  const auto stepped = adviceFor(s).stepOver();
  REQUIRE(stepped);
  for (Settings other = s; other.stepOver_m > 3.5e-3; other.stepOver_m -= 0.11e-3) {
    CAPTURE(other.stepOver_m);
    CHECK(adviceFor(other).now().across > 0.8 * adviceFor(*stepped).now().across);
  }
}

TEST_CASE("Nothing is advised where the dose is even, or nothing to turn", "[dose]") {
  Settings even = raster();
  even.beamOffInTurns = true;
  even.stepOver_m = 1e-3;  // eight swaths on every place
  even.travelSpeed_m_s = even.lineSpacing_m / (even.width_m / even.scanSpeed_m_s + 250e-6) / 2;
  const EvennessAdvice advice = adviceFor(even);
  CHECK(advice.now().along < 0.01);
  CHECK_FALSE(advice.travelSpeed());
  CHECK_FALSE(advice.lineSpacing());
  CHECK_FALSE(EvennessAdvice::framesOnAPlace(even, 0));
  Settings rings = raster();
  rings.pattern = Pattern::Circles;
  CHECK_FALSE(adviceFor(rings).edgeTrim());
  CHECK_FALSE(adviceFor(rings).lineSpacing());
}

TEST_CASE("Advice can be stopped", "[dose]") {
  std::stop_source source;
  source.request_stop();
  CHECK_THROWS_AS(EvennessAdvice(raster(), head(), pulses, BeamProfile::Gaussian, radius_m, source.get_token()), Stopped);
}

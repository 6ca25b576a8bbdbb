// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/strikes.h"

#include "tests/core/dose/usual_spot.h"
#include "tests/support/catch.h"

#include <cmath>
#include <numbers>
#include <random>

using namespace bw;
using namespace bw::test;
using Catch::Approx;

namespace {

struct StruckProcess {
  Settings settings;
  bool pulsed = true;
  double rate_Hz = 240e3;
  double turnaround_s = 250e-6;

  Frame frame() const {
    ScanHead head;
    head.turnaround_s = turnaround_s;
    return buildFrame(settings, head);
  }
  Travel travel() const { return Travel(settings.travelSpeed_m_s, settings.travelAngle_rad); }
  Emission emission() const { return {pulsed, rate_Hz, 255}; }
  double pulseEnergy_J() const { return pulsed ? 255 / rate_Hz : 0; }
  RepeatCell cell() const { return {settings.stepOver_m, settings.travelSpeed_m_s * frame().period_s()}; }
  std::optional<Strikes> at(const Point& place) const {
    return strikesAt(rowsOf(frame(), travel(), emission(), radius_m), cell(), radius_m, place, pulseEnergy_J());
  }
};

StruckProcess struckRaster() {
  StruckProcess process;
  Settings& s = process.settings;
  s.width_m = 6e-3;
  s.height_m = 2e-3;
  s.scanSpeed_m_s = 9;
  s.lineSpacing_m = 0.08e-3;
  s.travelSpeed_m_s = 0.02;
  s.stepOver_m = 5e-3;
  return process;
}

/// Pulses of one frame nearer than a radius to the place or one of its images in other cells, counted one by one.
double counted(const StruckProcess& process, const Point& place) {
  const RepeatCell cell = process.cell();
  double count = 0;
  for (const Dab& dab : dabsOf(process.frame(), process.travel(), process.emission(), radius_m)) {
    const Point apart = dab.position - place;
    const double nearI = std::round(apart.x() / cell.across_m), nearJ = std::round(apart.y() / cell.along_m);
    for (double i = nearI - 1; i <= nearI + 1; ++i)
      for (double j = nearJ - 3; j <= nearJ + 3; ++j)
        if ((apart - Point(i * cell.across_m, j * cell.along_m)).norm() <= radius_m) ++count;
  }
  return count;
}

std::vector<Point> places(const RepeatCell& cell, int count) {
  std::mt19937 random(7);
  std::vector<Point> made;
  for (int i = 0; i < count; ++i)
    made.emplace_back(cell.across_m * static_cast<double>(random() % 1000) / 1000,
                      cell.along_m * static_cast<double>(random() % 1000) / 1000);
  return made;
}

void checkCounts(const StruckProcess& process) {
  for (const Point& place : places(process.cell(), 200)) {
    INFO(place.transpose());
    REQUIRE(process.at(place));
    CHECK(process.at(place)->pulses == Approx(counted(process, place)).margin(1e-9));
  }
}

}  // namespace

TEST_CASE("Chords give the pulses that a plain loop over all of them counts") {
  SECTION("travel across the lines") { checkCounts(struckRaster()); }
  SECTION("travel aslant, swaths over each other") {
    StruckProcess process = struckRaster();
    process.settings.travelAngle_rad = 0.7;
    process.settings.stepOver_m = 3.1e-3;
    checkCounts(process);
  }
  SECTION("circles, whose pulses stand singly") {
    StruckProcess process = struckRaster();
    process.settings.pattern = Pattern::Circles;
    process.settings.lineSpacing_m = 0.3e-3;
    checkCounts(process);
  }
  SECTION("an advance shorter than a radius") {
    StruckProcess process = struckRaster();
    process.settings.pattern = Pattern::Line;
    process.settings.travelSpeed_m_s = 0.03;
    REQUIRE(process.cell().along_m < radius_m);
    checkCounts(process);
  }
}

TEST_CASE("On the middle of a lone line fall the pulses of one diameter, from one line") {
  StruckProcess process = struckRaster();
  process.turnaround_s = 0;
  process.settings.height_m = 0;
  process.settings.travelSpeed_m_s = 1;  // far from the next frame
  const double step = std::hypot(9.0, 1.0) / 240e3;
  const Strikes strikes = process.at(Point(1.7e-3, (3e-3 + 1.7e-3) / 9)).value();
  CHECK(strikes.lines == 1);
  CHECK(strikes.pulses == Approx(2 * radius_m / step).margin(1));
}

TEST_CASE("A continuous beam passes over: no pulses, the same lines") {
  StruckProcess pulsed = struckRaster(), continuous = struckRaster();
  continuous.pulsed = false;
  pulsed.rate_Hz = 5e6;  // so close that every line that comes near leaves a pulse
  for (const Point& place : places(pulsed.cell(), 50)) {
    if (std::abs(std::remainder(place.x(), pulsed.settings.stepOver_m)) > 1.9e-3)
      continue;  // turns: a chord can be shorter than a pulse step
    INFO(place.transpose());
    CHECK(continuous.at(place)->pulses == 0);
    CHECK(continuous.at(place)->lines == pulsed.at(place)->lines);
    CHECK(continuous.at(place)->lines >= 1);
  }
}

TEST_CASE("A turn inside the circle is one passage") {
  StruckProcess process = struckRaster();
  process.settings.height_m = 0;
  process.settings.travelSpeed_m_s = 1;
  process.turnaround_s = 2e-6;  // overshoots by 4.5 micrometres
  process.rate_Hz = 5e6;
  process.settings.pattern = Pattern::Line;
  const Strikes atEnd = process.at(Point(3e-3, 6e-3 / 9)).value();
  CHECK(atEnd.lines == 1);
}

TEST_CASE("Nothing within reach is nothing, and too much is not told") {
  StruckProcess process = struckRaster();
  process.settings.stepOver_m = 20e-3;
  const Strikes none = process.at(Point(10e-3, 0)).value();
  CHECK(none.pulses == 0);
  CHECK(none.lines == 0);
  process.settings.travelSpeed_m_s = 1e-9;
  CHECK_FALSE(process.at(Point(0, 0)));
}

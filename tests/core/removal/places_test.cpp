// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/places.h"

#include "tests/core/removal/small_raster.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>
#include <random>
#include <set>

using namespace bw;
using test::SmallRaster;

namespace {

/// Every pulse of every frame of every swath within reach, looked at one by one; `ahead_m(swath, time_s)` of where they would be in step.
template <class Ahead>
std::vector<Hit> bruteForce(const SmallRaster& raster, const Point& point, double least, const Ahead& ahead_m) {
  const double peakPerJoule = raster.profile.peakPerWatt_1_m2(raster.radius_m), reach = 2.5 * raster.radius_m;
  std::vector<Hit> hits;
  for (int swath = -2; swath <= 2; ++swath) {
    for (int frame = -12; frame <= 12; ++frame) {
      for (const Dab& dab : raster.dabs) {
        const double dx = dab.position.x() + swath * raster.cell.across_m - point.x();
        if (std::abs(dx) > reach) continue;
        const double time = dab.time_s + frame * raster.frame.period_s();
        const double dy = dab.position.y() + frame * raster.cell.along_m + ahead_m(swath, time) - point.y();
        const double relative = raster.profile.relative(std::hypot(dx, dy) / raster.radius_m);
        if (relative < least) continue;
        hits.push_back({time + swath * raster.stroke_s, dab.energy_J * peakPerJoule * relative});
      }
    }
  }
  std::ranges::sort(hits, {}, &Hit::time_s);
  return hits;
}

double inStep(int, double) { return 0; }

std::vector<Point> somePoints(const SmallRaster& raster) {
  std::vector<Point> points;
  for (int i = 0; i < 9; ++i)
    points.push_back(Point(std::fmod(0.1 + 0.37 * i, 1.0) * raster.cell.across_m, std::fmod(0.3 + 0.61 * i, 1.0) * raster.cell.along_m));
  return points;
}

double quantileOf(std::vector<double> values, double share) {
  std::ranges::sort(values);
  return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1))];
}

}  // namespace

TEST_CASE("Pulses that hit a place in step are those a search over all frames and swaths finds", "[removal]") {
  const SmallRaster raster;
  const HitFinder finder = raster.finder();
  for (const Point& point : somePoints(raster)) {
    const std::vector<Hit> expected = bruteForce(raster, point, 1e-4, inStep), found = finder.at(point);
    CAPTURE(point.x(), point.y());
    REQUIRE(!expected.empty());
    REQUIRE(found.size() == expected.size());
    double timeError = 0, fluenceError = 0;
    for (std::size_t i = 0; i < expected.size(); ++i) {
      timeError = std::max(timeError, std::abs(found[i].time_s - (expected[i].time_s - expected.front().time_s)));
      fluenceError = std::max(fluenceError, std::abs(found[i].fluence_J_m2 / expected[i].fluence_J_m2 - 1));
    }
    CHECK(timeError < 1e-9);
    CHECK(fluenceError < 1e-7);
  }
}

TEST_CASE("A place's pulses in step add up to its dose in the map", "[removal]") {
  for (const double exponent : {2.0, 20.0}) {
    const SmallRaster raster(100, exponent);
    const HitFinder finder = raster.finder();
    const DoseMap& map = raster.map;
    for (int i = 0; i < 12; ++i) {
      const int column = (i * 37 + 5) % map.columns, row = (i * 11 + 3) % map.rows;
      const Point point((column + 0.5) * map.cellAcross_m, (row + 0.5) * map.cellAlong_m);
      INFO("profile exponent " << exponent << ", place at " << point.x() << ", " << point.y());
      CHECK(doseOf(finder.at(point)) == Catch::Approx(static_cast<double>(map.at(column, row))).epsilon(1e-3));
    }
  }
}

TEST_CASE("A continuous beam's pieces add up to its dose as well, however its lines are cut", "[removal]") {
  const SmallRaster raster;
  const Emission emission{false, 0, 100};
  const auto strikes = strikesOf(raster.frame, raster.travel, emission, raster.radius_m);
  const HitFinder finder(strikes, raster.cell, raster.profile, raster.radius_m, {raster.frame.period_s(), raster.stroke_s, 100});
  for (const Point& point : somePoints(raster)) {
    double expected = 0, duration = 0;
    for (const Dab& dab : dabsOf(raster.frame, raster.travel, emission, raster.radius_m / 8))
      for (int swath = -2; swath <= 2; ++swath)
        for (int frame = -12; frame <= 12; ++frame) {
          const Point at = dab.position + Point(swath * raster.cell.across_m, frame * raster.cell.along_m) - point;
          expected +=
              dab.energy_J * raster.profile.peakPerWatt_1_m2(raster.radius_m) * raster.profile.relative(at.norm() / raster.radius_m);
        }
    for (const Hit& hit : finder.at(point)) duration += hit.duration_s;
    CHECK(doseOf(finder.at(point)) == Catch::Approx(expected).epsilon(5e-3));  // curves are cut coarser
    CHECK(duration > 0);
  }
}

TEST_CASE("Places by chance are equal shares, with every draw once in each pass, the same for the same seed", "[removal]") {
  const auto places = SmallRaster().places(60, 2), again = SmallRaster().places(60, 2);
  double share = 0;
  for (const Place& place : places) share += place.share;
  CHECK(share == Catch::Approx(1).epsilon(1e-12));
  CHECK(std::ranges::is_sorted(places, {}, &Place::dose_J_m2));
  for (const int pass : {1, 2, 7, 51}) {
    std::set<const std::vector<Hit>*> draws;
    for (const Place& place : places) draws.insert(&place.hitsOf(pass));
    CHECK(draws.size() == places.size());
  }
  for (std::size_t i = 0; i < places.size(); ++i) CHECK(places[i].dose_J_m2 == again[i].dose_J_m2);
}

TEST_CASE("The mean over the places is that of the map, whatever the chances", "[removal]") {
  const SmallRaster raster;
  double byMap = 0;
  for (const float dose : raster.map.dose_J_m2) byMap += static_cast<double>(dose) / static_cast<double>(raster.map.dose_J_m2.size());
  for (const double wander : {0.0, 0.06, 0.12}) {
    double byPlaces = 0;
    for (const Place& place : placesByChance(raster.finder(), 400, {wander, 0.16e-3, 1})) byPlaces += place.share * place.dose_J_m2;
    CHECK(byPlaces == Catch::Approx(byMap).epsilon(0.015));
  }
}

TEST_CASE("Doses of two passes spread over the places as over points struck by plain chance", "[removal]") {
  // Every pulse of every frame, swaths and passes begun at random, under a hand that wanders: no phase is dealt, no line moved.
  const SmallRaster raster;
  constexpr int points = 700;
  std::mt19937 random(99);
  const auto chance = [&] { return static_cast<double>(random()) / 4294967296.0; };
  std::vector<double> struck, dealt;
  for (int i = 0; i < points; ++i) {
    double dose = 0;
    for (int pass = 0; pass < 2; ++pass) {
      const Wander wander(0.06, static_cast<std::uint32_t>(random()));
      double phases[5];
      for (double& phase : phases) phase = chance() * raster.cell.along_m;
      const double speed = raster.travel.speed_m_s();
      dose += doseOf(bruteForce(raster, Point(chance() * raster.cell.across_m, chance() * raster.cell.along_m), 1e-4,
                                [&](int swath, double time) { return phases[swath + 2] + speed * wander.ahead_s(time); }));
    }
    struck.push_back(dose / 2);
  }
  for (const Place& place : raster.places(400, 2)) dealt.push_back(place.dose_J_m2);
  // 700 and 400 draws: quantiles of either are known to a few per cent of themselves.
  for (const double share : {0.05, 0.25, 0.5, 0.75, 0.95}) {
    CAPTURE(share);
    CHECK(quantileOf(dealt, share) == Catch::Approx(quantileOf(struck, share)).epsilon(0.08));
  }
}

TEST_CASE("A setting moved by a hair moves a place's light by a hair", "[removal]") {
  const SmallRaster raster;
  const auto dosesAt = [&](double travelBy) {
    const Travel travel(raster.travel.speed_m_s() * travelBy, SmallRaster::settings().travelAngle_rad);
    const auto strikes = strikesOf(raster.frame, travel, raster.emission, raster.radius_m);
    const RepeatCell cell{raster.cell.across_m, raster.cell.along_m * travelBy};
    const double pitch = SmallRaster::settings().lineSpacing_m + cell.along_m / lineCount(SmallRaster::settings());
    const HitFinder finder(strikes, cell, raster.profile, raster.radius_m, {raster.frame.period_s(), raster.stroke_s, 0});
    std::vector<double> doses;
    for (std::uint32_t i = 0; i < 100; ++i) {
      const PassChance chance{i, Wander(0.06, i), pitch};
      doses.push_back(
          doseOf(finder.at(Point(std::fmod(0.755 * i, 1.0) * cell.across_m, std::fmod(0.57 * i, 1.0) * cell.along_m), &chance)));
    }
    return doses;
  };
  const std::vector<double> before = dosesAt(1), after = dosesAt(1.002);
  int moved = 0;
  for (std::size_t i = 0; i < before.size(); ++i) moved += std::abs(after[i] / before[i] - 1) > 0.03 ? 1 : 0;
  CHECK(moved <= 5);  // places at a frame's end, which one frame more or less goes over
}

TEST_CASE("Few classes stand for all places", "[removal]") {
  const auto places = SmallRaster().places(200);
  const auto classes = classesOf(places, 12);
  double share = 0, mean = 0, all = 0;
  for (const Place& place : classes) share += place.share, mean += place.share * place.dose_J_m2;
  for (const Place& place : places) all += place.share * place.dose_J_m2;
  CHECK(classes.size() == 13);
  CHECK(share == Catch::Approx(1));
  CHECK(mean == Catch::Approx(all).epsilon(0.03));
  CHECK(std::ranges::is_sorted(classes, {}, &Place::dose_J_m2));
}

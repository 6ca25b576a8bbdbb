// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/places.h"

#include "tests/core/removal/small_raster.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>

using namespace bw;
using test::SmallRaster;

namespace {

/// Every pulse of every frame of every swath within reach, looked at one by one.
std::vector<Hit> bruteForce(const SmallRaster& raster, const Place& place, double least) {
  const double peakPerJoule = raster.profile.peakPerWatt_1_m2(raster.radius_m);
  std::vector<Hit> hits;
  for (int swath = -4; swath <= 4; ++swath) {
    for (int frame = -60; frame <= 60; ++frame) {
      for (const Dab& dab : raster.dabs) {
        const double dx = dab.position.x() + swath * raster.cell.across_m - place.across_m;
        const double dy = dab.position.y() + frame * raster.cell.along_m - place.along_m;
        const double relative = raster.profile.relative(std::hypot(dx, dy) / raster.radius_m);
        if (relative < least) continue;
        hits.push_back({dab.time_s + frame * raster.frame.period_s() + swath * raster.stroke_s, dab.energy_J * peakPerJoule * relative});
      }
    }
  }
  std::ranges::sort(hits, {}, &Hit::time_s);
  return hits;
}

double doseOf(const Place& place) {
  double dose = 0;
  for (const Hit& hit : place.hits) dose += hit.fluence_J_m2;
  return dose;
}

}  // namespace

TEST_CASE("Places share the repeat cell among them, least dose first", "[removal]") {
  for (const int classes : {1, 7, 40}) {
    const auto places = SmallRaster().places(classes);
    double share = 0;
    for (const Place& place : places) share += place.share;
    CHECK(places.size() == static_cast<std::size_t>(classes) + 1);
    CHECK(share == Catch::Approx(1).epsilon(1e-12));
    CHECK(std::ranges::is_sorted(places, {}, &Place::dose_J_m2));
  }
}

TEST_CASE("The mean over the places is near the mean of the map", "[removal]") {
  const SmallRaster raster;
  double byPlaces = 0, byMap = 0;
  for (const Place& place : raster.places(40)) byPlaces += place.share * place.dose_J_m2;
  for (const float dose : raster.map.dose_J_m2) byMap += static_cast<double>(dose) / static_cast<double>(raster.map.dose_J_m2.size());
  CHECK(byPlaces == Catch::Approx(byMap).epsilon(0.02));
}

TEST_CASE("Pulses that hit a place are those a search over all frames and swaths finds", "[removal]") {
  const SmallRaster raster;
  for (const Place& place : raster.places(8)) {
    const std::vector<Hit> expected = bruteForce(raster, place, 1e-4);
    INFO("place at " << place.across_m << ", " << place.along_m);
    REQUIRE(!expected.empty());
    REQUIRE(place.hits.size() == expected.size());
    double timeError = 0, fluenceError = 0;
    for (std::size_t i = 0; i < expected.size(); ++i) {
      timeError = std::max(timeError, std::abs(place.hits[i].time_s - (expected[i].time_s - expected.front().time_s)));
      fluenceError = std::max(fluenceError, std::abs(place.hits[i].fluence_J_m2 / expected[i].fluence_J_m2 - 1));
    }
    CHECK(timeError < 1e-9);
    CHECK(fluenceError < 1e-9);
  }
}

TEST_CASE("A place's pulses add up to its dose in the map", "[removal]") {
  for (const double exponent : {2.0, 20.0}) {
    for (const Place& place : SmallRaster(100, exponent).places(20)) {
      INFO("profile exponent " << exponent << ", place at " << place.across_m << ", " << place.along_m);
      CHECK(doseOf(place) == Catch::Approx(place.dose_J_m2).epsilon(1e-3));
    }
  }
}

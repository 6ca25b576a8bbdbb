// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"

using namespace bw;
using namespace bw::test;
using Catch::Approx;

TEST_CASE("Verdict and answer in depth tell the ranges, and call nothing safe", "[assess]") {
  const Assessment a = deep(sampleProject());
  CHECK(a.verdict.size() == 8);
  CHECK(rowOf(a, "removal").message.find("in 9 of 10 such jobs") != std::string::npos);
  CHECK(rowOf(a, "temperature").message.find(" to ") != std::string::npos);
  CHECK(rowOf(a, "time").message.find("spread not computed") == std::string::npos);
  CHECK(a.answer.find(" to ") != std::string::npos);
  CHECK(a.answer.find("prove on a patch") != std::string::npos);
  for (const VerdictRow& row : a.verdict) CHECK(row.message.find("safe ") == std::string::npos);
}

TEST_CASE("Looking in depth changes no likely value and gives the same twice", "[assess]") {
  const Project project = smallProject();
  const Assessment first = assessed(project), &once = smallInDepth(), twice = inDepth(project, shippedLibrary(), once);
  CHECK(once.removal.passesNeeded == first.removal.passesNeeded);
  CHECK(once.removal.heatIntoPartFraction == first.removal.heatIntoPartFraction);
  CHECK(once.thermal.back_C == first.thermal.back_C);
  CHECK(once.ranges->passesNeeded.high == twice.ranges->passesNeeded.high);
  CHECK(once.ranges->back_C->low == twice.ranges->back_C->low);
  CHECK(once.answer == twice.answer);
  CHECK(once.notes == twice.notes);
  CHECK(once.findOutNext.size() == twice.findOutNext.size());
  CHECK(hasNote(first, "spread not computed"));
  CHECK_FALSE(hasNote(once, "spread not computed"));
}

TEST_CASE("The map of what is left agrees with the places", "[assess]") {
  const Assessment a = deep(smallProject());
  REQUIRE(a.removal.map);
  const RemovedMap& map = *a.removal.map;
  double thickness = 0;
  for (const LayerResult& layer : a.removal.layers) thickness += layer.thickness_m;
  REQUIRE(map.depth_m.size() > 1);
  for (std::size_t pass = 0; pass < map.depth_m.size(); ++pass) {
    double mean = 0, places = 0;
    for (const float depth : map.depth_m[pass]) {
      CHECK(static_cast<double>(depth) <= thickness * (1 + 1e-6));
      mean += static_cast<double>(depth) / static_cast<double>(map.depth_m[pass].size());
    }
    for (const PlaceHistory& place : a.removal.places) places += place.share * place.depth_m[pass];
    CAPTURE(pass);
    CHECK(mean == Approx(places).margin(0.03 * thickness));
  }
  CHECK(map.columns * map.cellAcross_m == Approx(a.map->across_m()));
  CHECK(map.rows * map.cellAlong_m == Approx(a.map->along_m()));
}

TEST_CASE("Orders of magnitude of the trade", "[assess]") {
  // Common practice, no source: a pulsed machine of a couple of hundred watts needs of the order of an hour for a square metre of panel
  // with four or five paint layers; light rust in a hand-sized frame clears in seconds.
  const Assessment panel = assessed(sampleProject());
  REQUIRE(panel.removal.rate_m2_s);
  const double hoursPerSquareMetre = 1 / *panel.removal.rate_m2_s / 3600;
  CHECK(hoursPerSquareMetre > 1.0 / 6);
  CHECK(hoursPerSquareMetre < 6);

  // A kilowatt-class continuous machine is several times faster on open panels.
  const Assessment continuous = assess(sampleProject(), "mended: continuous bulk", shippedLibrary());
  REQUIRE(continuous.removal.rate_m2_s);
  CHECK(*continuous.removal.rate_m2_s > 2 * *panel.removal.rate_m2_s);

  Project rusty = sampleProject();
  rusty.coat.resize(1);
  rusty.coat[0] = Layer{};
  rusty.coat[0].name = "rust";
  rusty.coat[0].coating = "rust-light";
  rusty.coat[0].thickness_m = Range::exact(20e-6);
  settingsOf(rusty).height_m = 0.03;
  const Assessment rust = deep(rusty);
  REQUIRE(rust.removal.stillHand);
  REQUIRE(rust.removal.stillHand->most_s);
  CHECK(*rust.removal.stillHand->most_s > 0.3);
  CHECK(*rust.removal.stillHand->most_s < 30);
}

TEST_CASE("Looking in depth stops when told to", "[assess]") {
  std::stop_source stop;
  stop.request_stop();
  const Project project = smallProject();
  CHECK_THROWS_AS(inDepth(project, shippedLibrary(), assessed(project), stop.get_token()), Stopped);
}

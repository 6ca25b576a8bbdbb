// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/passes.h"

#include "core/assess/assess.h"
#include "core/removal/joined_layers.h"
#include "tests/core/removal/small_raster.h"
#include "tests/core/removal/steel.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>

using namespace bw;
using test::SmallRaster;

namespace {

LayerMaterial layerOf(const char* name, double thickness_m, double absorptance = 0.9, double depth_m = 12e-6) {
  LayerMaterial layer;
  layer.name = name;
  layer.thickness_m = Range::exact(thickness_m);
  layer.absorptance = Range::exact(absorptance);
  layer.opticalDepth_m = Range::exact(depth_m);
  layer.removalEnthalpy_J_m3 = Range::exact(1.5e9);
  layer.removalTemperature_C = Range::exact(350);
  layer.ejectionTime_s = Range::exact(200e-9);
  layer.conductivity_W_mK = Range::exact(0.3);
  layer.density_kg_m3 = Range::exact(1300);
  layer.specificHeat_J_kgK = Range::exact(1500);
  return layer;
}

PassesOutcome outcome(const std::vector<LayerMaterial>& coat, double power_W = 100, int passes = 1) {
  std::vector<Place> places = SmallRaster(power_W).places(100, passes);
  return runPasses(coat, steel(), 1e-3, places, {100e-9, 20, passes});
}

/// Passes to clear, a large number where it never does.
int needed(const std::vector<LayerMaterial>& coat, double power_W = 100) {
  return outcome(coat, power_W).removal.passesNeeded.value_or(1000);
}

}  // namespace

TEST_CASE("A paint told as several coats of the same comes off as one", "[removal]") {
  for (const double power_W : {45.0, 60.0, 100.0}) {  // from not much above the threshold on
    CAPTURE(power_W);
    const auto one = outcome({layerOf("paint", 80e-6)}, power_W, 2).removal;
    std::vector<LayerMaterial> coats;
    for (const char* name : {"fourth", "third", "second", "first"}) coats.push_back(layerOf(name, 20e-6));
    const auto four = outcome(coats, power_W, 2).removal;
    CHECK(four.passesNeeded == one.passesNeeded);
    CHECK(*four.clearedFraction == Catch::Approx(*one.clearedFraction));
    REQUIRE(four.layers.size() == 4);
    double removed = 0, thickness = 0;
    for (std::size_t i = 0; i < 4; ++i) {
      removed += four.layers[i].removed_m;
      thickness += four.layers[i].thickness_m;
      if (i > 0) {
        CHECK(four.layers[i].removed_m <= four.layers[i - 1].removed_m + 1e-12);
        CHECK(four.layers[i].passes.value_or(1000) >= four.layers[i - 1].passes.value_or(1000));
      }
    }
    CHECK(thickness == Catch::Approx(80e-6));
    CHECK(removed == Catch::Approx(one.layers[0].removed_m));
    CHECK(four.layers[3].passes == one.layers[0].passes);
  }
  // A film that counts as gone over another paint does so over the next coat of its own.
  const CoatedMetal two = coatedMetal({layerOf("upper", 20e-6), layerOf("lower", 20e-6)}, steel());
  PlaceRun run;
  run.left_m = {{40e-6}, {20.5e-6}, {15e-6}, {0}};
  const auto joined = joinedLayers(two, {false, false});
  REQUIRE(joined);
  run = joined->apart(run, two.coat);
  CHECK(run.left_m == std::vector<std::vector<double>>{{20e-6, 20e-6}, {0, 20e-6}, {0, 15e-6}, {0, 0}});
  // Another paint between them, and one that is to stay, are borders.
  std::vector<LayerMaterial> mixed{layerOf("paint", 20e-6), layerOf("other", 20e-6, 0.5, 30e-6), layerOf("paint", 20e-6)};
  CHECK(outcome(mixed).removal.layers.size() == 3);
  std::vector<LayerMaterial> kept{layerOf("paint", 20e-6), layerOf("paint", 20e-6)};
  kept[1].keep = true;
  CHECK(outcome(kept).removal.layers[1].kept);
}

TEST_CASE("Nothing is undone by a further pass, and the passes needed are those that clear 99 %", "[removal]") {
  struct Row {
    double thickness_m, power_W;
  };
  for (const Row& row : {Row{40e-6, 60}, Row{80e-6, 100}, Row{150e-6, 100}}) {
    INFO(row.thickness_m << " m, " << row.power_W << " W");
    const std::vector<LayerMaterial> coat = {layerOf("paint", row.thickness_m)};
    const auto first = outcome(coat, row.power_W).removal;
    REQUIRE(first.passesNeeded);
    REQUIRE(*first.passesNeeded >= 1);
    for (const PlaceHistory& place : first.places) CHECK(std::ranges::is_sorted(place.depth_m));

    double before = 0;
    for (int passes = 1; passes <= *first.passesNeeded + 1; ++passes) {
      const auto removal = outcome(coat, row.power_W, passes).removal;
      CHECK(removal.passesNeeded == first.passesNeeded);
      REQUIRE(removal.clearedFraction);
      CHECK(*removal.clearedFraction >= before);
      CHECK((*removal.clearedFraction >= clearShare - 1e-9) == (passes >= *first.passesNeeded));
      before = *removal.clearedFraction;
    }
  }
}

TEST_CASE("Layers clear from the top down and kept ones do not count", "[removal]") {
  std::vector<LayerMaterial> coat = {layerOf("paint", 50e-6), layerOf("primer", 25e-6), layerOf("zinc", 10e-6, 0.5, 22e-9)};
  coat[2].removalEnthalpy_J_m3 = Range::exact(1e14);
  CHECK_FALSE(outcome(coat).removal.passesNeeded);

  coat[2].keep = true;
  const auto removal = outcome(coat, 100, 20).removal;
  REQUIRE(removal.passesNeeded);
  REQUIRE(removal.layers.size() == 3);
  REQUIRE(removal.layers[0].passes);
  REQUIRE(removal.layers[1].passes);
  CHECK(*removal.layers[0].passes <= *removal.layers[1].passes);
  CHECK(*removal.layers[1].passes == *removal.passesNeeded);
  CHECK_FALSE(removal.layers[2].passes);
  CHECK(removal.layers[2].kept);
  CHECK(removal.layers[2].removed_m == 0);
  CHECK(removal.layers[0].removed_m == Catch::Approx(50e-6).epsilon(1e-6));
}

TEST_CASE("A pass of a slower hand brings as much more energy, in the same order", "[removal]") {
  const auto places = SmallRaster().inStep(20);
  LayerMaterial lasting = layerOf("lasting", 400e-6);
  lasting.removalEnthalpy_J_m3 = Range::exact(1e15);
  const CoatedMetal part = coatedMetal({lasting}, steel());
  const auto delivered = [&](const Place& place, double pace, int passes) {
    PassRhythm rhythm{100e-9, 20, passes, pace};
    rhythm.onlyPlanned = true;
    return runPlace(part, 1e-3, {false}, place, rhythm).plan.delivered;
  };
  // Whole hits are left out or repeated, a few strong ones a place: each within a third, all together closer.
  for (const double pace : {0.6, 0.8, 1.25, 1.4}) {
    double all = 0, due = 0;
    for (const Place& place : places) {
      CAPTURE(pace, place.hitsOf(1).size());
      CHECK(delivered(place, pace, 2) == Catch::Approx(delivered(place, 1, 2) / pace).epsilon(0.33));
      all += delivered(place, pace, 2);
      due += delivered(place, 1, 2) / pace;
    }
    CHECK(all == Catch::Approx(due).epsilon(0.05));
  }
}

TEST_CASE("A part without a coat needs no pass and takes up the metal's share", "[removal]") {
  const auto result = outcome({}, 100, 3);
  CHECK(result.removal.passesNeeded == 0);
  CHECK(result.removal.clearedFraction == Catch::Approx(1));
  CHECK(*result.removal.heatIntoPartFraction == Catch::Approx(0.5).epsilon(1e-9));
}

TEST_CASE("What the order of the trade demands of the passes", "[removal]") {
  // Common practice, no source: pale coats need several times the passes of dark ones, thicker coats more, and power helps.
  const std::vector<LayerMaterial> dark = {layerOf("dark", 50e-6)}, pale = {layerOf("pale", 50e-6, 0.25, 30e-6)};
  CHECK(needed(pale) >= 2 * needed(dark));

  int before = 0;
  for (const double thickness : {20e-6, 50e-6, 100e-6, 200e-6}) {
    const int passes = needed({layerOf("paint", thickness)});
    CHECK(passes >= before);
    before = passes;
  }
  CHECK(before > needed({layerOf("paint", 20e-6)}));

  before = 1001;
  for (const double power : {20.0, 40.0, 80.0, 160.0}) {
    const int passes = needed(dark, power);
    CHECK(passes <= before);
    before = passes;
  }
  CHECK(before < needed(dark, 20));
}

TEST_CASE("Heat into the part while stripping lies between what dark paint leaves and what it takes up", "[removal]") {
  for (const double power : {40.0, 100.0}) {
    const auto result = outcome({layerOf("paint", 150e-6)}, power);
    REQUIRE(result.removal.clearedAfter.at(1) < 0.5);  // the first pass still falls on paint
    CHECK(result.removal.heatIntoPartByPass.front() > 0.05);
    CHECK(result.removal.heatIntoPartByPass.front() < 0.9);
    CHECK(*result.removal.heatIntoPartFraction <= 0.9);
  }
}

TEST_CASE("A beam too weak to remove anything leaves every absorbed joule in the part", "[removal]") {
  const auto result = outcome({layerOf("paint", 400e-6)}, 1);  // too thick for light to come back from the metal
  CHECK_FALSE(result.removal.passesNeeded);
  CHECK(*result.removal.clearedFraction == 0);
  CHECK(*result.removal.heatIntoPartFraction == Catch::Approx(0.9).epsilon(1e-4));
}

TEST_CASE("Running passes stops when told to", "[removal]") {
  std::stop_source stop;
  stop.request_stop();
  std::vector<Place> places = SmallRaster().places(5);
  CHECK_THROWS_AS(runPasses({layerOf("paint", 50e-6)}, steel(), 1e-3, places, {100e-9, 20, 1}, stop.get_token()), Stopped);
}

TEST_CASE("What a pass leaves does not step where a pulse grows as long as matter takes to leave", "[removal]") {
  const std::vector<LayerMaterial> coat{layerOf("paint", 80e-6)};  // 200 ns
  std::vector<Place> places = SmallRaster(80).places(100, 1);
  const auto removedBy = [&](double pulse_s) {
    std::vector<Place> some = places;
    return runPasses(coat, steel(), 1e-3, some, {pulse_s, 20, 1}).removal.layers[0].removed_m;
  };
  for (const double longest_s : {200e-9, 400e-9, 600e-9}) {
    const double before = removedBy(longest_s * 0.999), after = removedBy(longest_s * 1.001);
    CHECK(after == Catch::Approx(before).epsilon(0.003));
  }
}

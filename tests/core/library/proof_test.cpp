// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/differences.h"
#include "tests/core/library/library_case.h"

using namespace bw;
using namespace bw::test;

namespace {

RecipeVersion proven() {
  RecipeVersion version = SomeRecipes::number(1).version;
  version.proof = SomeRecipes::proofOf(version);
  return version;
}

}  // namespace

TEST_CASE("A proof holds as long as machine, model and settings are as they were", "[library]") {
  LibraryCase test;
  LibraryStore store = test.open();
  RecipeVersion version = proven();
  CHECK(store.staleReasons(version, "4").empty());
  SECTION("no proof is not stale") {
    version.proof.reset();
    CHECK(store.staleReasons(version, "5").empty());
  }
  SECTION("another model") {
    const auto reasons = store.staleReasons(version, "5");
    REQUIRE(reasons.size() == 1);
    CHECK(reasons.front() == "The model is of version 5; it was proven with version 4.");
  }
  SECTION("another spot in the recipe") {
    Machine& machine = version.machines.front();
    machine.spotDiameter_m = 3e-4;
    const auto reasons = store.staleReasons(version, "4");
    REQUIRE(reasons.size() == 1);
    CHECK_THAT(reasons.front(), Catch::Matchers::Contains("spot diameter was ") && Catch::Matchers::Contains("is 300 \xc2\xb5m"));
  }
  SECTION("the library's own machine was measured anew") {
    MachineCard card;
    for (const auto& entry : store.machines()) {
      if (entry.value.machine.id == version.machines.front().id) card = entry.value;
    }
    REQUIRE(card.machine.id == version.machines.front().id);
    card.machine.hourlyCost = 99;
    card.machine.name = "our old one";
    card.machine.checkedOn = "2026-03-02";
    const int revision = store.saveMachine(card, 0);
    CHECK(store.staleReasons(version, "4").empty());  // what it costs and how it is called does not matter
    card.machine.deliveredPower_W = 0.8 * card.machine.ratedPower_W;
    store.saveMachine(card, revision);
    const auto reasons = store.staleReasons(version, "4");
    REQUIRE(reasons.size() == 1);
    CHECK_THAT(reasons.front(),
               Catch::Matchers::Contains("in the library") && Catch::Matchers::Contains("delivered power was nothing, is "));
  }
  SECTION("other settings than any trial's") {
    version.plan.settings.passes = 9;
    CHECK(store.staleReasons(version, "4") == std::vector<std::string>{"None of its trials was made with the settings it has now."});
    version.proof->trials.front().settings = {};
    CHECK(store.staleReasons(version, "4").empty());  // a trial without settings says nothing against it
  }
  SECTION("another machine") {
    version.machines.front().id = "another";
    version.plan.machine = "another";
    CHECK(store.staleReasons(version, "4").size() == 1);
  }
  SECTION("a stored proof says the same") {
    Recipe recipe;
    recipe.version = version;
    const RecipeVersion back = store.recipe(store.saveRecipe(recipe).id).version;
    CHECK(store.staleReasons(back, "4").empty());
    CHECK(store.staleReasons(back, "5").size() == 1);
  }
}

TEST_CASE("Differences name the place and both values", "[library]") {
  Machine was = typicalMachines().front(), is = was;
  CHECK(differences(was, is).empty());
  is.scan.turnaround_s = 300e-6;
  is.pulseDurations_s.pop_back();
  Optic optic;
  optic.id = "wide";
  is.optics = {optic};
  const std::vector<Difference> found = differences(was, is);
  CHECK(std::ranges::find(found, Difference{"scan.turnaround_us", "250", "300"}) != found.end());
  CHECK(std::ranges::find(found, Difference{"pulse_durations_ns", "[45,90,180,270]", "[45,90,180]"}) != found.end());
  REQUIRE(found.size() == 3);
  CHECK(inWords({"scan.turnaround_us", "250", "300"}) == "scan, turnaround was 250 \xc2\xb5s, is 300 \xc2\xb5s");
  CHECK(inWords({"optical_depth_um.value", "12", ""}) == "optical depth was 12 \xc2\xb5m, is nothing");
  CHECK(inWords({"optical_depth_um.source", "a", "b"}) == "optical depth, source was a, is b");

  // Layers are told apart by their names: one more at the top is one difference.
  RecipeVersion before = proven(), after = before;
  Layer layer = before.coat.front();
  layer.name = "lacquer";
  after.coat.insert(after.coat.begin(), layer);
  after.number = 5;
  REQUIRE(differences(before, after).size() == 1);
  CHECK(differences(before, after).front().key == "coat.lacquer");
  CHECK(differences(before, after).front().was.empty());
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/proof.h"
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
  CHECK(store.staleReasons(version, modelVersion).empty());
  SECTION("no proof is not stale") {
    version.proof.reset();
    CHECK(store.staleReasons(version, "next").empty());
  }
  SECTION("another model") {
    const auto reasons = store.staleReasons(version, "next");
    REQUIRE(reasons.size() == 1);
    CHECK(reasons.front() == std::string("The model is of version next; it was proven with version ") + modelVersion + ".");
  }
  SECTION("another spot in the recipe") {
    Machine& machine = version.machines.front();
    machine.spotDiameter_m = 3e-4;
    const auto reasons = store.staleReasons(version, modelVersion);
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
    CHECK(store.staleReasons(version, modelVersion).empty());  // what it costs and how it is called does not matter
    card.machine.deliveredPower_W = 0.8 * card.machine.ratedPower_W;
    store.saveMachine(card, revision);
    const auto reasons = store.staleReasons(version, modelVersion);
    REQUIRE(reasons.size() == 1);
    CHECK_THAT(reasons.front(),
               Catch::Matchers::Contains("in the library") && Catch::Matchers::Contains("delivered power was nothing, is "));
  }
  SECTION("other settings than any trial's") {
    version.plan.settings.passes = 9;
    CHECK(store.staleReasons(version, modelVersion) ==
          std::vector<std::string>{"None of its trials was made with the settings it has now."});
    version.proof->trials.front().settings = {};
    CHECK(store.staleReasons(version, modelVersion).size() == 1);  // nor does a trial of unknown settings speak for it
  }
  SECTION("it was not seen to clear") {
    version.proof->trials.front().seen = {Seen::Patchy};
    CHECK(store.staleReasons(version, modelVersion) ==
          std::vector<std::string>{"Its newest trial with these settings was not seen to clear."});
  }
  SECTION("another machine") {
    version.machines.front().id = "another";
    version.plan.machine = "another";
    CHECK(store.staleReasons(version, modelVersion).size() == 1);
  }
  SECTION("a stored proof says the same") {
    Recipe recipe;
    recipe.version = version;
    const RecipeVersion back = store.recipe(store.saveRecipe(recipe).id).version;
    CHECK(store.staleReasons(back, modelVersion).empty());
    CHECK(store.staleReasons(back, "next").size() == 1);
  }
}

TEST_CASE("What a trial showed is what was seen, or what a reading says, and the worse of the two", "[library]") {
  Trial trial;
  CHECK(outcomeOf(trial) == TrialOutcome::Unfinished);
  trial.readings = {{"thickness_before_um", 82, 5, {}}};  // alone it says nothing of what came off
  CHECK(outcomeOf(trial) == TrialOutcome::Unfinished);
  trial.seen = {Seen::Tint, Seen::Stripes};
  CHECK(outcomeOf(trial) == TrialOutcome::Unfinished);
  trial.seen = {Seen::Cleared, Seen::Tint};
  CHECK(outcomeOf(trial) == TrialOutcome::Cleared);
  trial.seen = {Seen::Cleared, Seen::Residue};
  CHECK(outcomeOf(trial) == TrialOutcome::Partly);
  trial.seen = {Seen::Cleared, Seen::Not};
  CHECK(outcomeOf(trial) == TrialOutcome::Failed);
  trial.seen = {Seen::Cleared};
  trial.readings.push_back({"thickness_after_um", 30, {}, {}});
  CHECK(outcomeOf(trial) == TrialOutcome::Partly);  // the gauge finds film where the eye saw none
  trial.seen = {};
  trial.readings.back().value = 8;  // less than a tenth of 82 um
  CHECK(outcomeOf(trial) == TrialOutcome::Cleared);
  trial.readings = {{"passes_to_clear", 4, {}, {}}};
  CHECK(outcomeOf(trial) == TrialOutcome::Cleared);
}

TEST_CASE("Of the trials with a recipe's settings the newest decides whether it is proven", "[library]") {
  RecipeVersion version = proven();
  REQUIRE(isProven(version));
  Trial later = version.proof->trials.front();
  later.date = "2026-04-01";
  later.seen = {Seen::Patchy};
  version.proof->trials.push_back(later);
  CHECK_FALSE(isProven(version));
  version.proof->trials.back().settings.passes += 1;  // with other settings it says nothing
  CHECK(isProven(version));
  version.proof->trials.back().settings = version.plan.settings;
  version.proof->trials.back().date = "2026-01-01";
  CHECK(isProven(version));
  version.proof->trials.front().date.clear();
  version.proof->date.clear();
  CHECK_FALSE(isProven(version));
}

TEST_CASE("A measured value outside its predicted range is named with its side", "[library]") {
  RecipeVersion version = proven();
  version.predicted.numbers = {{"thermal.back_C", {70, 95, 130}}, {"removal.passes_needed", {4, 5, std::nullopt}}};
  Trial& trial = version.proof->trials.front();
  trial.readings = {{"back_C", 140, 6, {}}, {"passes", 2, {}, {}}, {"face_C", 900, {}, {}}};
  const auto outside = outsidePrediction(version, trial);
  REQUIRE(outside.size() == 2);
  CHECK(outside[0].key == "thermal.back_C");
  CHECK(outside[0].above);
  CHECK(outside[1].key == "removal.passes_needed");
  CHECK_FALSE(outside[1].above);
  trial.seen = {Seen::Patchy};  // then the passes made are not those needed
  CHECK(outsidePrediction(version, trial).size() == 1);
  trial.settings.passes += 1;
  CHECK(outsidePrediction(version, trial).empty());
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

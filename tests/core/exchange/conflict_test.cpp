// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/import_report.h"
#include "core/library/recipe_json.h"
#include "tests/core/exchange/exchange_case.h"

using namespace bw;
using namespace bw::test;

namespace {

/// Both have the recipe's first version.
struct SharedRecipe : ExchangeCase {
  SharedRecipe() {
    other.saveRecipe(recipeNamed("shared", 4));
    bringIn();
  }
  ImportLine line() {
    const ImportPlan found = plan();
    REQUIRE(found.lines.size() == 1);
    return found.lines.front();
  }
  std::vector<std::string> mineNotes() { return notesOf(mine, "shared"); }
};

const Difference* differenceAt(const ImportLine& line, const std::string& key) {
  for (const Difference& difference : line.differences) {
    if (difference.key == key) return &difference;
  }
  return nullptr;
}

}  // namespace

TEST_CASE("Versions that come after mine are added, mine stay", "[exchange]") {
  SharedRecipe test;
  const std::string first = test.mineNotes().at(0);
  saveNext(test.other, "shared", "theirs two");
  saveNext(test.other, "shared", "theirs three");
  const ImportLine line = test.line();
  CHECK(line.status == ImportStatus::Continues);
  CHECK(line.mine == "version 1 of 2026-03-01 by hs, proven");
  CHECK(line.theirs == "version 3 of 2026-03-01 by hs, proven");
  const ImportOutcome outcome = test.bringIn();
  CHECK(outcome.versions == 2);
  CHECK(test.mineNotes() == std::vector<std::string>{first, "theirs two", "theirs three"});
  CHECK(test.line().status == ImportStatus::Identical);
}

TEST_CASE("An older bundle changes nothing", "[exchange]") {
  SharedRecipe test;
  saveNext(test.mine, "shared", "mine two");
  CHECK(test.line().status == ImportStatus::Identical);
  CHECK(test.bringIn().untouched == 1);
  CHECK(test.mineNotes().size() == 2);
}

TEST_CASE("Where both moved on it is told side by side, and nothing happens undecided", "[exchange]") {
  SharedRecipe test;
  const std::string first = test.mineNotes().at(0);
  saveNext(test.mine, "shared", "mine two");
  saveNext(test.other, "shared", "theirs two");
  const ImportLine line = test.line();
  CHECK(line.status == ImportStatus::Conflict);
  CHECK(line.common == 1);
  REQUIRE(differenceAt(line, "note"));
  CHECK(*differenceAt(line, "note") == Difference{"note", "mine two", "theirs two"});
  CHECK_THAT(importTable(test.plan(), {}), Catch::Matchers::Contains("note  mine two") && Catch::Matchers::Contains("theirs two"));

  std::string message;
  CHECK(troubleOf([&] { test.bringIn(); }, &message) == LibraryTrouble::Conflict);
  CHECK_THAT(message, Catch::Matchers::Contains("nothing was imported"));
  CHECK(test.mineNotes() == std::vector<std::string>{first, "mine two"});

  SECTION("mine is kept") {
    test.bringIn(ImportDecision::Mine);
    CHECK(test.mineNotes() == std::vector<std::string>{first, "mine two"});
    CHECK(test.mine.recipeCount() == 1);
  }
  SECTION("theirs comes after mine, which stays") {
    test.bringIn(ImportDecision::Theirs);
    CHECK(test.mineNotes() == std::vector<std::string>{first, "mine two", "theirs two"});
    CHECK(test.line().status == ImportStatus::Identical);
  }
  SECTION("both stand beside each other") {
    test.bringIn(ImportDecision::Both);
    CHECK(test.mineNotes() == std::vector<std::string>{first, "mine two"});
    REQUIRE(test.mine.recipeCount() == 2);
    CHECK(notesOf(test.mine, "shared-imported") == std::vector<std::string>{first, "theirs two"});
    CHECK(test.mine.recipe("shared-imported").version.name == test.mine.recipe("shared").version.name + " (imported)");
    CHECK(test.line().status == ImportStatus::Identical);  // the copy is known again
    saveNext(test.other, "shared", "theirs three");
    CHECK(test.line().status == ImportStatus::Conflict);
    test.bringIn(ImportDecision::Both);
    CHECK(test.mine.findRecipe("shared-imported-2"));
  }
}

TEST_CASE("Strangers under one id are a conflict, not a history", "[exchange]") {
  ExchangeCase test;
  test.mine.saveRecipe(recipeNamed("door", 1));
  test.other.saveRecipe(recipeNamed("door", 2));
  CHECK(test.plan().lines.at(0).status == ImportStatus::Conflict);
  CHECK(test.plan().lines.at(0).common == 0);
}

TEST_CASE("A state that differs is a conflict of its own and makes no version", "[exchange]") {
  SharedRecipe test;
  test.other.setState("shared", 1, RecipeState::Withdrawn, "the primer comes off too", "hs");
  const ImportLine line = test.line();
  CHECK(line.status == ImportStatus::Conflict);
  REQUIRE(differenceAt(line, "reason"));
  CHECK(differenceAt(line, "reason")->is == "the primer comes off too");
  CHECK(test.bringIn(ImportDecision::Theirs).states == 1);
  CHECK(test.mine.recipe("shared").state == RecipeState::Withdrawn);
  CHECK(test.mineNotes().size() == 1);
  CHECK(test.line().status == ImportStatus::Identical);
}

TEST_CASE("A proven recipe without a signed trial is refused before anything is written", "[exchange]") {
  SharedRecipe test;
  Bundle bundle = test.fromOther();
  bundle.recipes.at(0).versions.at(0).version.proof.reset();
  std::string message;
  CHECK(troubleOf([&] { planImport(test.mine, bundle); }, &message) == LibraryTrouble::Refused);
  CHECK_THAT(message, Catch::Matchers::Contains("$.recipes[0]") && Catch::Matchers::Contains("cannot be called proven"));
}

TEST_CASE("A material that collides with a shipped one comes in only when told to", "[exchange]") {
  ExchangeCase test;
  const Coating shipped = shippedLibrary().coatings.front();
  Coating changed = shipped;
  changed.absorptance.range = Range::exact(0.42);
  test.other.saveCoating(changed, 0);
  const ImportLine line = test.plan().lines.at(0);
  CHECK(line.status == ImportStatus::Conflict);
  CHECK(line.mine == "as shipped");
  REQUIRE(differenceAt(line, "absorptance.value"));
  CHECK(differenceAt(line, "absorptance.value")->is == "0.42");
  const auto absorptance = [&](const std::string& id) {
    for (const auto& entry : test.mine.coatings()) {
      if (entry.value.id == id) return entry.value.absorptance.range;
    }
    return Range{};
  };
  CHECK(troubleOf([&] { test.bringIn(); }) == LibraryTrouble::Conflict);
  CHECK(absorptance(shipped.id) == shipped.absorptance.range);
  SECTION("as an own copy, which can be reset") {
    test.bringIn(ImportDecision::Theirs);
    CHECK(absorptance(shipped.id) == Range::exact(0.42));
    test.mine.resetEntry(EntryKind::Coating, shipped.id);
    CHECK(absorptance(shipped.id) == shipped.absorptance.range);
  }
  SECTION("beside it") {
    test.bringIn(ImportDecision::Both);
    CHECK(absorptance(shipped.id) == shipped.absorptance.range);
    CHECK(absorptance(shipped.id + "-imported") == Range::exact(0.42));
    CHECK(test.plan().lines.at(0).status == ImportStatus::Identical);
  }
}

TEST_CASE("The upkeep of a machine is compared as well", "[exchange]") {
  ExchangeCase test;
  MachineCard card;
  card.machine = typicalMachines().front();
  card.machine.id = "bench-one";
  test.mine.saveMachine(card, 0);
  card.coverGlass_s = 3600.0 * 12;
  test.other.saveMachine(card, 0);
  const ImportLine line = test.plan().lines.at(0);
  CHECK(line.status == ImportStatus::Conflict);
  REQUIRE(line.differences.size() == 1);
  const Difference& glass = line.differences.front();
  CHECK(wordsOfKey(glass.key).words == "cover glass");
  CHECK(shownValue(glass.key, glass.is) == "12 h");
  CHECK(shownValue(glass.key, glass.was) == "nothing");
}

TEST_CASE("What somebody saved between plan and import is not overwritten, and nothing is half done", "[exchange]") {
  SharedRecipe test;
  saveNext(test.other, "shared", "theirs two");
  test.other.saveRecipe(recipeNamed("another", 2));
  Coating coating = shippedLibrary().coatings.front();
  coating.id = "first-in-line";
  test.other.saveCoating(coating, 0);
  const ImportPlan plan = test.plan();
  LibraryStore desk = test.ours.open();
  saveNext(desk, "shared", "saved at the other desk");
  CHECK(troubleOf([&] { applyImport(test.mine, plan); }) == LibraryTrouble::Conflict);
  CHECK(notesOf(test.mine, "shared").back() == "saved at the other desk");
  CHECK(test.mine.recipeCount() == 1);
  for (const auto& entry : test.mine.coatings()) CHECK(entry.value.id != "first-in-line");
}

TEST_CASE("Making a plan touches nothing", "[exchange]") {
  SharedRecipe test;
  saveNext(test.other, "shared", "theirs two");
  const std::string before = test.textOf(test.mine);
  LibraryOptions options = test.ours.options();
  options.readOnly = true;
  LibraryStore reading(test.ours.path, options);
  CHECK(planImport(reading, test.fromOther()).count(ImportStatus::Continues) == 1);
  CHECK(test.textOf(test.mine) == before);
}

TEST_CASE("Of decisions those stay that still fit when the library was changed meanwhile", "[exchange]") {
  ExchangeCase test;
  for (const char* id : {"one", "two", "three"}) test.other.saveRecipe(recipeNamed(id, 4));
  test.bringIn();
  for (const char* id : {"one", "two", "three"}) {
    saveNext(test.mine, id, "mine two");
    saveNext(test.other, id, "theirs two");
  }
  const ImportPlan then = test.plan();
  const ImportDecisions decisions = decideAll(then, ImportDecision::Both);
  REQUIRE(decisions.size() == 3);
  CHECK(openConflicts(then, {}) == 3);
  CHECK(openConflicts(then, decisions) == 0);
  CHECK(stillFitting(decisions, then, planImport(test.mine, then.bundle)) == decisions);

  saveNext(test.mine, "two", "mine three");
  saveNext(test.mine, "three", "theirs two");  // somebody entered theirs by hand: nothing is left to decide
  const ImportPlan now = planImport(test.mine, then.bundle);
  const ImportDecisions fitting = stillFitting(decisions, then, now);
  CHECK(fitting == ImportDecisions{{0, ImportDecision::Both}});
  CHECK(now.lines.at(2).status == ImportStatus::Identical);
  CHECK(openConflicts(now, fitting) == 1);
}

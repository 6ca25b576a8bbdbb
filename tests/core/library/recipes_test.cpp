// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/prediction.h"
#include "core/library/recipe_json.h"
#include "tests/core/files/random_project.h"
#include "tests/core/library/library_case.h"

#include "core/assess/assess.h"

using namespace bw;
using namespace bw::test;

namespace {

/// What must come back: the version as given, with what the store fills in.
RecipeVersion expected(RecipeVersion version, int number, const std::string& time) {
  version.number = number;
  version.savedAt = time;
  return version;
}

}  // namespace

TEST_CASE("A recipe comes back as it was saved, by another store too", "[library]") {
  LibraryCase test;
  const Recipe recipe = SomeRecipes::number(4);
  SavedRecipe saved;
  {
    LibraryStore store = test.open();
    saved = store.saveRecipe(recipe);
    CHECK(saved.version == 1);
    CHECK(saved.id.size() == 36);
  }
  LibraryStore store = test.open();
  const Recipe back = store.recipe(saved.id);
  // Files hold twelve digits of a number: compared as files, nothing may be lost.
  CHECK(writeJson(back.version) == writeJson(expected(recipe.version, 1, "2026-03-01T09:00:00Z")));
  CHECK(back.state == RecipeState::Proven);
  CHECK(back.id == saved.id);
  CHECK(store.recipeIds() == std::vector<std::string>{saved.id});
}

TEST_CASE("Recipes of any content come back as they were saved", "[library]") {
  LibraryCase test;
  LibraryStore store = test.open();
  for (std::uint32_t seed = 0; seed < 60; ++seed) {
    CAPTURE(seed);
    Inventor inventor(seed);
    Project project = randomProject(seed);
    if (project.plans.empty() || project.machines.empty()) continue;
    Recipe recipe;
    recipe.version = recipeFrom(project, {}, smallLibrary());
    recipe.version.name = "seed " + std::to_string(seed);
    describe(inventor, recipe.version.predicted);
    recipe.version.extras["later"] = "{\"a\":[1,2]}";
    recipe.extras["much later"] = "null";
    const SavedRecipe saved = store.saveRecipe(recipe);
    const Recipe back = store.recipe(saved.id);
    RecipeVersion wanted = expected(recipe.version, 1, back.version.savedAt);
    CHECK(writeJson(back.version) == writeJson(wanted));
    CHECK(back.extras == recipe.extras);
  }
  CHECK(store.recipeCount() > 20);
}

TEST_CASE("Versions are added, never overwritten", "[library]") {
  LibraryCase test;
  LibraryStore store = test.open();
  Recipe recipe = SomeRecipes::number(1);
  recipe.id = store.saveRecipe(recipe).id;
  const RecipeVersion first = store.recipe(recipe.id).version;

  test.clock = day(2);
  recipe.version.number = 1;
  recipe.version.plan.settings.passes = 7;
  CHECK(store.saveRecipe(recipe).version == 2);

  const std::vector<RecipeVersion> versions = store.versions(recipe.id);
  REQUIRE(versions.size() == 2);
  CHECK(versions[0] == first);
  CHECK(versions[1].plan.settings.passes == 7);
  CHECK(versions[1].savedAt == "2026-03-03T09:00:00Z");
  CHECK(store.version(recipe.id, 1) == first);
  CHECK(store.recipe(recipe.id).version == versions[1]);
  CHECK(troubleOf([&] { store.version(recipe.id, 3); }) == LibraryTrouble::Missing);
  CHECK(troubleOf([&] { store.recipe("no such id"); }) == LibraryTrouble::Missing);
  CHECK_FALSE(store.findRecipe("no such id"));
}

TEST_CASE("A version that somebody else saved meanwhile is not overwritten", "[library]") {
  LibraryCase test;
  LibraryStore here = test.open(), there = test.open();
  Recipe recipe = SomeRecipes::number(1);
  recipe.id = here.saveRecipe(recipe).id;
  Recipe mine = here.recipe(recipe.id), theirs = there.recipe(recipe.id);
  theirs.version.note = "theirs";
  mine.version.note = "mine";
  CHECK(there.saveRecipe(theirs).version == 2);
  std::string message;
  CHECK(troubleOf([&] { here.saveRecipe(mine); }, &message) == LibraryTrouble::Conflict);
  CHECK_THAT(message, Catch::Matchers::Contains("version 2") && Catch::Matchers::Contains("nothing was overwritten"));
  CHECK(here.versions(recipe.id).size() == 2);
  CHECK(here.recipe(recipe.id).version.note == "theirs");
  CHECK(troubleOf([&] { here.setState(recipe.id, 1, RecipeState::Withdrawn, "no", "mk"); }) == LibraryTrouble::Conflict);

  Recipe imported = SomeRecipes::number(2);  // an id the library has already, but made from no version of it
  imported.id = recipe.id;
  CHECK(troubleOf([&] { here.saveRecipe(imported); }) == LibraryTrouble::Conflict);
  imported.id = "from another library";
  CHECK(here.saveRecipe(imported).id == "from another library");
}

TEST_CASE("Changes of another store are noticed, one's own are not called another's", "[library]") {
  LibraryCase test;
  LibraryStore here = test.open(), there = test.open();
  CHECK_FALSE(here.changedByOthers());
  here.saveRecipe(SomeRecipes::number(1));
  CHECK_FALSE(here.changedByOthers());
  there.saveRecipe(SomeRecipes::number(2));
  CHECK(here.changedByOthers());
  CHECK_FALSE(here.changedByOthers());
  CHECK(here.recipeCount() == 2);
  CHECK(there.recipeCount() == 2);
}

TEST_CASE("Proven takes a signed and dated trial that cleared, withdrawn a reason", "[library]") {
  LibraryCase test;
  LibraryStore store = test.open();
  Recipe recipe = SomeRecipes::number(1);
  recipe.state = RecipeState::Proven;
  CHECK(troubleOf([&] { store.saveRecipe(recipe); }) == LibraryTrouble::Refused);
  recipe.version.proof = SomeRecipes::proofOf(recipe.version);
  recipe.version.proof->initials.clear();
  recipe.version.proof->trials.front().initials.clear();
  CHECK(troubleOf([&] { store.saveRecipe(recipe); }) == LibraryTrouble::Refused);
  recipe.version.proof->trials.front().initials = "mk";
  for (const std::vector<Seen>& seen : {std::vector<Seen>{}, {Seen::Not}, {Seen::Patchy}, {Seen::Tint}}) {
    recipe.version.proof->trials.front().seen = seen;
    CHECK(troubleOf([&] { store.saveRecipe(recipe); }) == LibraryTrouble::Refused);
  }
  recipe.version.proof->trials.front().seen = {Seen::Cleared};
  const std::string id = store.saveRecipe(recipe).id;
  CHECK(store.recipe(id).state == RecipeState::Proven);

  CHECK(troubleOf([&] { store.setState(id, 1, RecipeState::Withdrawn, " ", "mk"); }) == LibraryTrouble::Refused);
  store.setState(id, 1, RecipeState::Withdrawn, "not with this beam", "mk");
  CHECK(store.recipe(id).state == RecipeState::Withdrawn);
  CHECK(store.recipe(id).reason == "not with this beam");
  CHECK(store.versions(id).size() == 1);
  const std::string draft = store.saveRecipe(SomeRecipes::number(2)).id;
  CHECK(troubleOf([&] { store.setState(draft, 1, RecipeState::Proven, "", "mk"); }) == LibraryTrouble::Refused);
}

TEST_CASE("Many changes in one go are all kept or none", "[library]") {
  LibraryCase test;
  LibraryStore store = test.open();
  store.inOneGo([&] {
    for (unsigned n = 0; n < 20; ++n) store.saveRecipe(SomeRecipes::number(n));
  });
  CHECK(store.recipeCount() == 20);
  struct Broken {};
  const auto breaking = [&] {
    store.inOneGo([&] {
      Recipe recipe = SomeRecipes::number(20);
      recipe.version.name = "quetzal";
      store.saveRecipe(recipe);
      RecipeQuery query;
      query.text = "quetzal";
      CHECK(store.find(query).total == 1);
      throw Broken();
    });
  };
  CHECK_THROWS_AS(breaking(), Broken);
  CHECK(store.recipeCount() == 20);
  RecipeQuery query;
  query.text = "quetzal";
  CHECK(store.find(query).total == 0);
  Recipe recipe = SomeRecipes::number(21);
  recipe.version.name = "quetzal too";
  store.saveRecipe(recipe);
  CHECK(store.find(query).total == 1);
  CHECK(test.open().recipeCount() == 21);
}

TEST_CASE("A go that failed in the middle keeps nothing, even where the failure was overlooked", "[library]") {
  LibraryCase test;
  test.open().saveRecipe(SomeRecipes::number(0));
  LibraryOptions options = test.options();
  options.mostPages = static_cast<int>(std::filesystem::file_size(test.path) / 4096 + 20);
  LibraryStore store(test.path, options);
  std::size_t failures = 0;
  const auto careless = [&] {
    store.inOneGo([&] {
      for (unsigned n = 1; n < 300; ++n) {
        try {
          store.saveRecipe(SomeRecipes::number(n));
        } catch (const LibraryError&) {
          ++failures;
        }
      }
    });
  };
  CHECK_THROWS_AS(careless(), LibraryError);
  CHECK(failures > 0);
  CHECK(store.recipeCount() == 1);
  CHECK(test.open().recipeCount() == 1);
}

TEST_CASE("What a project's plan names comes along into its recipe, and the recipe can be assessed", "[library]") {
  const Project sample = openProject(BAREWRIGHT_SOURCE_DIR "/sample-projects/carriage-side-panel.bwright", shippedLibrary());
  Recipe recipe;
  recipe.version = recipeFrom(sample, {}, shippedLibrary());
  CHECK(recipe.version.machines.size() == 1);
  REQUIRE(mainMachine(recipe.version));
  CHECK(recipe.version.materials.coatings.size() >= 3);
  const Assessment assessment = assess(sample, {}, shippedLibrary());
  recipe.version.predicted = predictionOf(assessment);
  CHECK(recipe.version.predicted.modelVersion == modelVersion);
  CHECK(recipe.version.predicted.numbers.at("thermal.back_C").likely == Catch::Approx(*assessment.thermal.back_C).epsilon(1e-9));

  LibraryCase test;
  LibraryStore store = test.open();
  const RecipeVersion back = store.recipe(store.saveRecipe(recipe).id).version;
  // From the recipe alone, without a shipped library, the same numbers.
  CHECK(assess(projectOf(back), {}, Library{}).thermal.back_C == assessment.thermal.back_C);
}

TEST_CASE("A kept prediction's likely value lies within its range, time and cost as well", "[library]") {
  const Project sample = openProject(BAREWRIGHT_SOURCE_DIR "/sample-projects/carriage-side-panel.bwright", shippedLibrary());
  const Prediction kept = predictionOf(inDepth(sample, shippedLibrary(), assess(sample, {}, shippedLibrary())));
  int ranges = 0;
  for (const auto& [key, number] : kept.numbers) {
    if (!number.likely || !number.low || !number.high) continue;
    CAPTURE(key);
    ++ranges;
    CHECK((*number.low <= *number.likely && *number.likely <= *number.high));
  }
  CHECK(ranges >= 8);
  CHECK(kept.numbers.at("job.total_time_s").low.has_value());
}

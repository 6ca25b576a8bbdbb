// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/carried_recipe.h"

#include "core/start/typical_machines.h"
#include "core/values/unusable.h"
#include "tests/support/catch.h"
#include "tests/support/some_recipes.h"

#include <algorithm>

using namespace bw;

TEST_CASE("A recipe on another machine is a draft of its own without the old proof", "[library][carry]") {
  for (unsigned n = 0; n < 8; ++n) {
    RecipeVersion version = test::SomeRecipes::number(n).version;
    version.number = 3;
    for (const Machine& to : typicalMachines()) {
      const CarriedRecipe carried = carriedTo(version, to);
      CHECK(carried.version.number == 0);
      CHECK_FALSE(carried.version.proof);
      CHECK(carried.version.predicted.modelVersion.empty());
      CHECK(stepsOf(carried.version.plan).front().machine == to.id);
      REQUIRE(mainMachine(carried.version));
      CHECK(*mainMachine(carried.version) == to);
      CHECK(carried.version.part == version.part);
      CHECK(carried.version.coat == version.coat);
      CHECK_FALSE(carried.carried.empty());
      CHECK(carried.version.note.find("not proven") != std::string::npos);
    }
  }
}

TEST_CASE("Steps on a further machine stay on it, and a recipe without its machine is refused", "[library][carry]") {
  RecipeVersion version = test::SomeRecipes::number(0).version;
  const std::vector<Machine> machines = typicalMachines();
  REQUIRE(machines.size() >= 2);
  Step bulk = stepsOf(version.plan).front(), fine = bulk;
  Machine second = *mainMachine(version);
  second.id = "second";
  fine.machine = second.id;
  version.plan.steps = {bulk, fine};
  version.machines.push_back(second);
  const CarriedRecipe carried = carriedTo(version, machines.front());
  CHECK(carried.version.plan.steps[0].machine == machines.front().id);
  CHECK(carried.version.plan.steps[1] == fine);
  CHECK(std::ranges::find(carried.version.machines, second.id, &Machine::id) != carried.version.machines.end());

  version.machines.clear();
  CHECK_THROWS_AS(carriedTo(version, machines.front()), Unusable);
}

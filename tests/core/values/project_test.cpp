// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/values/project.h"

#include "tests/support/catch.h"

using namespace bw;

TEST_CASE("A plan without steps is one step with its own machine and settings", "[values]") {
  Plan plan;
  plan.name = "first guess";
  plan.machine = "bench-300";
  plan.settings.passes = 3;
  const auto steps = stepsOf(plan);
  REQUIRE(steps.size() == 1);
  CHECK(steps[0].machine == "bench-300");
  CHECK(steps[0].settings.passes == 3);
}

TEST_CASE("A machine is found by its id, an unknown one is not", "[values]") {
  Project project;
  project.machines.resize(2);
  project.machines[1].id = "b";
  CHECK(findMachine(project, "b") == &project.machines[1]);
  CHECK(findMachine(project, "c") == nullptr);
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/shop_stock.h"

#include "core/files/project_file.h"
#include "core/start/start_project.h"
#include "core/start/typical_machines.h"
#include "tests/core/library/library_case.h"

using namespace bw;
using namespace bw::test;

namespace {

ShopMachine cardOf(const Machine& machine, int revision = 1) { return {machine, "a library", revision}; }

Machine shedMachine() {
  Machine machine = machineLike(MachineKind::Pulsed, 250, 1e-4);
  machine.id = "own-shed";
  machine.name = "shed machine";
  return machine;
}

/// A project that holds a copy of the card.
Project projectWith(const ShopMachine& card) {
  Project project = startProject({}, shippedLibrary());
  const TakenMachine taken = takenInto(project, card);
  project.machines.push_back(taken.machine);
  project.machineOrigins.push_back(taken.origin);
  project.plans[0].machine = taken.machine.id;
  return project;
}

}  // namespace

TEST_CASE("The stock is the shop's own machines, not the shipped ones", "[library][stock]") {
  LibraryCase shop;
  LibraryStore store(shop.path, shop.options());
  CHECK(stockOf(store).machines.empty());
  MachineCard card;
  card.machine = shedMachine();
  store.saveMachine(card, 0);
  card.machine = typicalMachines()[1];
  card.machine.M2 = 2;
  store.saveMachine(card, 0);
  const ShopStock stock = stockOf(store);
  REQUIRE(stock.machines.size() == 2);
  for (const ShopMachine& machine : stock.machines) {
    CHECK(machine.library == store.libraryId());
    CHECK(machine.revision == 1);
  }
}

TEST_CASE("A card whose id and name the project has already is copied beside it", "[library][stock]") {
  Project project = startProject({}, shippedLibrary());
  REQUIRE(project.machines.at(0).id == "typical-300");
  Machine own = project.machines[0];
  own.M2 = 2.2;
  const TakenMachine taken = takenInto(project, cardOf(own));
  CHECK(taken.machine.id == "typical-300-2");
  CHECK(taken.machine.name == "300 W pulsed (2)");
  CHECK(taken.machine.M2 == 2.2);
  CHECK(taken.origin.machine == "typical-300-2");
  CHECK(taken.origin.card == "typical-300");
  project.machines.push_back(taken.machine);
  project.machineOrigins.push_back(taken.origin);
  CHECK(validate(project, shippedLibrary()).empty());
  CHECK(takenInto(project, cardOf(own)).machine.id == "typical-300-3");
}

TEST_CASE("A machine that is the card's already is its copy", "[library][stock]") {
  const Project project = startProject({}, shippedLibrary());
  const TakenMachine taken = takenInto(project, cardOf(project.machines.at(0)));
  CHECK(taken.machine == project.machines[0]);
  CHECK(taken.origin.machine == project.machines[0].id);
}

TEST_CASE("A changed card is offered with what differs, once for each version that is declined", "[library][stock]") {
  ShopMachine card = cardOf(shedMachine());
  Project project = projectWith(card);
  CHECK(copyOf(project, card));
  CHECK(machineUpdates(project, {card}).empty());
  card.revision = 2;  // only the card's notes were changed
  CHECK(machineUpdates(project, {card}).empty());
  card.revision = 3;
  card.machine.spotDiameter_m = 1.3e-4;
  const auto updates = machineUpdates(project, {card});
  REQUIRE(updates.size() == 1);
  REQUIRE(updates[0].changes.size() == 1);
  CHECK(updates[0].changes[0].key == "spot_diameter_um");

  const Project kept = declined(project, updates[0]);
  CHECK(findMachine(kept, "own-shed")->spotDiameter_m == 1e-4);
  CHECK(machineUpdates(kept, {card}).empty());
  CHECK_FALSE(copyOf(kept, card));  // the new one can still be chosen, beside the copy
  card.revision = 4;
  card.machine.spotDiameter_m = 1.4e-4;
  CHECK(machineUpdates(kept, {card}).size() == 1);

  const Project taken = updated(kept, machineUpdates(kept, {card})[0]);
  CHECK(findMachine(taken, "own-shed")->spotDiameter_m == 1.4e-4);
  CHECK(machineUpdates(taken, {card}).empty());
  CHECK(copyOf(taken, card));
}

TEST_CASE("A card of another library with the same id is another machine", "[library][stock]") {
  const ShopMachine card = cardOf(shedMachine());
  const Project project = projectWith(card);
  ShopMachine other = card;
  other.library = "another";
  other.revision = 7;
  other.machine.M2 = 3;
  CHECK_FALSE(copyOf(project, other));
  CHECK(machineUpdates(project, {other}).empty());
}

TEST_CASE("A machine that became of another kind begins with a first guess, one with fewer optics goes without", "[library][stock]") {
  ShopMachine card = cardOf(shedMachine());
  Optic optic;
  optic.id = "narrow";
  card.machine.optics = {optic};
  Project project = projectWith(card);
  Step step;
  step.name = "bulk";
  step.machine = "own-shed";
  step.optic = "narrow";
  step.settings = project.plans[0].settings;
  project.plans.push_back(project.plans[0]);
  project.plans[1].name = "steps";
  project.plans[1].steps = {step};
  card.revision = 2;
  card.machine = machineLike(MachineKind::Continuous, 1500, 4e-4);
  card.machine.id = "own-shed";
  const Project now = updated(project, machineUpdates(project, {card}).at(0));
  CHECK(now.machines.back().kind == MachineKind::Continuous);
  CHECK(now.plans[0].settings.pattern == Pattern::Line);
  CHECK_FALSE(now.plans[1].steps[0].optic);
  CHECK(validate(now, shippedLibrary()).empty());
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/start/first_guess.h"
#include "core/start/typical_machines.h"
#include "tests/core/assess/ailing.h"
#include "tests/support/catch.h"

using namespace bw;
using namespace bw::test;

TEST_CASE("Passes that a change makes needless are not kept", "[assess]") {
  Project project = varied(ailing()[5]);  // pulses too weak
  project.part.finish = Finish::Any;
  project.part.limits.clear();
  settingsOf(project).passes = 40;
  const Assessment now = assessed(project);
  REQUIRE_FALSE(now.removal.passesNeeded);
  const auto remedies = findRemedies(project, now, shippedLibrary());
  const auto found = std::ranges::find(remedies, "removal", &Remedy::check);
  REQUIRE(found != remedies.end());
  REQUIRE(found->outcome->removal.passesNeeded);
  CHECK(found->settings.passes == *found->outcome->removal.passesNeeded);
  CHECK(found->label.find("instead of 40") != std::string::npos);
}

TEST_CASE("Where no setting helps a machine that the project does not have is offered, and comes with the remedy", "[assess]") {
  Project project = smallProject();
  project.part.finish = Finish::Any;
  project.part.limits.clear();
  project.machines[0].ratedPower_W = 0.5;
  project.machines[0].maxPulseEnergy_J = {1e-6};
  const Assessment now = assessed(project);
  REQUIRE(rowOf(now, "removal").status == Status::Fails);
  const auto forRemoval = [&](const std::vector<MachineOffer>& others) {
    auto remedies = findRemedies(project, now, shippedLibrary(), {}, others);
    std::erase_if(remedies, [](const Remedy& remedy) { return remedy.check != "removal"; });
    return remedies;
  };
  CHECK(forRemoval({}).empty());
  const auto remedies = forRemoval(typicalOffers());
  REQUIRE_FALSE(remedies.empty());
  REQUIRE(remedies.front().newMachine);
  CHECK(remedies.front().machine == remedies.front().newMachine->id);

  Machine own = typicalMachines().front();
  own.id = "shop-1";
  own.name = "bench machine";
  const auto withOwn = forRemoval(typicalOffers({own}));
  REQUIRE_FALSE(withOwn.empty());
  CHECK(std::ranges::any_of(withOwn,
                            [](const Remedy& remedy) { return remedy.label.find("the shop's bench machine") != std::string::npos; }));
  CHECK(rowOf(*remedies.front().outcome, "removal").status != Status::Fails);
}

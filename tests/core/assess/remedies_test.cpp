// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/settings_change.h"
#include "core/files/assessment_file.h"
#include "core/start/first_guess.h"
#include "core/start/typical_machines.h"
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"
#include "tests/support/thorough.h"

using namespace bw;
using namespace bw::test;

namespace {

/// Projects that have something to mend.
std::vector<Variation> ailing() {
  return {
      {"too few passes",
       [](Project& p) {
         p.coat.resize(1);
         p.coat[0].thickness_m = Range::exact(200e-6);
       }},
      {"uneven edges", [](Project& p) { settingsOf(p).stepOver_m = 5.9e-3; }},
      {"too hot",
       [](Project& p) {
         p.part.limits = {{"back_face_C", 30}};
       }},
      {"melting",
       [](Project& p) {
         p.part.finish = Finish::Untouched;
         settingsOf(p).repetitionRate_Hz = 200e3;
       }},
      {"beyond the machine",
       [](Project& p) {
         settingsOf(p).scanSpeed_m_s = 20;
         settingsOf(p).powerFraction = 1.5;
       }},
      {"pulses too weak",
       [](Project& p) {
         settingsOf(p).repetitionRate_Hz = 800e3;
         settingsOf(p).powerFraction = 0.2;
       }},
  };
}

}  // namespace

TEST_CASE("A remedy betters its row, and taking it gives what it promised", "[assess]") {
  std::size_t offered = 0;
  for (const Variation& variation : sampled(ailing(), 6)) {
    const Project project = varied(variation);
    const Assessment now = assessed(project);
    const std::vector<Remedy> remedies = findRemedies(project, now, shippedLibrary());
    offered += remedies.size();
    for (const Remedy& remedy : remedies) {
      CAPTURE(variation.name, remedy.label, remedy.effect);
      REQUIRE(remedy.outcome);
      CHECK(severity(rowOf(*remedy.outcome, remedy.check).status) < severity(rowOf(now, remedy.check).status));
      CHECK(rowOf(*remedy.outcome, remedy.check).status != Status::NotKnown);
      CHECK_FALSE(remedy.settings == project.plans[0].settings);
      CHECK_FALSE(remedy.label.empty());
      CHECK(remedy.effect.substr(0, 1) != ",");
    }
    if (remedies.empty()) continue;
    const Remedy& best = remedies.front();
    const Assessment taken = assessed(withSettings(project, now.plan, best.settings));
    CHECK(writeAssessment(taken) == writeAssessment(*best.outcome));
  }
  CHECK(offered >= (thorough() ? 5 : 2));
}

TEST_CASE("Passes that are missing, settings beyond the machine: there is a remedy", "[assess]") {
  using Expected = std::pair<std::size_t, std::string>;
  for (const auto& [which, check] : sampled(std::vector{Expected{0, "removal"}, Expected{4, "machine"}}, 2, 1)) {
    const Project project = varied(ailing()[which]);
    const Assessment now = assessed(project);
    REQUIRE(rowOf(now, check).status == Status::Fails);
    const auto remedies = findRemedies(project, now, shippedLibrary());
    CHECK(std::ranges::any_of(remedies, [&](const Remedy& remedy) { return remedy.check == check; }));
  }
}

TEST_CASE("Nothing to mend, no remedy", "[assess]") {
  Project project = smallProject();
  project.coat.clear();
  project.part.finish = Finish::Any;
  project.part.limits = {{"back_face_C", 150}};
  settingsOf(project).powerFraction = 0.02;
  settingsOf(project).beamOffInTurns = true;
  settingsOf(project).stepOver_m = 1.5e-3;
  // Two lines' spacing of advance for each line drawn: frames lie three deep on every place.
  const Settings& s = settingsOf(project);
  settingsOf(project).travelSpeed_m_s = s.lineSpacing_m / (s.width_m / s.scanSpeed_m_s + project.machines[0].scan.turnaround_s) / 2;
  const Assessment now = assessed(project);
  for (const char* check : {"removal", "evenness", "temperature", "finish", "machine"}) {
    CAPTURE(check, rowOf(now, check).message);
    CHECK(rowOf(now, check).status == Status::Meets);
  }
  CHECK(findRemedies(project, now, shippedLibrary()).empty());
}

TEST_CASE("Settings go into the first step, or into the plan without steps", "[assess]") {
  Project project = smallProject();
  Settings changed = settingsOf(project);
  changed.passes = 7;
  CHECK(withSettings(project, "first guess", changed).plans[0].settings.passes == 7);
  CHECK(withSettings(project, "no such plan", changed) == project);
  Step bulk;
  bulk.settings = settingsOf(project);
  project.plans[0].steps = {bulk, bulk};
  const Project after = withSettings(project, "first guess", changed);
  CHECK(after.plans[0].steps[0].settings.passes == 7);
  CHECK(after.plans[0].steps[1].settings.passes == bulk.settings.passes);
  CHECK(after.plans[0].settings == project.plans[0].settings);
}

TEST_CASE("A plan that is enough for the likely job only is offered enough for the unlikely one", "[assess]") {
  Project project = smallProject();
  project.coat.resize(1);
  project.coat[0].coating = "alkyd-dark";
  project.coat[0].thickness_m = {20e-6, 60e-6, 300e-6};
  project.part.finish = Finish::Any;
  project.part.limits.clear();
  const auto needed = assessed(project).removal.passesNeeded;
  REQUIRE(needed);
  settingsOf(project).passes = *needed;
  const Assessment shown = inDepth(project, shippedLibrary(), assessed(project));
  REQUIRE(shown.ranges->passesNeeded.high > *needed);
  REQUIRE(rowOf(shown, "removal").status == Status::Near);
  const auto remedies = findRemedies(project, shown, shippedLibrary());
  const auto found = std::ranges::find(remedies, "removal", &Remedy::check);
  REQUIRE(found != remedies.end());
  CHECK(found->settings.passes == static_cast<int>(shown.ranges->passesNeeded.high));
  CHECK(found->effect.find("19 of 20") != std::string::npos);
}

namespace {

int failingIn(const Assessment& assessment) {
  return static_cast<int>(std::ranges::count(assessment.verdict, Status::Fails, &VerdictRow::status));
}

/// Too hot for what is behind it, and striped.
Project hotAndUneven() {
  Project project = smallProject();
  project.part.finish = Finish::Any;
  project.coat.resize(1);
  project.coat[0].coating = "alkyd-dark";
  project.coat[0].thickness_m = Range::exact(20e-6);
  settingsOf(project).stepOver_m = 6.3e-3;
  settingsOf(project).passes = 4;
  project.part.limits = {{"back_face_C", *assessed(project).thermal.back_C - 4}};
  return project;
}

}  // namespace

TEST_CASE("No remedy makes a check fail that did not", "[assess]") {
  for (const Variation& variation : sampled(ailing(), 6, 2)) {
    const Project project = varied(variation);
    const Assessment now = assessed(project);
    for (const Remedy& remedy : findRemedies(project, now, shippedLibrary(), {}, typicalOffers()))
      for (const VerdictRow& row : remedy.outcome->verdict) {
        CAPTURE(variation.name, remedy.label, row.check);
        if (rowOf(now, row.check).status != Status::Fails) CHECK(row.status != Status::Fails);
      }
  }
}

TEST_CASE("A hand that stands still is offered a travel that works, in one step", "[assess]") {
  Project project = smallProject();
  project.part.finish = Finish::Any;
  settingsOf(project).travelSpeed_m_s = 0;
  const Assessment now = assessed(project);
  REQUIRE(failingIn(now) > 0);
  const auto remedies = findRemedies(project, now, shippedLibrary());
  REQUIRE_FALSE(remedies.empty());
  const Remedy& best = remedies.front();
  CAPTURE(best.label, best.effect);
  CHECK(best.settings.travelSpeed_m_s > 0);
  CHECK(best.label.find("Travel") == 0);
  CHECK(rowOf(*best.outcome, "removal").status != Status::Fails);
  CHECK(failingIn(*best.outcome) < failingIn(now));
}

TEST_CASE("Where one change is not enough two together are offered, the one that mends most first", "[assess]") {
  const Project project = hotAndUneven();
  const Assessment now = assessed(project);
  REQUIRE(failingIn(now) >= 2);
  const auto remedies = findRemedies(project, now, shippedLibrary());
  REQUIRE_FALSE(remedies.empty());
  for (const Remedy& remedy : remedies) CHECK(failingIn(*remedies.front().outcome) <= failingIn(*remedy.outcome));
  CAPTURE(remedies.front().label, remedies.front().effect);
  CHECK(failingIn(*remedies.front().outcome) == 0);
  CHECK(remedies.front().label.find("; ") != std::string::npos);
  const Assessment taken = assessed(withSettings(project, now.plan, remedies.front().settings));
  CHECK(writeAssessment(taken) == writeAssessment(*remedies.front().outcome));
  const auto again = findRemedies(project, now, shippedLibrary());
  REQUIRE(again.size() == remedies.size());
  for (std::size_t i = 0; i < again.size(); ++i) CHECK(again[i].label == remedies[i].label);
}

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

TEST_CASE("Spare passes that were planned stay spare", "[assess]") {
  Project project = hotAndUneven();
  const int spare = settingsOf(project).passes - *assessed(project).removal.passesNeeded;
  REQUIRE(spare > 0);
  for (const Remedy& remedy : findRemedies(project, assessed(project), shippedLibrary())) {
    CAPTURE(remedy.label);
    CHECK(remedy.settings.passes - *remedy.outcome->removal.passesNeeded == spare);
  }
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

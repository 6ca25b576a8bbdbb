// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/settings_change.h"
#include "core/files/assessment_file.h"
#include "core/start/first_guess.h"
#include "core/start/typical_machines.h"
#include "tests/core/assess/ailing.h"
#include "tests/support/catch.h"
#include "tests/support/thorough.h"

using namespace bw;
using namespace bw::test;

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

TEST_CASE("Spare passes that were planned stay spare", "[assess]") {
  Project project = hotAndUneven();
  const int spare = settingsOf(project).passes - *assessed(project).removal.passesNeeded;
  REQUIRE(spare > 0);
  for (const Remedy& remedy : findRemedies(project, assessed(project), shippedLibrary())) {
    CAPTURE(remedy.label);
    CHECK(remedy.settings.passes - *remedy.outcome->removal.passesNeeded == spare);
  }
}

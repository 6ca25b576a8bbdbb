// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/settings_change.h"
#include "core/files/assessment_file.h"
#include "tests/core/assess/ailing.h"
#include "tests/support/catch.h"
#include "tests/support/thorough.h"

using namespace bw;
using namespace bw::test;

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

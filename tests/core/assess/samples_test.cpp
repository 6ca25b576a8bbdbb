// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/settings_change.h"
#include "core/start/first_guess.h"
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"
#include "tests/support/thorough.h"

#include <filesystem>
#include <map>

using namespace bw;
using namespace bw::test;

namespace {

Project sampleNamed(const std::string& name) {
  return openProject(std::string(BAREWRIGHT_SOURCE_DIR) + "/sample-projects/" + name + ".bwright", shippedLibrary());
}

/// A plan of a sample, looked into in depth.
Assessment planInDepth(const std::string& sample, const std::string& plan) {
  const Project project = sampleNamed(sample);
  return inDepth(project, shippedLibrary(), assess(project, plan, shippedLibrary()));
}

bool says(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

/// Another way by name, with what it takes and what the plan takes, and where the figures come from.
void checkOtherWay(const std::string& message, const std::string& way) {
  CAPTURE(message);
  CHECK(says(message, "Another way"));
  CHECK(says(message, way));
  CHECK(says(message, "of work"));
  CHECK(says(message, "This plan"));
  CHECK(says(message, "EUR"));
  CHECK(says(message, "common practice, no source"));
}

}  // namespace

TEST_CASE("Sample plans that are named mended meet every limit", "[assess][samples]") {
  int mended = 0;
  for (const auto& file : std::filesystem::directory_iterator(std::string(BAREWRIGHT_SOURCE_DIR) + "/sample-projects")) {
    const std::string sample = file.path().stem().string();
    for (const Plan& plan : sampleNamed(sample).plans) {
      if (!plan.name.starts_with("mended")) continue;
      ++mended;
      for (const VerdictRow& row : planInDepth(sample, plan.name).verdict) {
        CAPTURE(sample, plan.name, row.check, row.message);
        // The model's own word on flatness goes no further than near limit; on air and eyes it says no more than that either, or what is
        // to be tested first because nobody knows what is in the old paint.
        const bool atMostNear = row.check == "flatness" || row.check == "safety";
        const bool mayBeUnknown = row.check == "safety" && says(row.message, "Test before the beam is on");
        CHECK((row.status == Status::Meets || (atMostNear && row.status == Status::Near) ||
               (mayBeUnknown && row.status == Status::NotKnown)));
        CHECK_FALSE(says(row.message, "No extraction is planned"));
      }
    }
  }
  CHECK(mended >= 2);
}

TEST_CASE("Carriage side panel: the pale layers stall, the turnarounds burn stripes, the far side is too hot", "[assess][samples]") {
  const Assessment first = planInDepth("carriage-side-panel", "first guess");
  CHECK(rowOf(first, "removal").status == Status::Fails);
  CHECK(rowOf(first, "evenness").status == Status::Fails);
  CHECK(rowOf(first, "temperature").status == Status::Fails);
}

TEST_CASE("Lamp-iron bracket: it never clears as set, and another way is named with a number for both", "[assess][samples]") {
  const Assessment first = planInDepth("lamp-iron-bracket", "as set");
  CHECK(rowOf(first, "removal").status == Status::Fails);
  checkOtherWay(rowOf(first, "removal").message, "abrasive blasting");
  CHECK(says(rowOf(first, "removal").message, "Another way is cheaper"));
  const Assessment strong = planInDepth("lamp-iron-bracket", "strong pulses");
  const VerdictRow& row = rowOf(strong, rowOf(strong, "removal").status == Status::Fails ? "removal" : "time");
  checkOtherWay(row.message, "abrasive blasting");
  CHECK(says(row.message, "Another way is cheaper"));
}

TEST_CASE("Luggage-rack bracket: one slow stroke leaves residue, the mended plan comes clean", "[assess][samples]") {
  const VerdictRow slow = rowOf(planInDepth("luggage-rack-bracket", "one slow stroke"), "removal");
  CAPTURE(slow.message);
  CHECK(slow.status == Status::Fails);
  CHECK(says(slow.message, "residue"));
}

TEST_CASE("Water-tank lid: lose the zinc, or patience, or solvent", "[assess][samples]") {
  const Assessment quick = planInDepth("water-tank-lid", "strip it");
  CHECK(rowOf(quick, "removal").status == Status::Fails);
  CHECK(says(rowOf(quick, "removal").message, "\"zinc\" should stay"));
  checkOtherWay(rowOf(quick, "removal").message, "solvent");
  const Project lid = sampleNamed("water-tank-lid");
  const Assessment patient = assess(lid, "wide spot and patience", shippedLibrary());  // in depth it takes a minute
  CHECK(rowOf(patient, "removal").status != Status::Fails);
  CHECK(*patient.job.totalTime_s > 3 * *quick.job.totalTime_s);
  checkOtherWay(rowOf(patient, "time").message, "solvent");
}

TEST_CASE("Lamp bezel: not with this beam, and why", "[assess][samples]") {
  const Assessment gentle = planInDepth("lamp-bezel", "gentle try");
  CAPTURE(gentle.answer);
  CHECK(says(gentle.answer, "Not with this beam"));
  CHECK(says(gentle.answer, "the machine needs"));
  CHECK(rowOf(gentle, "finish").status == Status::Fails);
  checkOtherWay(rowOf(gentle, "finish").message, "solvent");
  CHECK(rowOf(gentle, "removal").remedy == "Another way than this beam.");  // no passes help
}

namespace {

/// The best change is taken again and again, as the band over the example does it.
Project fixedStepByStep(Project project, int most) {
  for (int step = 0; step < most; ++step) {
    const Assessment now = assess(project, "first guess", shippedLibrary());
    if (std::ranges::count(now.verdict, Status::Fails, &VerdictRow::status) == 0) return project;
    const auto remedies = findRemedies(project, now, shippedLibrary(), {}, typicalOffers());
    REQUIRE_FALSE(remedies.empty());
    const Remedy& best = remedies.front();
    UNSCOPED_INFO(best.label << ": " << best.effect);
    if (best.newMachine) project.machines.push_back(*best.newMachine);
    project =
        best.machine.empty() ? withSettings(project, now.plan, best.settings) : onMachine(project, now.plan, best.machine, best.settings);
  }
  return project;
}

}  // namespace

TEST_CASE("The first sample, fixed step by step, ends with nothing that fails", "[assess][samples]") {
  if (!thorough()) return;  // minutes
  const Project fixed = fixedStepByStep(sampleProject(), 5);
  const Assessment now = assess(fixed, "first guess", shippedLibrary());
  for (const VerdictRow& row : now.verdict) {
    CAPTURE(row.check, row.message);
    CHECK(row.status != Status::Fails);
  }
}

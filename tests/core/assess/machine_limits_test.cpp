// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/machine_limits.h"

#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"

using namespace bw;
using namespace bw::test;

namespace {

std::vector<MachineFinding> findings(const Project& project) {
  return machineFindings(project, project.machines[0], project.plans[0].settings);
}

struct Row {
  Variation variation;
  Status status;
  std::string word;
  bool mendable = true;  // by turning the settings down
};

const Row rows[] = {
    {{"power", [](Project& p) { settingsOf(p).powerFraction = 1.2; }}, Status::Fails, "Power"},
    {{"duty", [](Project& p) { settingsOf(p).dutyFraction = 1.2; }}, Status::Fails, "Duty"},
    {{"rate high", [](Project& p) { settingsOf(p).repetitionRate_Hz = 900e3; }}, Status::Fails, "Repetition rate"},
    {{"rate low", [](Project& p) { settingsOf(p).repetitionRate_Hz = 5e3; settingsOf(p).powerFraction = 0.01; }},
     Status::Fails,
     "Repetition rate"},
    {{"duration", [](Project& p) { settingsOf(p).pulseDuration_s = 100e-9; }}, Status::Fails, "pulse duration"},
    {{"ceiling", [](Project& p) { settingsOf(p).repetitionRate_Hz = 100e3; }}, Status::Near, "greatest energy", false},
    {{"width", [](Project& p) { settingsOf(p).width_m = 0.081; }}, Status::Fails, "Frame width"},
    {{"height", [](Project& p) { settingsOf(p).height_m = 0.051; }}, Status::Fails, "Frame height"},
    {{"one axis", [](Project& p) { p.machines[0].scan.axes = 1; }}, Status::Fails, "one axis"},
    {{"scan speed", [](Project& p) { settingsOf(p).scanSpeed_m_s = 15.1; }}, Status::Fails, "Scan speed"},
    {{"sine's top speed", [](Project& p) { settingsOf(p).pattern = Pattern::Sine; settingsOf(p).oscillationRate_Hz = 800; }},
     Status::Fails,
     "Scan speed"},
    {{"spacing", [](Project& p) { settingsOf(p).lineSpacing_m = 3e-3; }}, Status::Fails, "line spacing", false},
    {{"cold shop", [](Project& p) { p.part.ambientTemperature_C = 3; }}, Status::Fails, "shop", false},
    {{"cold site", [](Project& p) { p.site = Site{}; p.site->ambient_C = 3; }}, Status::Fails, "shop", false},
    {{"supply", [](Project& p) { p.site = Site{}; p.site->supply_W = 1000; }}, Status::Fails, "supply", false},
};

}  // namespace

TEST_CASE("Within its limits nothing is found wrong with the machine", "[assess]") {
  for (const Project& project : {exampleProject(), sampleProject(), smallProject()}) CHECK(findings(project).empty());
  Project atLimit = smallProject();
  Settings& s = settingsOf(atLimit);
  s.powerFraction = 1;
  s.repetitionRate_Hz = 800e3;
  s.width_m = 0.08;
  s.height_m = 0.05;
  s.scanSpeed_m_s = 15;
  CHECK(findings(atLimit).empty());
}

TEST_CASE("Each limit of the machine has its finding", "[assess]") {
  for (const Row& row : rows) {
    const auto found = findings(varied(row.variation));
    CAPTURE(row.variation.name);
    REQUIRE(found.size() == 1);
    CHECK(found[0].status == row.status);
    CHECK(found[0].message.find(row.word) != std::string::npos);
  }
}

TEST_CASE("Settings are brought within the machine without touching the rest", "[assess]") {
  for (const Row& row : rows) {
    if (!row.mendable) continue;
    Project project = varied(row.variation);
    const Settings before = settingsOf(project);
    settingsOf(project) = withinMachine(project.machines[0], before);
    CAPTURE(row.variation.name);
    CHECK(findings(project).empty());
    CHECK(settingsOf(project).travelSpeed_m_s == before.travelSpeed_m_s);
    CHECK(settingsOf(project).stepOver_m == before.stepOver_m);
  }
  const Project fine = smallProject();
  CHECK(withinMachine(fine.machines[0], fine.plans[0].settings) == fine.plans[0].settings);
}

TEST_CASE("The verdict's row takes over the machine's findings", "[assess]") {
  for (const Row& row : rows) {
    const VerdictRow verdict = rowOf(assessed(varied(row.variation)), "machine");
    CAPTURE(row.variation.name);
    CHECK(verdict.status == row.status);
    CHECK(verdict.message.find(row.word) != std::string::npos);
  }
}

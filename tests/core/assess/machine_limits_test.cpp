// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/machine_limits.h"

#include "core/values/unusable.h"
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"

#include <cmath>
#include <random>

using namespace bw;
using namespace bw::test;

namespace {

std::vector<MachineFinding> findings(const Project& project) {
  return machineFindings(project, project.machines[0], project.plans[0].settings);
}

/// Another pattern, by an ideal head so that nothing is said about tight circles.
Settings& draw(Project& project, Pattern pattern) {
  project.machines[0].scan.turnaround_s = 0;
  settingsOf(project).pattern = pattern;
  settingsOf(project).oscillationRate_Hz = 300;
  return settingsOf(project);
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
    {{"rate low",
      [](Project& p) {
        settingsOf(p).repetitionRate_Hz = 5e3;
        settingsOf(p).powerFraction = 0.01;
      }},
     Status::Fails,
     "Repetition rate"},
    {{"duration", [](Project& p) { settingsOf(p).pulseDuration_s = 100e-9; }}, Status::Fails, "pulse duration"},
    {{"ceiling", [](Project& p) { settingsOf(p).repetitionRate_Hz = 100e3; }}, Status::Near, "greatest energy", false},
    {{"width", [](Project& p) { settingsOf(p).width_m = 0.081; }}, Status::Fails, "Frame width"},
    {{"height", [](Project& p) { settingsOf(p).height_m = 0.051; }}, Status::Fails, "Frame height"},
    {{"one axis", [](Project& p) { p.machines[0].scan.axes = 1; }}, Status::Fails, "one axis"},
    {{"scan speed", [](Project& p) { settingsOf(p).scanSpeed_m_s = 15.1; }}, Status::Fails, "Scan speed"},
    {{"sine's top speed",
      [](Project& p) {
        settingsOf(p).pattern = Pattern::Sine;
        settingsOf(p).oscillationRate_Hz = 800;
      }},
     Status::Fails,
     "would do is 795 Hz"},
    {{"spacing", [](Project& p) { settingsOf(p).lineSpacing_m = 3e-3; }}, Status::Fails, "the largest that would do is 2 mm"},
    {{"spacing of crossed lines",
      [](Project& p) {
        draw(p, Pattern::Crossed).lineSpacing_m = 1.5e-3;
        settingsOf(p).width_m = 1e-3;
      }},
     Status::Fails,
     "the largest that would do is 1 mm"},
    {{"spacing of circles", [](Project& p) { draw(p, Pattern::Circles).lineSpacing_m = 3.1e-3; }},
     Status::Fails,
     "radius: the largest that would do is 3 mm"},
    {{"spacing of a spiral", [](Project& p) { draw(p, Pattern::Spiral).lineSpacing_m = 3.1e-3; }},
     Status::Fails,
     "radius: the largest that would do is 3 mm"},
    {{"spacing of two swings", [](Project& p) { draw(p, Pattern::TwoSine).lineSpacing_m = 3e-3; }},
     Status::Fails,
     "the largest that would do is 2 mm"},
    {{"circles wider than the head is high", [](Project& p) { draw(p, Pattern::Circles).width_m = 0.06; }},
     Status::Fails,
     "50 mm on both axes"},
    {{"spiral wider than the head is high", [](Project& p) { draw(p, Pattern::Spiral).width_m = 0.06; }},
     Status::Fails,
     "50 mm on both axes"},
    {{"two swings too high", [](Project& p) { draw(p, Pattern::TwoSine).height_m = 0.06; }}, Status::Fails, "Frame height"},
    {{"circles on one axis",
      [](Project& p) {
        draw(p, Pattern::Circles);
        p.machines[0].scan.axes = 1;
      }},
     Status::Fails,
     "one axis"},
    {{"two swings on one axis",
      [](Project& p) {
        draw(p, Pattern::TwoSine);
        p.machines[0].scan.axes = 1;
      }},
     Status::Fails,
     "one axis"},
    {{"speed on circles", [](Project& p) { draw(p, Pattern::Circles).scanSpeed_m_s = 15.1; }}, Status::Fails, "Scan speed"},
    {{"two swings' top speed", [](Project& p) { draw(p, Pattern::TwoSine).oscillationRate_Hz = 900; }},
     Status::Fails,
     "would do is 795 Hz"},
    {{"circles too tight",
      [](Project& p) {
        draw(p, Pattern::Circles);
        p.machines[0].scan.turnaround_s = 250e-6;
      }},
     Status::Near,
     "Tighter than a radius of 1.1 mm the head cannot follow at 9 m/s",
     false},
    {{"spiral too tight",
      [](Project& p) {
        draw(p, Pattern::Spiral);
        p.machines[0].scan.turnaround_s = 250e-6;
      }},
     Status::Near,
     "Tighter than a radius of 1.1 mm",
     false},
    {{"trimmed circles", [](Project& p) { draw(p, Pattern::Circles).edgeTrim_m = 1e-4; }}, Status::Near, "no line ends", false},
    {{"trimmed spiral", [](Project& p) { draw(p, Pattern::Spiral).edgeTrim_m = 1e-4; }}, Status::Near, "no line ends", false},
    {{"narrower than the spot", [](Project& p) { settingsOf(p).width_m = 1e-4; }}, Status::Near, "narrower than the spot", false},
    {{"lower than the spot", [](Project& p) { settingsOf(p).height_m = 1e-4; }}, Status::Near, "lower than the spot", false},
    {{"lower than the spot out of focus",
      [](Project& p) {
        settingsOf(p).height_m = 1.4e-4;
        settingsOf(p).focusOffset_m = 10e-3;
      }},
     Status::Near,
     "lower than the spot",
     false},
    {{"cold shop", [](Project& p) { p.part.ambientTemperature_C = 3; }}, Status::Fails, "shop", false},
    {{"cold site",
      [](Project& p) {
        p.site = Site{};
        p.site->ambient_C = 3;
      }},
     Status::Fails,
     "shop",
     false},
    {{"supply",
      [](Project& p) {
        p.site = Site{};
        p.site->supply_W = 1000;
      }},
     Status::Fails,
     "supply",
     false},
    {{"generator",
      [](Project& p) {
        p.site = Site{};
        p.site->supply_W = 1000;
        p.site->generator = true;
      }},
     Status::Fails,
     "generator",
     false},
    {{"dew",
      [](Project& p) {
        p.site = Site{};
        p.site->humidity = 0.8;
        p.part.startTemperature_C = 10;  // in air of 20 degrees, which wets it from 16 down
      }},
     Status::Near,
     "wets it",
     false},
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
  constexpr std::size_t every = 5;  // an assessment takes longer than a finding; what is found is for the cases before
  for (std::size_t i = 0; i < std::size(rows); i += every) {
    const Row& row = rows[i];
    const VerdictRow verdict = rowOf(assessed(varied(row.variation)), "machine");
    CAPTURE(row.variation.name);
    CHECK(verdict.status == row.status);
    CHECK(verdict.message.find(row.word) != std::string::npos);
  }
}

TEST_CASE("A sine at the rate the finding names is within the machine", "[assess]") {
  Project project = varied({"", [](Project& p) { draw(p, Pattern::TwoSine).oscillationRate_Hz = 795; }});
  CHECK(findings(project).empty());
  settingsOf(project).oscillationRate_Hz = 796;
  CHECK(findings(project).size() == 1);
}

TEST_CASE("Any settings are brought within any machine", "[assess]") {
  std::mt19937 random(20240611);
  const auto between = [&](double low, double high) { return low * std::pow(high / low, std::uniform_real_distribution<>(0, 1)(random)); };
  const auto whole = [&](int low, int high) { return std::uniform_int_distribution<>(low, high)(random); };
  int mended = 0;
  for (int i = 0; i < 500; ++i) {
    Project project = smallProject();
    Machine& machine = project.machines[0];
    if (whole(0, 2) == 0) makeContinuous(project);
    machine.scan.axes = whole(0, 3) == 0 ? 1 : 2;
    machine.scan.maxWidth_m = whole(0, 4) == 0 ? 0 : between(1e-3, 0.3);
    machine.scan.maxHeight_m = whole(0, 4) == 0 ? 0 : between(1e-3, 0.3);
    machine.scan.maxSpeed_m_s = whole(0, 4) == 0 ? 0 : between(0.1, 30);
    machine.scan.turnaround_s = whole(0, 4) == 0 ? 0 : between(1e-5, 5e-3);
    Settings& s = settingsOf(project);
    s.pattern = static_cast<Pattern>(whole(0, 6));
    s.powerFraction = between(0.01, 3);
    s.dutyFraction = between(0.01, 3);
    s.repetitionRate_Hz = between(1e3, 5e6);
    s.pulseDuration_s = between(1e-9, 1e-6);
    s.width_m = between(1e-5, 1);
    s.height_m = whole(0, 9) == 0 ? 0 : between(1e-5, 1);
    s.lineSpacing_m = between(1e-6, 1);
    s.scanSpeed_m_s = between(0.01, 100);
    s.oscillationRate_Hz = between(0.1, 1e5);
    s.edgeTrim_m = whole(0, 1) * between(1e-5, 0.1);
    const auto failing = [&] { return std::ranges::count(findings(project), Status::Fails, &MachineFinding::status); };
    const bool failed = failing() > 0;
    const Settings before = s;
    s = withinMachine(machine, s);
    CAPTURE(i, static_cast<int>(before.pattern), static_cast<int>(s.pattern));
    CHECK(failing() == 0);
    CHECK(withinMachine(machine, s) == s);
    CHECK((failed || s == before));
    mended += failed ? 1 : 0;
  }
  CHECK(mended > 100);
}

TEST_CASE("With its optic the machine reaches as far as the optic", "[assess]") {
  Project project = smallProject();
  Optic wide;
  wide.id = "wide";
  wide.maxWidth_m = 5e-3;
  project.machines[0].optics = {wide};
  CHECK(withOptic(project.machines[0], std::nullopt) == project.machines[0]);
  const Machine machine = withOptic(project.machines[0], "wide");
  CHECK(machine.scan.maxHeight_m == project.machines[0].scan.maxHeight_m);
  CHECK(withinMachine(machine, settingsOf(project)).width_m == 5e-3);
  CHECK_THROWS_AS(withOptic(machine, "narrow"), Unusable);
}

TEST_CASE("A part as warm as damp air stays dry", "[assess]") {
  Project project = smallProject();
  project.site = Site{};
  project.site->humidity = 0.95;
  CHECK(findings(project).empty());
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/carry_over.h"

#include "core/assess/machine_limits.h"
#include "core/assess/settings_change.h"
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"

using namespace bw;
using namespace bw::test;
using Catch::Approx;

namespace {

const Carried& carriedOf(const CarryOver& result, const std::string& quantity) {
  const auto found = std::ranges::find(result.carried, quantity, &Carried::quantity);
  if (found == result.carried.end()) throw std::runtime_error("no " + quantity);
  return *found;
}

bool allKept(const CarryOver& result) { return std::ranges::all_of(result.carried, &Carried::kept); }

/// The small project with another machine beside its own, to which its settings are carried.
struct Move {
  Project project = smallProject();
  Machine from = project.machines[0];
  Machine to = from;

  explicit Move(const std::function<void(Machine&)>& change) {
    change(to);
    to.id = "other";
    project.machines.push_back(to);
  }
  CarryOver over() const { return carryOver(from, project.plans[0].settings, to); }
  Assessment before() const { return assess(project, "", shippedLibrary()); }
  Assessment after() const { return assess(onMachine(project, project.plans[0].name, "other", over().settings), "", shippedLibrary()); }
};

}  // namespace

TEST_CASE("To a machine alike nothing changes", "[assess][carry]") {
  const Move move([](Machine&) {});
  const CarryOver over = move.over();
  CHECK(allKept(over));
  const Settings &was = move.project.plans[0].settings, &is = over.settings;
  CHECK(is.repetitionRate_Hz == Approx(was.repetitionRate_Hz).epsilon(0.01));
  CHECK(is.travelSpeed_m_s == Approx(was.travelSpeed_m_s).epsilon(0.01));
  CHECK(is.powerFraction == Approx(was.powerFraction).epsilon(0.01));
  CHECK(is.lineSpacing_m == Approx(was.lineSpacing_m).epsilon(0.01));
  CHECK(is.focusOffset_m == 0);
}

TEST_CASE("Whatever the machine, the settings are within it and what is called kept is kept by the assessment", "[assess][carry]") {
  struct Row {
    const char* name;
    std::function<void(Machine&)> change;
  };
  for (const Row& row :
       {Row{"finer spot", [](Machine& m) { m.spotDiameter_m *= 0.6; }}, Row{"wider spot", [](Machine& m) { m.spotDiameter_m *= 1.5; }},
        Row{"weaker pulses",
            [](Machine& m) {
              m.spotDiameter_m *= 0.4;
              for (double& e : m.maxPulseEnergy_J) e *= 0.5;
            }},
        Row{"twice the power", [](Machine& m) { m.ratedPower_W *= 2; }}, Row{"half the power", [](Machine& m) { m.ratedPower_W /= 2; }},
        Row{"slow head", [](Machine& m) { m.scan.maxSpeed_m_s = 2; }},
        Row{"small field",
            [](Machine& m) {
              m.scan.maxWidth_m = 4e-3;
              m.scan.maxHeight_m = 1e-3;
            }},
        Row{"one axis",
            [](Machine& m) {
              m.scan.axes = 1;
              m.scan.maxHeight_m = 0;
            }},
        Row{"flat top", [](Machine& m) { m.beamProfile = BeamProfile::FlatTop; }}}) {
    const Move move(row.change);
    const CarryOver over = move.over();
    INFO(row.name);
    for (const MachineFinding& finding : machineFindings(move.project, move.to, over.settings)) {
      INFO(finding.message);
      CHECK(finding.status != Status::Fails);
    }
    const Assessment before = move.before(), after = move.after();
    REQUIRE(before.dose);
    REQUIRE(after.dose);
    const auto agrees = [&](const char* quantity, double was, double is) {
      const Carried& carried = carriedOf(over, quantity);
      INFO(quantity << " " << carried.before << " to " << carried.after);
      CHECK(carried.kept == (std::abs(is - was) <= 0.055 * was));
      CHECK(carried.why.empty() == carried.kept);
    };
    agrees("peak fluence", *before.beam.peakFluence_J_m2, *after.beam.peakFluence_J_m2);
    agrees("dose per pass", before.dose->mean_J_m2, after.dose->mean_J_m2);
    agrees("spot", before.beam.spotDiameter_m, after.beam.spotDiameter_m);
    CHECK(after.dose->mean_J_m2 == Approx(before.dose->mean_J_m2).epsilon(0.03));
  }
}

TEST_CASE("A finer beam stands out of focus for the same spot", "[assess][carry]") {
  const Move move([](Machine& m) { m.spotDiameter_m *= 0.5; });
  const CarryOver over = move.over();
  CHECK(over.settings.focusOffset_m > 0);
  CHECK(allKept(over));
}

TEST_CASE("Weaker pulses take a finer spot, and where that is not to be had the fluence falls and it is said why", "[assess][carry]") {
  const auto weak = [](double spotFactor) {
    return Move([&](Machine& m) {
      m.spotDiameter_m *= spotFactor;
      for (double& energy : m.maxPulseEnergy_J) energy = 0.25 * smallProject().machines[0].maxPulseEnergy_J.front();
    });
  };
  const Settings full = [] {
    Settings s = smallProject().plans[0].settings;
    return s;
  }();
  const double energy = *assessed(smallProject()).beam.pulseEnergy_J;
  CAPTURE(energy, full.repetitionRate_Hz);
  const CarryOver fine = weak(0.3).over(), coarse = weak(3).over();
  CHECK(carriedOf(fine, "peak fluence").kept);
  CHECK_FALSE(carriedOf(coarse, "peak fluence").kept);
  CHECK(carriedOf(coarse, "peak fluence").why.find("mJ at most") != std::string::npos);
}

TEST_CASE("More power is less time, a slow head fewer pulses", "[assess][carry]") {
  const Move strong([](Machine& m) {
    m.ratedPower_W *= 2;
    m.repetitionRate_Hz[1] *= 10;
    m.scan.maxSpeed_m_s *= 10;
  });
  CHECK(carriedOf(strong.over(), "mean power").kept);  // what is enough stays
  const Move slow([](Machine& m) { m.scan.maxSpeed_m_s = smallProject().plans[0].settings.scanSpeed_m_s / 3; });
  const CarryOver over = slow.over();
  const Settings was = slow.project.plans[0].settings;
  CHECK(over.settings.repetitionRate_Hz == Approx(std::max(was.repetitionRate_Hz / 3, slow.to.repetitionRate_Hz[0])).epsilon(0.01));
  CHECK(carriedOf(over, "peak fluence").kept);
  CHECK(over.settings.travelSpeed_m_s < was.travelSpeed_m_s);
}

TEST_CASE("Between pulses and none the energy of a passage and the dose are kept, and it is said that pulses are not", "[assess][carry]") {
  Project project = smallProject();
  Project steady = project;
  makeContinuous(steady);
  Machine other = steady.machines[0];
  other.ratedPower_W = 1200;
  other.scan.maxSpeed_m_s = 40;
  const CarryOver over = carryOver(project.machines[0], settingsOf(project), other);
  CHECK_FALSE(carriedOf(over, "peak fluence").kept);
  CHECK(carriedOf(over, "peak fluence").after == "none");
  CHECK(carriedOf(over, "energy of one passage").kept);
  CHECK(carriedOf(over, "dose per pass").kept);
  CHECK(over.settings.travelSpeed_m_s > settingsOf(project).travelSpeed_m_s);

  const CarryOver back = carryOver(other, over.settings, project.machines[0]);
  CHECK(carriedOf(back, "peak fluence").before == "none");
  CHECK(carriedOf(back, "dose per pass").kept);
  CHECK(back.settings.repetitionRate_Hz > 0);
  const CarryOver alike = carryOver(other, over.settings, other);
  CHECK(allKept(alike));
}

TEST_CASE("A hand that stands still stands still on any machine", "[assess][carry]") {
  Project project = smallProject();
  settingsOf(project).travelSpeed_m_s = 0;
  const CarryOver over = carryOver(project.machines[0], settingsOf(project), project.machines[0]);
  CHECK(over.settings.travelSpeed_m_s == 0);
  CHECK(std::ranges::find(over.carried, "dose per pass", &Carried::quantity) == over.carried.end());
}

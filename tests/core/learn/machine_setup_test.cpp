// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/machine_setup.h"

#include "core/beam/caustic.h"
#include "core/beam/delivery.h"
#include "core/scan/frame.h"
#include "tests/core/learn/learn_support.h"

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace bw;
using namespace bw::test;

namespace {

Machine asSold() {
  Machine machine;
  machine.id = "bench-300";
  machine.ratedPower_W = 300;
  machine.M2 = 1.8;
  machine.spotDiameter_m = 120e-6;
  machine.pulseDurations_s = {45e-9, 90e-9, 180e-9};
  machine.maxPulseEnergy_J = {2e-3};
  machine.scan.maxWidth_m = 80e-3;
  machine.scan.maxHeight_m = 50e-3;
  machine.scan.maxSpeed_m_s = 15;
  machine.scan.turnaround_s = 250e-6;
  return machine;
}

Machine asItIs() {
  Machine machine = asSold();
  machine.M2 = 2.4;
  machine.spotDiameter_m = 135e-6;
  machine.maxPulseEnergy_J = {2e-3, 2e-3, 1.7e-3};
  machine.scan.turnaround_s = 310e-6;
  machine.deliveredPower_W = 261;
  return machine;
}

MarkSeries marksAt(double offset_m) {
  const Machine machine = asItIs();
  const double w = Caustic(machine.spotDiameter_m / 2, machine.M2, machine.wavelength_m).radiusAt_m(offset_m);
  const double fluence_J_m2 = 4000;
  MarkSeries series{offset_m, {}};
  for (const double ratio : {1.3, 2.0, 3.5, 6.0, 9.0}) {
    series.marks.push_back({ratio * fluence_J_m2 * std::numbers::pi * w * w / 2, {}, {}, {w * std::sqrt(2 * std::log(ratio)), {}}});
  }
  return series;
}

FrameTime frameAt(double width_m) {
  Settings settings;
  settings.width_m = width_m;
  settings.height_m = 14e-3;
  settings.lineSpacing_m = 0.1e-3;
  settings.scanSpeed_m_s = 9;
  const double period = buildFrame(settings, asItIs().scan).period_s();
  return {width_m, 9, static_cast<int>(lineCount(settings)), period, {}, {}, false};
}

/// Everything, free of noise.
Measurements everything() {
  Measurements all;
  for (const double offset : {0.0, -9e-3, -6e-3, -3e-3, 3e-3, 6e-3, 9e-3}) all.marks.push_back(marksAt(offset));
  for (const double mm : {20.0, 40.0, 60.0}) all.widths.push_back({mm * 1e-3, {mm * 0.96e-3 + 1e-4, {}}});
  for (const double width : {10e-3, 20e-3, 40e-3}) all.frameTimes.push_back(frameAt(width));
  for (const double share : {0.25, 0.5, 0.75, 1.0}) all.powers.push_back({share, {261 * share, {}}, {}});
  RateSeries rates{180e-9, {}};
  for (const double f : {20e3, 50e3, 100e3, 200e3, 300e3, 500e3}) rates.readings.push_back({f, {std::min(1.7e-3 * f, 261.0), {}}});
  all.rates.push_back(rates);
  all.checkedOn = "2025-04-30";
  return all;
}

const MachineChange* changeOf(const Proposal& proposal, MachineField field) {
  const auto found = std::ranges::find(proposal.changes, field, &MachineChange::field);
  return found == proposal.changes.end() ? nullptr : &*found;
}

bool remarks(const Proposal& proposal, const std::string& words) {
  return std::ranges::any_of(proposal.remarks, [&](const std::string& remark) { return remark.find(words) != std::string::npos; });
}

}  // namespace

TEST_CASE("All measurements together give the machine as it is", "[learn]") {
  const Proposal proposal = proposeMachine(asSold(), everything());
  const Machine& found = proposal.machine;
  const Machine truth = asItIs();
  CHECK(found.spotDiameter_m == Catch::Approx(truth.spotDiameter_m).epsilon(1e-6));
  CHECK(found.M2 == Catch::Approx(truth.M2).epsilon(1e-6));
  CHECK(found.scan.turnaround_s == Catch::Approx(truth.scan.turnaround_s).epsilon(1e-6));
  CHECK(found.scan.maxWidth_m == Catch::Approx(0.96 * 80e-3));
  CHECK(found.scan.maxHeight_m == 50e-3);
  REQUIRE(found.deliveredPower_W);
  CHECK(*found.deliveredPower_W == Catch::Approx(261));
  CHECK(found.checkedOn == "2025-04-30");
  REQUIRE(found.maxPulseEnergy_J.size() == 3);
  CHECK(found.maxPulseEnergy_J[1] == 2e-3);
  CHECK(found.maxPulseEnergy_J[2] == Catch::Approx(1.7e-3));
  CHECK(found.name == truth.name);
  CHECK(found.pulseDurations_s == truth.pulseDurations_s);
  CHECK_FALSE(found.divergence_rad);
}

TEST_CASE("Every change is listed with its old value and where it comes from, and can be taken alone", "[learn]") {
  const Proposal proposal = proposeMachine(asSold(), everything());
  CHECK(proposal.changes.size() == 6);
  const MachineChange* turn = changeOf(proposal, MachineField::Turnaround);
  REQUIRE(turn);
  CHECK(turn->old == 250e-6);
  CHECK(turn->from == "frame times");
  CHECK_FALSE(turn->agrees());
  Machine machine = asSold();
  apply(machine, *turn);
  CHECK(machine.scan.turnaround_s == turn->value.likely);
  machine.scan.turnaround_s = 250e-6;
  CHECK(machine == asSold());
  const MachineChange* energy = changeOf(proposal, MachineField::MaxPulseEnergy);
  REQUIRE(energy);
  CHECK(energy->pulseDuration == 2u);
  CHECK(energy->old == 2e-3);
  CHECK_FALSE(changeOf(proposal, MachineField::DeliveredPower)->old);
  machine = asSold();
  for (const MachineChange& change : proposal.changes) apply(machine, change);
  machine.checkedOn = proposal.machine.checkedOn;
  CHECK(machine == proposal.machine);
}

TEST_CASE("Nothing measured or nothing learnt changes nothing", "[learn]") {
  CHECK(proposeMachine(asSold(), {}).machine == asSold());
  CHECK(proposeMachine(asSold(), {}).changes.empty());
  Measurements poor;
  poor.marks = {{0, {{1e-3, {}, {}, {1e-4, {}}}}}};
  poor.diameters = {{0, {1e-4, {}}}};
  poor.widths = {{40e-3, {39e-3, {}}}};
  poor.frameTimes = {{30e-3, 6, 100, 0.5, {}, {}, false}, {30e-3, 6, 0, 0.5, {}, {}, false}, {30e-3, 6, {}, {}, {}, {}, false}};
  poor.powers = {{1, {250, {}}, {}}};
  poor.rates = {{180e-9, {{20e3, {40, {}}}}}};
  const Proposal proposal = proposeMachine(asSold(), poor);
  CHECK(proposal.machine == asSold());
  CHECK(proposal.changes.empty());
  REQUIRE((proposal.caustic && proposal.width && proposal.turnaround && proposal.power));
  for (const std::string& problem : {proposal.spots.at(0).spot.problem, proposal.caustic->problem, proposal.width->problem,
                                     proposal.turnaround->problem, proposal.power->problem, proposal.ceilings.at(0).ceiling.problem}) {
    CHECK_FALSE(problem.empty());
  }
}

TEST_CASE("What cannot be taken over is said", "[learn]") {
  Measurements aside;
  aside.marks = {marksAt(3e-3)};
  aside.rates = everything().rates;
  aside.rates[0].pulseDuration_s = 30e-9;
  Machine flat = asSold();
  flat.beamProfile = BeamProfile::FlatTop;
  const Proposal proposal = proposeMachine(flat, aside);
  CHECK(proposal.changes.empty());
  CHECK(remarks(proposal, "out of focus only"));
  CHECK(remarks(proposal, "not Gaussian"));
  CHECK(remarks(proposal, "at no pulse duration of this machine"));
  Machine continuous = asSold();
  continuous.kind = MachineKind::Continuous;
  CHECK(remarks(proposeMachine(continuous, aside), "left aside"));
  Measurements shifted = everything();
  for (MarkSeries& series : shifted.marks) series.focusOffset_m += 1.5e-3;
  CHECK(remarks(proposeMachine(asSold(), shifted), "the focus lies at 1.5 mm"));
}

TEST_CASE("A pulse energy ceiling for all durations replaces the one value", "[learn]") {
  Machine machine = asSold();
  machine.pulseDurations_s = {100e-9};
  Measurements measured;
  measured.rates = everything().rates;
  measured.rates[0].pulseDuration_s.reset();
  const Proposal proposal = proposeMachine(machine, measured);
  REQUIRE(proposal.changes.size() == 1);
  REQUIRE(proposal.machine.maxPulseEnergy_J.size() == 1);
  CHECK(proposal.machine.maxPulseEnergy_J[0] == Catch::Approx(1.7e-3));
}

TEST_CASE("One-way lines are drawn there and back with two turns", "[learn]") {
  Settings settings;
  settings.width_m = 30e-3;
  settings.height_m = 10e-3;
  settings.lineSpacing_m = 0.1e-3;
  settings.scanSpeed_m_s = 6;
  settings.oneWay = true;
  const ScanHead head = asItIs().scan;
  Measurements measured;
  for (const double width : {20e-3, 30e-3, 45e-3}) {
    settings.width_m = width;
    const double period = buildFrame(settings, head).period_s();
    measured.frameTimes.push_back({width, 6, static_cast<int>(lineCount(settings)), period, {}, {}, true});
  }
  measured.frameTimes.push_back({45e-3, 6, {}, {}, {}, lineCount(settings) / buildFrame(settings, head).period_s(), true});
  const Proposal proposal = proposeMachine(asSold(), measured);
  CHECK(proposal.machine.scan.turnaround_s == Catch::Approx(310e-6).epsilon(1e-6));
}

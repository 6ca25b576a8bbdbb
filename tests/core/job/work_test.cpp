// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/work.h"

#include "tests/support/catch.h"

#include <numbers>

using namespace bw;

namespace {

Area areaOf(const std::string& name, double area_m2) {
  Area area;
  area.name = name;
  area.area_m2 = area_m2;
  return area;
}

Project twoAreas() {
  Project project;
  project.part.areas = {areaOf("panel", 0.21), areaOf("beading", 0.018)};
  project.part.areas[1].tilt_rad = std::numbers::pi / 3;  // cosine 0.5
  project.part.areas[1].access = Access::Tight;
  project.part.areas[1].count = 2;
  return project;
}

Step stepAt(double travel_m_s, double stepOver_m) {
  Step step;
  step.settings.travelSpeed_m_s = travel_m_s;
  step.settings.stepOver_m = stepOver_m;
  return step;
}

}  // namespace

TEST_CASE("Areas of a step", "[job]") {
  const Project project = twoAreas();
  Step step = stepAt(0.008, 0.029);
  CHECK(areaOf_m2(areasOf(project.part, step)) == Catch::Approx(0.21 + 2 * 0.018));
  step.areas = {"beading"};
  CHECK(areaOf_m2(areasOf(project.part, step)) == Catch::Approx(0.036));
  Part bare;
  bare.size_m = {0.6, 0.4};
  CHECK(areaOf_m2(areasOf(bare, stepAt(0.008, 0.029))) == Catch::Approx(0.24));
}

TEST_CASE("Awkward faces go slower, but never stop", "[job]") {
  Area area = areaOf("a", 1);
  CHECK(paceShare(area) == 1);
  double last = 1;
  for (const Access access : {Access::Tight, Access::Hidden}) {
    area.access = access;
    CHECK(paceShare(area) < last);
    last = paceShare(area);
  }
  area.tilt_rad = 1.5;
  CHECK(paceShare(area) > 0);
}

TEST_CASE("Time, energy and cost add up", "[job]") {
  Machine machine;
  machine.supplyPower_W = 1100;
  machine.extraDraw_W = 200;
  machine.hourlyCost = 18;
  machine.warmUp_s = 300;
  Step step = stepAt(0.008, 0.029);
  step.settings.pause_s = 90;
  const JobResult result = job(twoAreas(), step, machine, 3);
  const double beamTime_s = 3 * (0.21 + 0.036 / (0.5 * tightShare)) / (0.008 * 0.029);
  CHECK(*result.beamTime_s == Catch::Approx(beamTime_s));
  CHECK(*result.totalTime_s == Catch::Approx(beamTime_s / 0.7 + 3 * 90 + 300 + setUp_s));
  CHECK(*result.energy_J == Catch::Approx(1100 * beamTime_s + 200 * *result.totalTime_s));
  CHECK(*result.cost == Catch::Approx(18 * *result.totalTime_s / 3600));
  double items = 0;
  for (const CostItem& item : result.costItems) items += item.amount;
  CHECK(items == Catch::Approx(*result.cost));
  CHECK(*result.secondsPerA4 == Catch::Approx(beamTime_s * 0.06237 / 0.246));
}

TEST_CASE("One pass over an open square metre takes area over travel times step-over", "[job]") {
  Project project;
  project.part.areas = {areaOf("panel", 1)};
  CHECK(*job(project, stepAt(0.01, 0.02), {}, 1).beamTime_s == Catch::Approx(1 / (0.01 * 0.02)));
}

TEST_CASE("What is not known stays empty", "[job]") {
  const Machine machine;
  const JobResult stalls = job(twoAreas(), stepAt(0.008, 0.029), machine, std::nullopt);
  CHECK(stalls.area_m2 > 0);
  CHECK_FALSE(stalls.beamTime_s);
  CHECK_FALSE(stalls.totalTime_s);
  CHECK_FALSE(job(twoAreas(), stepAt(0, 0.029), machine, 2).beamTime_s);
  const JobResult plain = job(twoAreas(), stepAt(0.008, 0.029), machine, 2);
  CHECK(plain.totalTime_s);
  CHECK_FALSE(plain.energy_J);
  CHECK_FALSE(plain.cost);
}

TEST_CASE("Labour comes to the price, and the project's machine hour stands in where the machine has none", "[job]") {
  Project project = twoAreas();
  const Step step = stepAt(0.008, 0.029);
  Machine machine;
  project.prices = Prices{20, 30, {}};
  const JobResult both = job(project, step, machine, 2);
  REQUIRE(both.cost);
  CHECK(*both.cost == Catch::Approx((20 + 30) * *both.totalTime_s / 3600));
  CHECK(both.costItems.back().name == "labour");
  machine.hourlyCost = 18;  // the card's own goes first
  CHECK(*job(project, step, machine, 2).cost == Catch::Approx((18 + 30) * *both.totalTime_s / 3600));
  project.prices = Prices{std::nullopt, 30, {}};
  machine.hourlyCost.reset();
  const JobResult labour = job(project, step, machine, 2);
  REQUIRE(labour.costItems.size() == 1);
  CHECK(*labour.cost == Catch::Approx(30 * *both.totalTime_s / 3600));
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/assess.h"

#include "core/files/assessment_file.h"
#include "core/files/library_file.h"
#include "core/files/project_file.h"
#include "core/heat/part_map.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>

using namespace bw;

namespace {

Project sample(const char* name = "carriage-side-panel") {
  return openProject(std::string(BAREWRIGHT_SOURCE_DIR) + "/sample-projects/" + name + ".bwright", shippedLibrary());
}

Settings& firstSettings(Project& project) {
  Plan& plan = project.plans.front();
  return plan.steps.empty() ? plan.settings : plan.steps.front().settings;
}

Assessment assessedFirst(const Project& project) { return assess(project, project.plans.front().name, shippedLibrary()); }

const LimitResult& named(const Assessment& assessment, const std::string& name) {
  const auto found = std::ranges::find(assessment.thermal.limits, name, &LimitResult::name);
  REQUIRE(found != assessment.thermal.limits.end());
  return *found;
}

}  // namespace

TEST_CASE("Heat results hang together", "[assess][heat]") {
  for (const char* name : {"carriage-side-panel", "lamp-iron-bracket", "luggage-rack-bracket", "water-tank-lid", "lamp-bezel"}) {
    const Project project = sample(name);
    for (const Plan& plan : project.plans) {
      const Assessment assessment = assess(project, plan.name, shippedLibrary());
      const ThermalResult& thermal = assessment.thermal;
      INFO(name << ", " << plan.name);
      REQUIRE(thermal.front_C);
      CHECK(*thermal.front_C >= *thermal.frontBare_C);
      CHECK(*thermal.back_C >= *thermal.backBare_C);
      CHECK(*thermal.front_C >= *thermal.back_C - 1);
      CHECK(*thermal.near_C >= *thermal.front_C - 1);
      CHECK(*thermal.flash_C == Catch::Approx(std::min(*thermal.near_C + thermal.flashRise_K, thermal.boiling_C)));
      CHECK(thermal.boils(thermal.flash_C) == (thermal.flashExcess_J_m2.value_or(0) > 0));
      const HeatTrace& trace = thermal.trace;
      REQUIRE(trace.time_s.size() > 50);
      CHECK(std::ranges::is_sorted(trace.time_s));
      CHECK(*std::ranges::max_element(trace.front_C) <= *thermal.front_C + 1e-9);
      CHECK(*std::ranges::max_element(trace.back_C) <= *thermal.back_C + 1e-9);
      for (std::size_t i = 0; i < trace.time_s.size(); ++i) {
        CHECK(std::isfinite(trace.front_C[i]));
        CHECK(trace.part_C[i] <= trace.frontBare_C[i] + 0.5);
      }
      CHECK(trace.front_C.back() < *thermal.front_C);  // it has cooled
      REQUIRE(thermal.lastFrame.time_s.size() > 50);
      const double fine =
          *std::ranges::max_element(thermal.lastFrame.near_C);  // just behind the beam it may be hotter than under the next pulse
      CHECK(fine > 0.9 * *thermal.nearBare_C);
      CHECK(fine < 2.5 * *thermal.nearBare_C);
      for (const LimitResult& limit : thermal.limits)
        if (limit.reached_s) CHECK(limit.predicted_C >= limit.limit_C);
    }
  }
}

TEST_CASE("While the coat comes off each pass heats the metal by its own share", "[assess][heat]") {
  Project project = sample();
  firstSettings(project).passes = 6;
  const Assessment assessment = assessedFirst(project);
  const auto& shares = assessment.removal.heatIntoPartByPass;
  REQUIRE(shares.size() == 6);
  for (const double share : shares) {
    CHECK(share > 0);
    CHECK(share < 1);
  }
  double mean = 0;
  for (const double share : shares) mean += share / 6;
  CHECK(mean == Catch::Approx(*assessment.removal.heatIntoPartFraction).epsilon(0.02));
  REQUIRE(assessment.thermal.trace.frontStripping_C.size() == assessment.thermal.trace.time_s.size());

  project.coat.clear();
  CHECK_FALSE(assessedFirst(project).thermal.frontStripping_C);
}

TEST_CASE("Less power, faster travel and pauses cool; thinner metal and a worse absorber heat", "[assess][heat]") {
  const Assessment before = assessedFirst(sample());
  const auto changed = [&](auto change) {
    Project project = sample();
    change(project);
    return assessedFirst(project).thermal;
  };
  const ThermalResult weak = changed([](Project& p) { firstSettings(p).powerFraction *= 0.5; });
  CHECK(*weak.frontBare_C - 20 < 0.65 * (*before.thermal.frontBare_C - 20));
  CHECK(*changed([](Project& p) { firstSettings(p).travelSpeed_m_s *= 2; }).backBare_C < *before.thermal.backBare_C);
  CHECK(*changed([](Project& p) { firstSettings(p).pause_s += 600; }).backBare_C <= *before.thermal.backBare_C + 0.5);
  CHECK(*changed([](Project& p) { p.part.thickness_m = Range::exact(0.6e-3); }).backBare_C > *before.thermal.backBare_C + 20);
  const ThermalResult skipped = changed([](Project& p) { firstSettings(p).swathOrder = SwathOrder::EverySecond; });
  CHECK(*skipped.backBare_C != Catch::Approx(*before.thermal.backBare_C).epsilon(1e-4));
}

TEST_CASE("Strange parts and plans get finite temperatures", "[assess][heat]") {
  const auto check = [](const char* what, auto change) {
    Project project = sample();
    change(project);
    INFO(what);
    const Assessment assessment = assessedFirst(project);
    const ThermalResult& thermal = assessment.thermal;
    if (!thermal.front_C) {
      CHECK_FALSE(assessment.dose);  // a still hand, or no dose: said in words
      CHECK((firstSettings(project).travelSpeed_m_s == 0 || !assessment.whyNoDose.empty()));
      return;
    }
    CHECK(std::isfinite(*thermal.near_C));
    CHECK(std::isfinite(*thermal.front_C));
    CHECK(*thermal.front_C > project.part.startTemperature_C + 0.1);  // the beam does land on it
    CHECK(thermal.trace.time_s.size() < 20000);
    for (const double value : thermal.trace.front_C) REQUIRE(std::isfinite(value));
  };
  check("no loss to the air", [](Project& p) { p.part.filmCoefficient_W_m2K = 0; });
  check("a foil", [](Project& p) { p.part.thickness_m = Range::exact(20e-6); });
  check("a block", [](Project& p) { p.part.thickness_m = Range::exact(0.2); });
  check("smaller than the frame", [](Project& p) {
    p.part.size_m = {10e-3, 8e-3};
    p.part.areas.clear();
  });
  check("smaller than the spot", [](Project& p) {
    p.part.size_m = {80e-6, 80e-6};
    p.part.areas.clear();
  });
  check("a step-over wider than the part", [](Project& p) { firstSettings(p).stepOver_m = 5; });
  check("days of pause", [](Project& p) {
    firstSettings(p).pause_s = 1e5;
    firstSettings(p).passes = 5;
  });
  check("a thousand passes", [](Project& p) { firstSettings(p).passes = 1000; });
  check("a crawl", [](Project& p) { firstSettings(p).travelSpeed_m_s = 2e-3; });
  check("a still hand", [](Project& p) { firstSettings(p).travelSpeed_m_s = 0; });
  check("along the lines", [](Project& p) { firstSettings(p).travelAngle_rad = 0; });
  check("slantwise", [](Project& p) { firstSettings(p).travelAngle_rad = 0.7; });
  check("a limit below the room", [](Project& p) { p.part.limits["back_face_C"] = 5; });
}

TEST_CASE("In depth: the hand that stops, the map over the part, ranges of every limit", "[assess][heat]") {
  const Project project = sample();
  const Assessment first = assessedFirst(project), deep = inDepth(project, shippedLibrary(), first);
  const ThermalResult& thermal = deep.thermal;
  REQUIRE(thermal.stillHand);
  CHECK(thermal.stillHand->time_s.front() == 0);
  CHECK(thermal.stillHand->back_C.back() > *thermal.back_C + 50);  // ever hotter under a beam that stays
  CHECK(std::ranges::is_sorted(thermal.stillHand->front_C));
  REQUIRE(thermal.map);
  CHECK(thermal.map->time_s.size() > 60);
  CHECK(thermal.map->columns * thermal.map->cellX_m == Catch::Approx(project.part.size_m[0]));
  CHECK(thermal.map->rows * thermal.map->cellY_m == Catch::Approx(project.part.size_m[1]));
  const double highest = static_cast<double>(*std::ranges::max_element(thermal.map->highest_C));
  CHECK(highest < *thermal.front_C + 5);
  CHECK(highest > 0.6 * *thermal.back_C);
  CHECK(partMapCsv(*thermal.map).starts_with("x_mm,y_mm,highest_C,at_s\n"));

  REQUIRE(deep.ranges);
  for (const LimitResult& limit : thermal.limits) {
    INFO(limit.name);
    REQUIRE(limit.predictedRange_C);
    CHECK(limit.predictedRange_C->low <= limit.predictedRange_C->middle);
    CHECK(limit.predictedRange_C->middle <= limit.predictedRange_C->high);
    CHECK(limit.predictedRange_C->low <= limit.predicted_C * 1.02 + 2);
    CHECK(limit.predictedRange_C->high >= 0.8 * limit.predicted_C);
  }
  CHECK(deep.ranges->back_C->high > deep.ranges->back_C->low + 5);
  const LimitResult& back = named(deep, "back face");
  if (back.reached_s) CHECK(*back.stillHand_s == 0);
}

TEST_CASE("A plan too hot is offered another order of swaths or another machine where that helps", "[assess][heat]") {
  Project project = sample();
  project.part.limits["back_face_C"] = 140;
  const Assessment now = assessedFirst(project);
  REQUIRE(named(now, "back face").margin < 0.0);
  const auto remedies = findRemedies(project, now, shippedLibrary());
  const auto cool = std::ranges::count(remedies, std::string("temperature"), &Remedy::check);
  CHECK(cool >= 2);
  for (const Remedy& remedy : remedies) {
    INFO(remedy.label);
    REQUIRE(remedy.outcome);
    CHECK_FALSE(remedy.effect.empty());
    if (!remedy.machine.empty()) CHECK(remedy.outcome->machine == remedy.machine);
  }
}

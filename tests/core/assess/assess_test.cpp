// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/assess.h"

#include "core/files/assessment_file.h"
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"
#include "tests/support/thorough.h"

#include <cmath>

using namespace bw;
using namespace bw::test;
using Catch::Approx;

namespace {

void checkRemoval(const Project& project, const Assessment& a) {
  const Settings& s = project.plans[0].settings;
  REQUIRE(a.removal.computed);
  REQUIRE(a.removal.layers.size() == project.coat.size());
  CHECK(a.removal.rate_m2_s.has_value() == a.removal.passesNeeded.has_value());
  const int passes = std::max(1, a.removal.passesNeeded.value_or(1));
  if (a.removal.rate_m2_s) CHECK(*a.removal.rate_m2_s == Approx(s.travelSpeed_m_s * s.stepOver_m / passes));
  CHECK(*a.removal.clearedFraction >= 0);
  CHECK(*a.removal.clearedFraction <= 1 + 1e-9);
  double shares = 0;
  for (const PlaceHistory& place : a.removal.places) shares += place.share;
  CHECK(shares == Approx(1));
  int last = 0;
  for (std::size_t i = 0; i < project.coat.size(); ++i) {
    const LayerResult& layer = a.removal.layers[i];
    CHECK(layer.name == project.coat[i].name);
    CHECK(layer.thickness_m == Approx(project.coat[i].thickness_m.likely));
    CHECK(layer.removed_m >= 0);
    CHECK(layer.removed_m <= layer.thickness_m * (1 + 1e-9));
    if (!layer.passes) break;
    CHECK(*layer.passes >= last);  // a deeper layer clears no sooner
    last = *layer.passes;
  }
  if (a.removal.heatIntoPartFraction) {
    CHECK(*a.removal.heatIntoPartFraction > 0);
    CHECK(*a.removal.heatIntoPartFraction <= 1);
  }
}

void checkHeat(const Project& project, const Assessment& a) {
  const ThermalResult& t = a.thermal;
  const double start = project.part.startTemperature_C;
  REQUIRE(t.near_C);
  CHECK(*t.near_C > start);
  CHECK(*t.flash_C >= *t.near_C);
  if (project.machines[0].kind == MachineKind::Continuous) CHECK(*t.flash_C == Approx(*t.near_C));
  CHECK(*t.front_C == Approx(std::max(*t.frontBare_C, t.frontStripping_C.value_or(start))));
  CHECK(*t.back_C == Approx(std::max(*t.backBare_C, t.backStripping_C.value_or(start))));
  CHECK(*t.front_C >= *t.back_C);
  std::optional<double> worst;
  for (const LimitResult& limit : t.limits) {
    CHECK_FALSE(limit.source.empty());
    REQUIRE(limit.margin.has_value() == (limit.limit_C > start));
    if (!limit.margin) continue;
    CHECK(*limit.margin == Approx((limit.limit_C - limit.predicted_C) / (limit.limit_C - start)));
    if (!limit.warnOnly) worst = std::min(worst.value_or(*limit.margin), *limit.margin);
  }
  CHECK(t.worstMargin == worst);
  REQUIRE(t.trace.time_s.size() > 2);
  CHECK(t.trace.time_s.size() == t.trace.front_C.size());
  CHECK(t.trace.time_s.size() == t.trace.back_C.size());
  CHECK(std::ranges::is_sorted(t.trace.time_s));
}

void checkJob(const Project& project, const Assessment& a) {
  double area = 0;
  for (const Area& one : project.part.areas) area += one.area_m2 * one.count.value_or(1);
  CHECK(a.job.area_m2 == Approx(area));
  REQUIRE(a.job.beamTime_s);
  CHECK(*a.job.totalTime_s > *a.job.beamTime_s);
  const Settings& s = project.plans[0].settings;
  CHECK(*a.job.beamTime_s >= s.passes * area / (s.travelSpeed_m_s * s.stepOver_m) * (1 - 1e-9));
}

}  // namespace

TEST_CASE("Removal, heat and work keep the definitions of the file format", "[assess]") {
  for (const Variation& variation : sampled(variations(), 4)) {
    const Project project = varied(variation);
    const Assessment a = assessed(project);
    CAPTURE(variation.name);
    CHECK(a.plan == project.plans[0].name);
    CHECK(a.machine == project.machines[0].id);
    checkRemoval(project, a);
    checkHeat(project, a);
    checkJob(project, a);
  }
}

TEST_CASE("The shipped example and the sample keep them too", "[assess]") {
  for (const Project& project : {exampleProject(), sampleProject()}) {
    const Assessment a = assessed(project);
    CAPTURE(project.name);
    checkRemoval(project, a);
    checkHeat(project, a);
    checkJob(project, a);
  }
}

TEST_CASE("The same input gives the same answer", "[assess]") {
  for (const Variation& variation : sampled(variations(), 4, 1)) {
    const Project project = varied(variation);
    CAPTURE(variation.name);
    const Assessment first = assessed(project), second = assessed(project);
    CHECK(writeAssessment(first) == writeAssessment(second));
    CHECK(first.map->dose_J_m2 == second.map->dose_J_m2);
    CHECK(first.thermal.trace.front_C == second.thermal.trace.front_C);
  }
}

TEST_CASE("The named plan is assessed, the first where none is named", "[assess]") {
  Project project = smallProject();
  project.plans.push_back(project.plans[0]);
  project.plans[1].name = "slower";
  project.plans[1].settings.travelSpeed_m_s /= 2;
  const Assessment first = assess(project, "", shippedLibrary()), second = assess(project, "slower", shippedLibrary());
  CHECK(first.plan == "first guess");
  CHECK(second.plan == "slower");
  CHECK(second.dose->mean_J_m2 == Approx(2 * first.dose->mean_J_m2).epsilon(1e-3));
}

TEST_CASE("Many layers are assessed", "[assess]") {
  for (const std::size_t layers : {100U, 12U}) {
    Project project = smallProject();
    const Coat three = project.coat;
    project.coat.clear();
    for (std::size_t i = 0; i < layers; ++i) project.coat.push_back(three[i % three.size()]);
    if (layers < 50) makeContinuous(project);
    const Assessment a = assessed(project);
    REQUIRE(a.removal.layers.size() == layers);
    CHECK(a.removal.layers.front().removed_m > 0);
    CHECK(a.removal.layers.back().removed_m < 1e-9);
  }
}

TEST_CASE("An assessment that is told to stop stops", "[assess]") {
  std::stop_source source;
  source.request_stop();
  const Project project = smallProject();
  CHECK_THROWS_AS(assess(project, "", shippedLibrary(), source.get_token()), Stopped);
  const Assessment now = assessed(project);
  CHECK_THROWS_AS(findRemedies(project, now, shippedLibrary(), source.get_token()), Stopped);
}

TEST_CASE("More power means more dose, more removed and more heat", "[assess]") {
  Project project = smallProject();
  settingsOf(project).powerFraction = 0.2;  // the face stays below 735 °C, where steel takes up heat without getting warmer
  const Assessment weak = assessed(project);
  settingsOf(project).powerFraction = 0.4;
  const Assessment strong = assessed(project);
  CHECK(strong.dose->mean_J_m2 == Approx(2 * weak.dose->mean_J_m2));
  const auto removed = [](const Assessment& a) {
    double sum = 0;
    for (const LayerResult& layer : a.removal.layers) sum += layer.removed_m;
    return sum;
  };
  CHECK(removed(strong) > removed(weak));
  CHECK(*strong.thermal.frontBare_C - 20 ==
        Approx(2 * (*weak.thermal.frontBare_C - 20)).epsilon(0.08));  // warm steel holds more  // heat is linear on bare metal
  CHECK(*strong.eyes.hazardDistance_m == Approx(*weak.eyes.hazardDistance_m));             // of the rated power
}

TEST_CASE("Fume is the share of what need not stay, a kept layer beneath changes nothing", "[assess]") {
  Project project = smallProject();
  project.coat.resize(1);
  settingsOf(project).passes = 20;
  const Assessment alone = assessed(project);
  REQUIRE(alone.removal.layers[0].removed_m > 0.5 * alone.removal.layers[0].thickness_m);
  Layer zinc;
  zinc.name = "zinc";
  zinc.coating = "zinc-galvanising";
  zinc.thickness_m = Range::exact(60e-6);
  zinc.keep = true;
  project.coat.push_back(zinc);
  const Assessment over = assessed(project);
  const double share = over.removal.layers[0].removed_m / over.removal.layers[0].thickness_m;
  const double whole_kg = *alone.air.removed_kg * alone.removal.layers[0].thickness_m / alone.removal.layers[0].removed_m;
  CHECK(*over.air.removed_kg == Catch::Approx(share * whole_kg).epsilon(1e-9));

  settingsOf(project).travelSpeed_m_s = 0;  // removal is not computed: what leaves is not known
  CHECK_FALSE(assessed(project).removal.computed);
  CHECK_FALSE(assessed(project).air.removed_kg);
}

TEST_CASE("Time and cost of the passes planned and of those needed stand apart", "[assess]") {
  Project project = smallProject();
  project.coat.resize(1);
  project.coat[0].thickness_m = Range::exact(200e-6);
  project.machines[0].hourlyCost = 18;
  const Assessment a = assessed(project);
  REQUIRE(a.removal.passesNeeded);
  REQUIRE(*a.removal.passesNeeded > settingsOf(project).passes);
  REQUIRE(a.job.needed);
  CHECK(a.job.needed->totalTime_s > *a.job.totalTime_s);
  CHECK(a.job.needed->beamTime_s ==
        Catch::Approx(*a.job.beamTime_s * *a.removal.passesNeeded / settingsOf(project).passes));  // beam time goes with the passes
  settingsOf(project).passes = *a.removal.passesNeeded;
  const Assessment enough = assessed(project);
  CHECK(enough.job.needed->totalTime_s == Catch::Approx(*enough.job.totalTime_s));
  CHECK(*enough.job.needed->cost == Catch::Approx(*enough.job.cost));

  settingsOf(project).passes = 1;
  const Assessment deep = inDepth(project, shippedLibrary(), assessed(project));
  REQUIRE(deep.ranges);
  for (const auto& [range, likely] : {std::pair(deep.ranges->plannedTotalTime_s, *deep.job.totalTime_s),
                                      std::pair(deep.ranges->totalTime_s, deep.job.needed->totalTime_s)}) {
    REQUIRE(range);
    CHECK(range->low <= likely);
    CHECK(range->high >= likely);
  }
}

TEST_CASE("The dose is told early, once, and is that of the whole assessment", "[assess]") {
  std::vector<std::shared_ptr<const Assessment>> told;
  const TakeEarly early = [&](std::shared_ptr<const Assessment> dose) { told.push_back(std::move(dose)); };
  const Project project = sampleProject();
  const Assessment whole = assess(project, {}, shippedLibrary(), {}, {}, {.early = early});
  REQUIRE(told.size() == 1);
  const Assessment& dose = *told.front();
  CHECK(dose.doseOnly);
  CHECK_FALSE(whole.doseOnly);
  CHECK(dose.map == whole.map);
  CHECK(dose.profile.summed_J_m2 == whole.profile.summed_J_m2);
  CHECK(dose.beam.spotDiameter_m == whole.beam.spotDiameter_m);
  CHECK_FALSE(dose.thermal.front_C);
  CHECK_FALSE(dose.removal.computed);
  REQUIRE(dose.verdict.size() == 1);
  const auto same = std::ranges::find(whole.verdict, dose.verdict.front().check, &VerdictRow::check);
  REQUIRE(same != whole.verdict.end());
  CHECK(same->message == dose.verdict.front().message);
  CHECK(same->status == dose.verdict.front().status);

  Project still = project;  // no dose of a hand that stands still: nothing is told before the rest
  still.plans.front().settings.travelSpeed_m_s = 0;
  assess(still, {}, shippedLibrary(), {}, {}, {.early = early});
  CHECK(told.size() == 1);
}

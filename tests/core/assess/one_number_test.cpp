// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/assessment_file.h"
#include "core/text/text.h"
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"
#include "tests/support/thorough.h"

#include <nlohmann/json.hpp>

#include <cmath>
#include <iterator>
#include <limits>

using namespace bw;
using namespace bw::test;

namespace {

constexpr const char* samples[] = {"carriage-side-panel", "lamp-iron-bracket", "luggage-rack-bracket", "water-tank-lid", "lamp-bezel"};

/// Every plan of every sample (of each second one in the short form), looked into in depth.
std::vector<std::pair<std::string, Assessment>> samplesInDepth() {
  std::vector<std::pair<std::string, Assessment>> all;
  for (const char* name : sampled(std::vector(std::begin(samples), std::end(samples)), 2)) {
    const Project project = openProject(std::string(BAREWRIGHT_SOURCE_DIR) + "/sample-projects/" + name + ".bwright", shippedLibrary());
    for (const Plan& plan : project.plans)
      all.emplace_back(std::string(name) + ", " + plan.name,
                       inDepth(project, shippedLibrary(), assess(project, plan.name, shippedLibrary())));
  }
  return all;
}

/// Ranges are moved out to hold the likely value (core/assess/ranges.cpp), so this says nothing of the draws: it finds a number whose range
/// was forgotten there, or that is told by another one.
void checkWithin(const std::string& what, const std::optional<Spread>& range, const std::optional<double>& likely) {
  if (!range || !likely) return;
  CAPTURE(what, range->low, range->high, *likely);
  CHECK(range->low <= *likely * (1 + 1e-9));
  CHECK(range->high >= *likely * (1 - 1e-9));
}

double passesOrNever(const std::optional<int>& passes) { return passes ? *passes : std::numeric_limits<double>::infinity(); }

void checkRanges(const Assessment& deep) {
  const Ranges& ranges = *deep.ranges;
  checkWithin("passes", ranges.passesNeeded, passesOrNever(deep.removal.passesNeeded));
  checkWithin("cleared", ranges.clearedFraction, deep.removal.clearedFraction);
  checkWithin("heat share", ranges.heatIntoPartFraction, deep.removal.heatIntoPartFraction);
  checkWithin("rate", ranges.rate_m2_s, deep.removal.rate_m2_s);
  checkWithin("front", ranges.front_C, deep.thermal.front_C);
  checkWithin("back", ranges.back_C, deep.thermal.back_C);
  checkWithin("near", ranges.near_C, deep.thermal.near_C);
  checkWithin("etch", ranges.etch_m, deep.finish.etch_m);
  checkWithin("planned time", ranges.plannedTotalTime_s, deep.job.totalTime_s);
  checkWithin("planned cost", ranges.plannedCost, deep.job.cost);
  if (deep.job.needed) {
    checkWithin("needed beam time", ranges.beamTime_s, deep.job.needed->beamTime_s);
    checkWithin("needed time", ranges.totalTime_s, deep.job.needed->totalTime_s);
    checkWithin("needed cost", ranges.cost, deep.job.needed->cost);
  }
  for (const LimitResult& limit : deep.thermal.limits) checkWithin(limit.name, limit.predictedRange_C, limit.predicted_C);
  for (std::size_t i = 0; i < ranges.layers.size(); ++i) {
    checkWithin(deep.removal.layers[i].name + " passes", ranges.layers[i].passes, passesOrNever(deep.removal.layers[i].passes));
    checkWithin(deep.removal.layers[i].name + " removed", ranges.layers[i].removed_m, deep.removal.layers[i].removed_m);
  }
}

}  // namespace

TEST_CASE("In the samples each likely number lies within its range, and answer, verdict and results tell the same", "[assess][samples]") {
  for (const auto& [name, deep] : samplesInDepth()) {
    INFO(name);
    if (deep.ranges) checkRanges(deep);
    const std::string& row = rowOf(deep, "removal").message;
    CAPTURE(row, deep.answer);
    const auto json = nlohmann::json::parse(writeAssessment(deep));
    const auto& removal = json["removal"];
    CHECK(removal["passes_needed"].is_null() == !deep.removal.passesNeeded);
    if (deep.removal.passesNeeded && *deep.removal.passesNeeded > 0 &&
        rowOf(deep, "removal").message.find("should stay") == std::string::npos) {
      const std::string passes = std::to_string(removal["passes_needed"].get<int>()) + " pass";
      CHECK(row.find(passes) != std::string::npos);
      CHECK(row.find("likely") == std::string::npos);  // said once
    }
    if (row.find("planned leave") != std::string::npos)
      CHECK(row.find(text::percent(1 - *deep.removal.clearedFraction) + " of the surface coated") != std::string::npos);
    if (deep.removal.clearedFraction) CHECK(removal["cleared_fraction"].get<double>() == Catch::Approx(*deep.removal.clearedFraction));
    if (deep.job.totalTime_s) {
      CHECK(deep.answer.find(text::duration(json["job"]["total_time_planned_s"].get<double>())) != std::string::npos);
      CHECK(rowOf(deep, "time").message.find(text::duration(*deep.job.totalTime_s)) != std::string::npos);
    }
  }
}

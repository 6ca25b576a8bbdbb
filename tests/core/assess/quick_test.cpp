// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/quick.h"

#include "core/files/project_file.h"
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"
#include "tests/support/thorough.h"

#include <cmath>
#include <thread>

using namespace bw;
using namespace bw::test;

namespace {

void checkAgrees(const Project& project, const std::string& plan) {
  const Assessment whole = assess(project, plan, shippedLibrary());
  const Prepared prepared(project, plan, shippedLibrary());
  const QuickNumbers quick = prepared.quick(prepared.settings());
  CAPTURE(project.name, plan);
  CHECK(quick.passesNeeded.has_value() == whole.removal.passesNeeded.has_value());
  if (quick.passesNeeded) CHECK(std::abs(*quick.passesNeeded - *whole.removal.passesNeeded) <= 1);
  CHECK(quick.clearedFraction == Catch::Approx(*whole.removal.clearedFraction).margin(0.01));
  CHECK(quick.rippleAcross == Catch::Approx(whole.dose->ripple).margin(0.01));  // by sums edge-on instead of the map
  const double start = project.part.startTemperature_C;
  constexpr double mostOff = 0.05;  // half the cells, and half the places refined
  CHECK(*quick.front_C - start == Catch::Approx(*whole.thermal.frontBare_C - start).epsilon(mostOff));
  CHECK(*quick.back_C - start == Catch::Approx(*whole.thermal.backBare_C - start).epsilon(mostOff));
  CHECK(*quick.near_C - start == Catch::Approx(*whole.thermal.nearBare_C - start).epsilon(mostOff));
  CHECK(quick.workingTime_s.has_value() == whole.job.needed.has_value());
  if (quick.workingTime_s && quick.passesNeeded == whole.removal.passesNeeded) {
    CHECK(*quick.workingTime_s == whole.job.needed->totalTime_s);
    CHECK(quick.cost == whole.job.needed->cost);
  }
}

}  // namespace

TEST_CASE("The quick numbers are those of the whole assessment, nearly", "[assess][samples]") {
  for (const char* name : {"carriage-side-panel", "lamp-iron-bracket", "luggage-rack-bracket", "water-tank-lid", "lamp-bezel"}) {
    const Project project = openProject(std::string(BAREWRIGHT_SOURCE_DIR) + "/sample-projects/" + name + ".bwright", shippedLibrary());
    for (const Plan& plan : project.plans)
      if (thorough() || &plan == &project.plans.front()) checkAgrees(project, plan.name);
  }
}

TEST_CASE("One preparation serves many settings, from several threads, each with its own numbers", "[assess]") {
  const Project project = smallProject();
  const Prepared prepared(project, {}, shippedLibrary());
  const auto at = [&](double travel_m_s) {
    Settings settings = prepared.settings();
    settings.travelSpeed_m_s = travel_m_s;
    return prepared.quick(settings);
  };
  const QuickNumbers slow = at(8e-3), fast = at(30e-3);
  CHECK(*slow.back_C > *fast.back_C);
  CHECK(slow.clearedFraction >= fast.clearedFraction);
  std::vector<QuickNumbers> again(4);
  {
    std::vector<std::jthread> threads;
    for (std::size_t i = 0; i < again.size(); ++i) threads.emplace_back([&, i] { again[i] = at(i % 2 == 0 ? 8e-3 : 30e-3); });
  }
  for (std::size_t i = 0; i < again.size(); ++i) {
    const QuickNumbers& first = i % 2 == 0 ? slow : fast;
    CHECK(again[i].back_C == first.back_C);
    CHECK(again[i].passesNeeded == first.passesNeeded);
    CHECK(again[i].clearedFraction == first.clearedFraction);
  }
}

TEST_CASE("Settings that make no sense are refused, and a hand that stands still has no temperatures", "[assess]") {
  const Prepared prepared(smallProject(), {}, shippedLibrary());
  Settings settings = prepared.settings();
  settings.stepOver_m = 0;
  CHECK_THROWS_WITH(prepared.quick(settings), "the step-over is not above 0 mm");
  settings = prepared.settings();
  settings.travelSpeed_m_s = 0;
  const QuickNumbers still = prepared.quick(settings);
  CHECK_FALSE(still.back_C);
  CHECK_FALSE(still.passesNeeded);
  CHECK_THROWS_AS(Prepared(smallProject(), "no such plan", shippedLibrary()), Unusable);
  std::stop_source stop;
  stop.request_stop();
  CHECK_THROWS_AS(prepared.quick(prepared.settings(), stop.get_token()), Stopped);
}

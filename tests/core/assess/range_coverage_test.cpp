// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/ensemble.h"
#include "core/assess/removal_work.h"
#include "core/assess/unknowns.h"

#include "tests/core/assess/sample_with.h"
#include "tests/support/catch.h"
#include "tests/support/thorough.h"

#include <array>
#include <cmath>
#include <limits>
#include <random>

using namespace bw;
using namespace bw::test;

// What the ranges say against what they mean: truths are drawn from all that is uncertain, each plan is assessed in full with one of them in
// place of the likely values, and nine in ten must lie inside. The ranges come from other draws, at fewer places, and their heat from how
// it answers to each unknown by itself.

namespace {

constexpr std::array names{"passes", "time", "near", "front", "back"};
using Headline = std::array<double, names.size()>;

constexpr double never = std::numeric_limits<double>::infinity();

/// The whole assessment's numbers where everything is as drawn.
Headline headlineOf(Project project, const std::string& plan, const Drawn& drawn) {
  project.part.thickness_m = Range::exact(project.part.thickness_m.likely * drawn.thickness);
  project.part.filmCoefficient_W_m2K *= drawn.cooling;
  Work work = prepare(project, plan, shippedLibrary(), {});
  work.coat = drawn.coat;
  work.metal.absorptance = Range::exact(drawn.metalAbsorptance);
  work.metal.conductivity_W_mK = work.metal.conductivity_W_mK * drawn.conductivity;
  work.metal.specificHeat_J_kgK = work.metal.specificHeat_J_kgK * drawn.heatCapacity;
  work.step.settings.travelSpeed_m_s *= drawn.pace;
  work.step.settings.focusOffset_m += drawn.offFocus_m;
  Assessment a;
  for (const auto stage : {assessScan, assessDose, assessBareHeat, assessRemoval, assessLimits, assessFinish, assessJob}) stage(work, a);
  const bool ends = a.job.needed.has_value();
  return {ends ? *a.removal.passesNeeded : never, ends ? a.job.needed->totalTime_s : never, *a.thermal.near_C, *a.thermal.front_C,
          *a.thermal.back_C};
}

/// Share of so many truths inside the range of each headline number.
Headline covered(const Project& project, std::size_t truths) {
  const std::string& plan = project.plans.front().name;
  const Assessment first = assess(project, plan, shippedLibrary());
  const Assessment told = inDepth(project, shippedLibrary(), first);
  REQUIRE(told.ranges);
  const Ranges& ranges = *told.ranges;
  const std::array<Spread, names.size()> spreads{ranges.passesNeeded, *ranges.totalTime_s, *ranges.near_C, *ranges.front_C, *ranges.back_C};

  Work work = prepare(project, plan, shippedLibrary(), {});
  work.scan = first.physics->scan;
  const std::vector<Unknown> unknowns = unknownsOf(work);
  std::vector<std::string> ids;
  for (const Unknown& unknown : unknowns) ids.push_back(unknown.what);
  const Ensemble ensemble = priorOf(ids, truths, 777);
  Headline inside{};
  for (std::size_t n = 0; n < truths; ++n) {
    Drawn drawn{work.coat, work.metal.absorptance.likely};
    for (std::size_t v = 0; v < unknowns.size(); ++v) unknowns[v].draw(drawn, ensemble.scores[v][n]);
    const Headline truth = headlineOf(project, plan, drawn);
    for (std::size_t i = 0; i < names.size(); ++i) {
      constexpr double rounding = 1e-9;
      const bool in = truth[i] >= spreads[i].low * (1 - rounding) && truth[i] <= spreads[i].high * (1 + rounding);
      inside[i] += in ? 1.0 / static_cast<double>(truths) : 0;
    }
  }
  return inside;
}

Project planByChance(std::mt19937& random) {
  const std::vector<std::string> coats{"alkyd-dark 60",
                                       "alkyd-white 60",
                                       "alkyd-mid 50/primer-red-oxide 25",
                                       "alkyd-white 60/alkyd-dark 30",
                                       "powder-coat-dark 80",
                                       "powder-coat-pale 80",
                                       "bitumen 150",
                                       "rust-light 30",
                                       "acrylic-clear 45/acrylic-basecoat 15/primer-epoxy 40",
                                       "sample"};
  const std::string& coat = coats[random() % coats.size()];
  const std::vector<std::string> ways{"pulsed", "pulsed", "wide", "tight"};
  const std::string& way = ways[random() % ways.size()];
  Project project = sampleWith(way, coat, 8 * std::pow(5, static_cast<double>(random()) / 4294967296.0));
  settingsOf(project).passes = 1 + static_cast<int>(random() % 4U);
  return project;
}

}  // namespace

TEST_CASE("Nine in ten truths lie inside the ranges told", "[assess][samples]") {
  const std::size_t truths = thorough() ? 200 : 20;
  std::mt19937 random(11);
  std::vector<Project> plans;
  for (int plan = 0; plan < (thorough() ? 20 : 2); ++plan) plans.push_back(planByChance(random));
  Headline mean{};
  for (const Project& project : plans) {
    const Headline inside = covered(project, truths);
    for (std::size_t i = 0; i < names.size(); ++i) {
      CAPTURE(project.plans.front().name, project.coat.front().name, project.plans.front().settings.travelSpeed_m_s, names[i], inside[i]);
      CHECK(inside[i] >= (thorough() ? 0.8 : 0.6));  // of so few, one in a hundred shares is as low by chance
      mean[i] += inside[i] / static_cast<double>(plans.size());
    }
  }
  for (std::size_t i = 0; i < names.size(); ++i) {
    CAPTURE(names[i], mean[i]);
    CHECK(mean[i] >= (thorough() ? 0.85 : 0.75));
  }
}

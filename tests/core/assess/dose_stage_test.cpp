// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"

#include <cmath>

using namespace bw;
using namespace bw::test;
using Catch::Approx;

namespace {

Assessment viewed(const Project& project, Scene scene, double still_s = 1) {
  return assess(project, "", shippedLibrary(), {}, {scene, still_s});
}

double meanOf(const DoseMap& map) {
  double sum = 0;
  for (const float dose : map.dose_J_m2) sum += static_cast<double>(dose);
  return sum / static_cast<double>(map.dose_J_m2.size());
}

double greatestOf(const DoseMap& map) { return static_cast<double>(*std::ranges::max_element(map.dose_J_m2)); }

/// Lines far apart, so that they show; the hand so fast that a frame's advance is `linesPerFrame` of their distances on the part.
Project wideLines(double linesPerFrame) {
  Project project = smallProject();
  Settings& s = settingsOf(project);
  s.lineSpacing_m = 0.4e-3;
  const double lineTime = s.width_m / s.scanSpeed_m_s + project.machines[0].scan.turnaround_s;
  s.travelSpeed_m_s = s.lineSpacing_m / lineTime * linesPerFrame / (6 - linesPerFrame);
  return project;
}

}  // namespace

TEST_CASE("Another view of the dose changes no number", "[assess]") {
  const Project project = smallProject();
  const Assessment plain = assessed(project);
  CHECK_FALSE(plain.sceneMap);
  for (const Scene scene : {Scene::OneSwath, Scene::StrokeStart, Scene::StrokeEnd, Scene::StillHand, Scene::Corner}) {
    const Assessment a = viewed(project, scene);
    CAPTURE(static_cast<int>(scene));
    REQUIRE(a.sceneMap);
    CHECK(a.scene.scene == scene);
    CHECK(a.dose->mean_J_m2 == plain.dose->mean_J_m2);
    CHECK(a.thermal.back_C == plain.thermal.back_C);
    CHECK(a.answer == plain.answer);
  }
}

TEST_CASE("One swath alone carries the dose of one step-over", "[assess]") {
  const Assessment a = viewed(smallProject(), Scene::OneSwath);
  REQUIRE(a.sceneMap);
  CHECK(meanOf(*a.sceneMap) * a.sceneMap->across_m() == Approx(a.dose->mean_J_m2 * a.map->across_m()).epsilon(1e-5));
  CHECK(a.sceneMap->originAcross_m == Approx(-a.sceneMap->across_m() / 2));
}

TEST_CASE("A hand that stands twice as long leaves twice the dose", "[assess]") {
  const Project project = smallProject();
  const double period = assessed(project).overlap.framePeriod_s;
  const Assessment once = viewed(project, Scene::StillHand, 10 * period), twice = viewed(project, Scene::StillHand, 20 * period);
  REQUIRE(once.sceneMap);
  CHECK(greatestOf(*twice.sceneMap) == Approx(2 * greatestOf(*once.sceneMap)).epsilon(1e-5));
  const double energy = once.beam.meanPower_W * once.overlap.litFraction * 10 * period;
  CHECK(meanOf(*once.sceneMap) * once.sceneMap->across_m() * once.sceneMap->along_m() ==
        Approx(energy).epsilon(1e-3));  // whole pulses a frame
}

TEST_CASE("A still hand is seen even where the plan's hand stands still", "[assess]") {
  Project project = smallProject();
  settingsOf(project).travelSpeed_m_s = 0;
  CHECK(viewed(project, Scene::StillHand).sceneMap);
  CHECK_FALSE(viewed(project, Scene::StrokeStart).sceneMap);
}

TEST_CASE("A wandering hand shows in the stroke and not in the numbers", "[assess]") {
  Project project = smallProject();
  const Assessment steady = viewed(project, Scene::StrokeStart);
  project.plans[0].hand = Hand{HandState::Tired, 0.3, 7, {}};
  const Assessment wandering = viewed(project, Scene::StrokeStart), again = viewed(project, Scene::StrokeStart);
  CHECK(wandering.sceneMap->dose_J_m2 != steady.sceneMap->dose_J_m2);
  CHECK(wandering.sceneMap->dose_J_m2 == again.sceneMap->dose_J_m2);
  CHECK(wandering.dose->cv == steady.dose->cv);
  project.plans[0].hand->wanderSeed = 8;
  CHECK(viewed(project, Scene::StrokeStart).sceneMap->dose_J_m2 != wandering.sceneMap->dose_J_m2);
}

TEST_CASE("A view too long to lay down says so", "[assess]") {
  Project project = smallProject();
  settingsOf(project).travelSpeed_m_s = 1e-6;
  const Assessment a = viewed(project, Scene::StrokeStart);
  CHECK_FALSE(a.sceneMap);
  CHECK(hasNote(a, "this view would hold"));
  CHECK(a.dose);
}

TEST_CASE("Stripes are told with what makes them", "[assess]") {
  const Assessment lines = assessed(wideLines(2));  // six lines: frames lie three deep, line on line, 0.4 x 6/4 mm apart
  REQUIRE(lines.dose->stripeAlong);
  CHECK(lines.dose->stripeAlong->period_m == Approx(0.6e-3).epsilon(1e-6));
  CHECK(lines.dose->stripeAlong->cause == "lines 0.60 mm apart on the part");
  CHECK(rowOf(lines, "evenness").status == Status::Fails);
  CHECK(rowOf(lines, "evenness").message.find("Stripes every 0.60 mm along the travel, from lines 0.60 mm apart") != std::string::npos);

  const Assessment beating = assessed(wideLines(1.1));
  REQUIRE(beating.dose->stripeAlong);
  CHECK(beating.dose->stripeAlong->period_m == Approx(beating.map->along_m()).epsilon(1e-6));
  CHECK(beating.dose->stripeAlong->cause.find("beating with the hand's") != std::string::npos);

  Project frames = smallProject();
  settingsOf(frames).travelSpeed_m_s = 0.035;
  const Assessment uneven = assessed(frames);
  REQUIRE(uneven.dose->stripeAlong);
  CHECK(uneven.dose->stripeAlong->period_m == Approx(uneven.map->along_m()));
  CHECK(uneven.dose->stripeAlong->cause.find("deep") != std::string::npos);

  REQUIRE(assessed(smallProject()).dose->stripeAcross);
  CHECK(assessed(smallProject()).dose->stripeAcross->cause.find("swaths' edges") != std::string::npos);
}

TEST_CASE("Swaths there and back are warned of where the lines then bunch", "[assess]") {
  // A stack drawn upwards while the hand goes down: lines fall on one another and leave gaps.
  Project project = smallProject();
  settingsOf(project).travelSpeed_m_s = 0.08;
  const Assessment a = assessed(project);
  REQUIRE(a.dose->outOfStep);
  CHECK(a.dose->outOfStep->alternatingCv > a.dose->cv + 0.1);
  CHECK(rowOf(a, "evenness").message.find("there and back") != std::string::npos);
}

TEST_CASE("On a sloping face the dose spreads as its swaths stretch", "[assess]") {
  Project project = smallProject();
  Area flat = project.part.areas.front();
  flat.name = "nearly square";
  flat.tilt_rad = 1e-9;
  Area steep = flat;
  steep.name = "steep";
  steep.tilt_rad = std::acos(0.5);
  Area behind = flat;
  behind.name = "edge on";
  behind.tilt_rad = 1.55;
  project.part.areas = {flat, steep, behind};
  settingsOf(project).beamOffInTurns = true;
  settingsOf(project).stepOver_m = 6.2e-3;
  const Assessment a = assessed(project);
  REQUIRE(a.dose->tilted.size() == 2);
  CHECK(a.dose->tilted[0].cv == Approx(a.dose->cv).epsilon(0.02));  // on points half a radius apart
  CHECK(a.dose->tilted[0].ripple == Approx(a.dose->ripple).margin(0.02));
  // Swaths of 6 mm leave gaps of 0.2 mm, bare in their middle; stretched to 12 mm the gap between two lies under a third.
  CHECK(a.dose->ripple > 0.9);
  CHECK(a.dose->tilted[1].ripple == Approx(1.0 / 3).margin(0.02));
  CHECK(a.dose->tilted[1].peakShare == Approx(0.5));
}

TEST_CASE("A slow gate leaves dashes, a fast one none; the mean is the same", "[assess]") {
  Project project = smallProject();
  makeContinuous(project);
  settingsOf(project).beamOffInTurns = true;
  settingsOf(project).dutyFraction = 0.4;
  const Assessment even = assessed(project);
  CHECK(hasNote(even, "no gate rate"));
  project.machines[0].gate_Hz = 5e3;  // dashes 1.8 mm apart at 9 m/s
  const Assessment dashed = assessed(project);
  project.machines[0].gate_Hz = 1e6;
  const Assessment blurred = assessed(project);
  REQUIRE(dashed.dose);
  CHECK(dashed.dose->mean_J_m2 == Approx(even.dose->mean_J_m2).epsilon(1e-5));
  CHECK(dashed.dose->cv > even.dose->cv + 0.1);
  CHECK(blurred.dose->cv == even.dose->cv);
  CHECK_FALSE(hasNote(dashed, "no gate rate"));
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/scene_map.h"

#include "core/assess/assess.h"
#include "tests/core/dose/direct_dose.h"
#include "tests/core/dose/steady_process.h"
#include "tests/core/dose/usual_spot.h"
#include "tests/support/catch.h"

#include <array>
#include <random>

using namespace bw;
using namespace bw::test;
using Catch::Approx;

namespace {

/// A process with its frame at hand, as strokes want it.
struct Work {
  SteadyProcess process;
  Frame frame = process.frame();
  std::optional<Wander> wander = {};

  Strokes strokes() const {
    const Settings& s = process.settings;
    return {frame, s.travelSpeed_m_s, s.travelAngle_rad, s.stepOver_m, process.emission, gaussian, process.radius_m, wander};
  }
  DoseMap map(const ScenePlan& plan, double perRadius = 4) const { return sceneMap(strokes(), plan, process.radius_m / perRadius); }
  DoseMap map(Scene scene, double perRadius = 4) const { return map(planScene(strokes(), {scene, 1}), perRadius); }
  double middle_m() const { return (process.lit().low.x() + process.lit().high.x()) / 2; }
};

Work workAt(double angle_rad, bool pulsed = true) {
  SteadyProcess process = smallRaster();
  process.settings.travelAngle_rad = angle_rad;
  if (angle_rad == 0) process.settings.stepOver_m = 1.5e-3;
  process.emission.pulsed = pulsed;
  return {process};
}

/// (across, along) of a cell's point.
Point placeOf(const DoseMap& map, int column, int row) {
  return {map.originAcross_m + (column + 0.5) * map.cellAcross_m, map.originAlong_m + (row + 0.5) * map.cellAlong_m};
}

double energyIn(const DoseMap& map) {
  double sum = 0;
  for (const float dose : map.dose_J_m2) sum += static_cast<double>(dose);
  return sum * map.cellAcross_m * map.cellAlong_m;
}

/// Read between points, by cubics along each axis: off by 3/128 h^4 g'''' each, 5e-5 of a Gaussian's peak at twelve points a radius.
double read(const DoseMap& map, const Point& place) {
  const auto weights = [](double t) {
    return std::array<double, 4>{-t * (t - 1) * (t - 2) / 6, (t + 1) * (t - 1) * (t - 2) / 2, -(t + 1) * t * (t - 2) / 2,
                                 (t + 1) * t * (t - 1) / 6};
  };
  const double x = (place.x() - map.originAcross_m) / map.cellAcross_m - 0.5, y = (place.y() - map.originAlong_m) / map.cellAlong_m - 0.5;
  const auto across = weights(x - std::floor(x)), along = weights(y - std::floor(y));
  double sum = 0;
  for (int j = 0; j < 4; ++j)
    for (int i = 0; i < 4; ++i)
      sum += along[static_cast<std::size_t>(j)] * across[static_cast<std::size_t>(i)] *
             static_cast<double>(map.at(static_cast<int>(std::floor(x)) + i - 1, static_cast<int>(std::floor(y)) + j - 1));
  return sum;
}

/// Largest difference, over the mean dose, between a scene's points with low <= along <= high and the endless plain sum there.
double againstSteady(const Work& work, const DoseMap& map, double low_m, double high_m, double began_m) {
  const SteadyProcess& p = work.process;
  const RepeatCell cell = p.cell();
  const auto rows = p.rows();
  const DirectDose direct({1, 1, Point::Zero(), Point(cell.across_m, cell.along_m), true}, roundSpot(p.radius_m));
  const double mean = energyOf(rows) / (cell.across_m * cell.along_m);
  std::mt19937 random(5);
  double worst = 0;
  int looked = 0;
  while (looked < 40) {
    const int column = static_cast<int>(random() % static_cast<unsigned>(map.columns)),
              row = static_cast<int>(random() % static_cast<unsigned>(map.rows));
    const Point place = placeOf(map, column, row);
    if (place.y() < low_m || place.y() > high_m) continue;
    const double expected = direct.at(place + Point(work.middle_m(), -began_m), rows);
    worst = std::max(worst, std::abs(static_cast<double>(map.at(column, row)) - expected) / mean);
    ++looked;
  }
  return worst;
}

constexpr double angles[] = {std::numbers::pi / 2, 0.65, 0};

}  // namespace

TEST_CASE("Far from its beginning a stroke is the steady state", "[dose]") {
  for (const double angle : angles) {
    for (const bool pulsed : {true, false}) {
      const Work work = workAt(angle, pulsed);
      const ScenePlan plan = planScene(work.strokes(), {Scene::StrokeStart, 1});
      const double steady = work.process.lit().high.y() + 3 * work.process.radius_m;
      CAPTURE(angle, pulsed);
      CHECK(plan.high.y() > steady + work.process.advance_m());
      CHECK(againstSteady(work, work.map(plan), steady, plan.high.y(), 0) < 1e-4);
    }
  }
}

TEST_CASE("Far from its end a stroke is the steady state", "[dose]") {
  for (const double angle : angles) {
    const Work work = workAt(angle);
    const ScenePlan plan = planScene(work.strokes(), {Scene::StrokeEnd, 1});
    const double steady = work.process.lit().low.y() - 3 * work.process.radius_m;
    CAPTURE(angle);
    CHECK(plan.low.y() < steady - work.process.advance_m());
    CHECK(againstSteady(work, work.map(plan), plan.low.y(), steady, plan.strokes.front().start.y()) < 1e-4);
  }
}

TEST_CASE("A stroke's energy is what the beam gave while it was on", "[dose]") {
  for (const bool pulsed : {true, false}) {
    for (const double frames : {0.3, 1.0, 3.4}) {
      const Work work = workAt(0.65, pulsed);
      const double on_s = frames * work.frame.period_s();
      const ScenePlan plan{Point(-4e-3, -4e-3), Point(4e-3, 8e-3), {{Point(0.1e-3, 0.2e-3), 0, on_s, false, {}}}, on_s};
      // Its turns burn. Pulses come at k/f from the beginning of each frame.
      double given = work.process.emission.meanPower_W * on_s;
      if (pulsed) {
        const auto pulses = [&](double s) { return std::ceil(s * 240e3 * (1 - 1e-13)); };
        const double whole = std::floor(frames), rest = (frames - whole) * work.frame.period_s();
        given = (whole * pulses(work.frame.period_s()) + (rest > 0 ? pulses(rest) : 0)) * 255 / 240e3;
      }
      CAPTURE(pulsed, frames);
      CHECK(energyIn(work.map(plan)) == Approx(given).epsilon(2e-6));  // 3e-7 is cut off, floats do the rest
    }
  }
}

TEST_CASE("One stroke cut in two is the same stroke", "[dose]") {
  const Work work = workAt(0.65);
  const double half_s = 2 * work.frame.period_s();
  ScenePlan plan{Point(-4e-3, -4e-3), Point(4e-3, 8e-3), {{Point::Zero(), 0, 2 * half_s, false, {}}}, 2 * half_s};
  const DoseMap whole = work.map(plan);
  plan.strokes = {{Point::Zero(), 0, half_s, false, {}}, {Point(0, half_s * work.process.settings.travelSpeed_m_s), 0, half_s, false, {}}};
  plan.beamOn_s = half_s;
  const DoseMap parts = work.map(plan);
  double worst = 0, most = 0;
  for (std::size_t i = 0; i < whole.dose_J_m2.size(); ++i) {
    worst = std::max(worst, static_cast<double>(std::abs(whole.dose_J_m2[i] - parts.dose_J_m2[i])));
    most = std::max(most, static_cast<double>(whole.dose_J_m2[i]));
  }
  CHECK(worst < 1e-5 * most);  // floats in another order
}

TEST_CASE("A still hand leaves its frames one upon the other", "[dose]") {
  const Work work = workAt(0.65);
  const double period_s = work.frame.period_s();
  const Travel still(0, 0.65);
  const auto frameRows = rowsOf(work.frame, still, work.process.emission, work.process.radius_m);
  const DoseMap once = stillMap(frameRows, gaussian, roundSpot(work.process.radius_m), work.process.radius_m / 4);
  const DoseMap five = work.map(planScene(work.strokes(), {Scene::StillHand, 5 * period_s}));
  CHECK(energyIn(five) == Approx(5 * energyIn(once)).epsilon(1e-5));

  // Point by point against the plain sum, and half a frame more: its first pulses.
  auto rows = frameRows;
  for (DabRow& row : rows) row.energy_J *= 5;
  const DirectDose direct({1, 1, Point::Zero(), Point::Ones(), false}, roundSpot(work.process.radius_m));
  const DoseMap more = work.map(planScene(work.strokes(), {Scene::StillHand, 5.5 * period_s}));
  const auto begun = rowsOf(work.frame, still, work.process.emission, work.process.radius_m, {0, 0.5 * period_s});
  REQUIRE(energyOf(begun) == Approx(energyOf(frameRows) / 2).epsilon(0.01));
  std::mt19937 random(2);
  double worst = 0, most = 0;
  for (int n = 0; n < 100; ++n) {
    const int column = static_cast<int>(random() % static_cast<unsigned>(five.columns)),
              row = static_cast<int>(random() % static_cast<unsigned>(five.rows));
    const Point place = placeOf(five, column, row) + Point(work.middle_m(), 0);
    const double expected = direct.at(place, rows);
    worst = std::max({worst, std::abs(static_cast<double>(five.at(column, row)) - expected),
                      std::abs(static_cast<double>(more.at(column, row)) - expected - direct.at(place, begun))});
    most = std::max(most, expected);
  }
  CHECK(worst < 1e-4 * most);
}

TEST_CASE("An area's corner: free on one side, a stroke's beginning from the second swath on", "[dose]") {
  const Work work = workAt(std::numbers::pi / 2);
  const double stepOver = work.process.settings.stepOver_m,
               reach = work.process.lit().high.x() - work.middle_m() + 3 * work.process.radius_m;
  REQUIRE(reach < 2 * stepOver);
  constexpr double perRadius = 12;
  const DoseMap corner = work.map(Scene::Corner, perRadius), start = work.map(Scene::StrokeStart, perRadius);
  ScenePlan one = planScene(work.strokes(), {Scene::StrokeStart, 1});
  one.strokes = {{Point(-work.middle_m(), 0), 0, one.beamOn_s, false, {}}};
  const DoseMap alone = work.map(one, perRadius);
  double mean = 0;
  for (const float dose : start.dose_J_m2) mean += static_cast<double>(dose) / static_cast<double>(start.dose_J_m2.size());
  double worstFree = 0, worstInside = 0;
  for (int row = 6; row < start.rows - 6; row += 7) {
    for (int column = 6; column < start.columns - 6; column += 3) {
      const Point place = placeOf(start, column, row);
      // The second swath's left neighbour is the first; beyond that there is none, nor is one missed within 2 step-overs less the reach.
      if (place.x() > reach - 2 * stepOver)
        worstInside =
            std::max(worstInside, std::abs(read(corner, place + Point(stepOver, 0)) - static_cast<double>(start.at(column, row))));
      if (place.x() < stepOver - reach)
        worstFree = std::max(worstFree, std::abs(read(corner, place) - static_cast<double>(alone.at(column, row))));
    }
  }
  CHECK(worstInside < 5e-4 * mean);  // read between points
  CHECK(worstFree < 5e-4 * mean);
}

TEST_CASE("A wandering hand: the same seed, the same map", "[dose]") {
  Work work = workAt(std::numbers::pi / 2);
  const DoseMap steady = work.map(Scene::StrokeStart);
  work.wander = Wander(0.3, 8);
  const DoseMap one = work.map(Scene::StrokeStart), same = work.map(Scene::StrokeStart);
  work.wander = Wander(0.3, 9);
  CHECK(one.dose_J_m2 == same.dose_J_m2);
  CHECK(one.dose_J_m2 != work.map(Scene::StrokeStart).dose_J_m2);
  work.wander = Wander(0, 9);
  CHECK(steady.dose_J_m2 == work.map(Scene::StrokeStart).dose_J_m2);
}

TEST_CASE("One endless swath is the steady state with room to itself", "[dose]") {
  const Work work = workAt(0.65);
  const SteadyProcess& p = work.process;
  const DoseMap map = oneSwathMap(p.rows(), gaussian, roundSpot(p.radius_m), p.lit(), p.advance_m(), p.radius_m / 4);
  CHECK(energyIn(map) == Approx(energyOf(p.rows())).epsilon(2e-6));
  const DirectDose direct({1, 1, Point::Zero(), Point(1, p.advance_m()), true}, roundSpot(p.radius_m));
  double worst = 0, most = 0;
  for (int n = 0; n < 60; ++n) {
    const int column = (n * 37) % map.columns, row = (n * 11) % map.rows;
    const double expected = direct.at(placeOf(map, column, row) + Point(work.middle_m(), 0), p.rows());
    worst = std::max(worst, std::abs(static_cast<double>(map.at(column, row)) - expected));
    most = std::max(most, expected);
  }
  CHECK(worst < 1e-4 * most);
}

TEST_CASE("What a scene costs is told before it is made, and making it can be stopped", "[dose]") {
  const Work work = workAt(0.65);
  for (const Scene scene : {Scene::StrokeStart, Scene::StrokeEnd, Scene::Corner, Scene::StillHand}) {
    const ScenePlan plan = planScene(work.strokes(), {scene, 0.1});
    CHECK(sceneRows(work.strokes(), plan) > 10);
    std::stop_source source;
    source.request_stop();
    CHECK_THROWS_AS(sceneMap(work.strokes(), plan, 15e-6, source.get_token()), Stopped);
  }
  for (const Scene scene : {Scene::Endless, Scene::OneSwath}) CHECK(planScene(work.strokes(), {scene, 1}).strokes.empty());
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/heat_windows.h"

#include "core/heat/part_map.h"
#include "tests/core/heat/sheets.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>

using namespace bw;
using test::Heated;
using test::rectangle;

namespace {

PartSheet smallSheet(double emissivity = 0.7) {
  PartSheet sheet = test::steelSheet();
  sheet.size_m = Point(0.3, 0.2);
  sheet.emissivity = emissivity;
  return sheet;
}

HandTour tourOn(const Point& part_m, std::vector<TourStroke> strokes) {
  HandTour tour;
  tour.part_m = part_m;
  tour.strokes = std::move(strokes);
  return tour;
}

/// Over both ends; far apart; after a pause; along a side, half beyond it; and a hand that stands.
HandTour everything() {
  return tourOn({0.3, 0.2}, {{0, 20, 0, Point(0.05, 0), 0.01, 1, 0},
                             {20, 40, 20, Point(0.25, 0.2), -0.01, 1, 0},
                             {65, 75, 65, Point(0.1, 0.05), 0.01, 0.6, 1},
                             {75, 85, 75, Point(0.3, 0.05), 0.01, 1, 1},
                             {85, 88, 85, Point(0.15, 0.1), 0, 1, 1}});
}

HandTour oneStroke() { return tourOn({0.3, 0.2}, {{0, 14, 0, Point(0.15, 0.03), 0.01, 1, 0}}); }

double differenceOf(const Heated& a, const Heated& b) {
  double worst = 0;
  for (const Point& place : {Point(0.15, 0.1), Point(0.164, 0.1), Point(0.18, 0.1), Point(0.15, 0.04), Point(0.15, 0.16)})
    for (const double time : {6.0, 6.6, 7.0, 7.5, 8.5, 11.0, 14.0, 25.0})
      worst = std::max(worst, std::abs(a.mean_C(place, time) - b.mean_C(place, time)));
  return worst;
}

}  // namespace

TEST_CASE("With windows that move, pause, jump and meet edges the energy is all there", "[heat]") {
  for (const double finest : {6e-3, 3e-3}) {
    const Heated heated(smallSheet(), rectangle(0.03, 0.01), everything(), 1e-3, 200, 60, test::windows(400, finest));
    const PartRun& run = heated.run;
    CAPTURE(finest, run.absorbed_J, run.stored_J, run.lost_J);
    REQUIRE_FALSE(run.field.windows.empty());
    CHECK(run.young_J == 0);
    CHECK(run.stored_J + run.lost_J == Catch::Approx(run.absorbed_J).epsilon(1e-9));
    // What hangs over an end is lost: of a frame's length a, a/8v at either end of the first two strokes; half of the one along the side.
    CHECK(run.absorbed_J == Catch::Approx(200 * (40 - 4 * 0.01 / 0.08 + 10 * 0.6 + 10 * 0.5 + 3)).epsilon(1e-4));
    CHECK(run.lost_J > 0.1 * run.absorbed_J);
  }
}

TEST_CASE("Half the finest cell brings a quarter of the error", "[heat]") {
  const auto heated = [](double finest_m) {
    return std::make_unique<Heated>(smallSheet(), rectangle(0.03, 0.014), oneStroke(), 3e-3, 300, 12, test::windows(150, finest_m),
                                    plateAt(smallSheet(), 220));
  };
  const auto best = heated(1e-3), coarse = heated(8e-3), middle = heated(4e-3), fine = heated(2e-3);
  const double a = differenceOf(*coarse, *best), b = differenceOf(*middle, *best), c = differenceOf(*fine, *best);
  CAPTURE(a, b, c);
  CHECK(b < 0.35 * a);
  CHECK(c < 0.35 * b);
  CHECK(c < 0.5);
}

TEST_CASE("The answer does not hang on the windows' size, and is the same twice", "[heat]") {
  PartGrid grid = test::windows(300, 2.5e-3);
  const Heated usual(smallSheet(), rectangle(0.03, 0.014), oneStroke(), 3e-3, 300, 12, grid),
      again(smallSheet(), rectangle(0.03, 0.014), oneStroke(), 3e-3, 300, 12, grid);
  grid.windowMemory *= 1.6;
  grid.windowPad *= 1.6;
  const Heated wide(smallSheet(), rectangle(0.03, 0.014), oneStroke(), 3e-3, 300, 12, grid);
  CHECK(differenceOf(usual, wide) < 0.5);  // of a rise of 360 K: what the whole may be off
  CHECK(usual.run.field.enthalpy_J_m3 == again.run.field.enthalpy_J_m3);
  CHECK(usual.run.lost_J == again.run.lost_J);
  const auto cells = [](const Heated& h) {
    double sum = 0;
    for (const auto& window : h.run.field.windows)
      for (const auto& moment : window.moments) sum += static_cast<double>(moment.cells.cells());
    return sum;
  };
  CHECK(cells(wide) > 1.4 * cells(usual));
}

TEST_CASE("A part smaller than its windows is finer all over", "[heat]") {
  PartSheet sheet = smallSheet();
  sheet.size_m = Point(0.05, 0.04);
  const HandTour tour = tourOn(sheet.size_m, {{0, 4, 0, Point(0.025, 0), 0.01, 1, 0}});
  const Heated windows(sheet, rectangle(0.03, 0.01), tour, 3e-3, 100, 5, test::windows(12, 2e-3), plateAt(sheet, 150));
  for (const auto& moment : windows.run.field.windows.front().moments) CHECK((moment.cells == windows.run.field.windows.front().part));
  CHECK(windows.run.stored_J + windows.run.lost_J == Catch::Approx(windows.run.absorbed_J).epsilon(1e-9));
  const Heated finer(sheet, rectangle(0.03, 0.01), tour, 3e-3, 100, 5, test::windows(400, 1e-3), plateAt(sheet, 150));
  for (const Point& place : {Point(0.025, 0.02), Point(0.001, 0.039), Point(0.04, 0.01)})
    for (const double time : {1.0, 2.5, 4.0, 8.0})
      CHECK(windows.mean_C(place, time) == Catch::Approx(finer.mean_C(place, time)).margin(0.6));
}

TEST_CASE("A beam's own lines on windows are the full Green's sum", "[heat]") {
  // Near heat that never hands over is the whole sum, with losses: constant properties, a swinging line of 20 mm, a spot of less than a
  // cell. Each piece of near heat may be off by 0.16 %, cells of 1.7 mm under so thin a line by one; ahead of the windows the
  // curve through cells of 7 mm at the foot of the front swings by 0.7 K.
  PartSheet sheet = test::constantSheet();
  sheet.size_m = Point(0.12, 0.08);
  sheet.thickness_m = 1.5e-3;
  const HandTour tour = tourOn(sheet.size_m, {{0, 15, 0, Point(0.05, 0.01), 4e-3, 1, 0}, {15, 30, 15, Point(0.07, 0.07), -4e-3, 1, 0}});
  Settings settings;
  settings.pattern = Pattern::Line;
  settings.width_m = 20e-3;
  settings.scanSpeed_m_s = 0.1;
  const Frame frame = buildFrame(settings, {});
  const Heated heated(sheet, frame, tour, 3e-3, 120, 30, test::windows(200, 2e-3));
  const PathHeat whole(frame, test::quarterTurn, {false, 0, 1}, 3e-3, heated.plate, tour, 1e3);
  for (const Point& place : {Point(0.05, 0.04), Point(0.07, 0.03), Point(0.11, 0.07)}) {
    for (const double time : {3.0, 7.55, 12.0, 20.0, 25.1, 29.0, 45.0}) {
      const FacesRise rise = whole.rise_K_W({place, time});
      const Faces faces = heated.heat.at({place, time});
      INFO("at " << place.x() << ", " << place.y() << " after " << time << " s");
      CHECK(faces.front_C - 20 == Catch::Approx(120 * rise.front_K).epsilon(0.015).margin(0.8));
      CHECK(faces.back_C - 20 == Catch::Approx(120 * rise.back_K).epsilon(0.015).margin(0.8));
    }
  }
}

TEST_CASE("A map by windows has the peak under the hand, and the energy", "[heat]") {
  const Heated heated(smallSheet(), rectangle(0.03, 0.014), oneStroke(), 3e-3, 300, 12, test::windows(600, 2.5e-3),
                      plateAt(smallSheet(), 220));
  const PartMap map = partMap(heated.heat, 60);
  REQUIRE(map.time_s.size() == map.temperature_C.size());
  REQUIRE(map.time_s.size() == map.hand_m.size());
  CHECK(map.time_s.size() >= 55);
  CHECK(map.time_s.back() == Catch::Approx(26));
  float highest = 0;
  for (std::size_t t = 0; t < map.time_s.size(); ++t) {
    CHECK(map.hand_m[t].has_value() == (map.time_s[t] <= 14));
    for (std::size_t k = 0; k < map.highest_C.size(); ++k) CHECK(map.temperature_C[t][k] <= map.highest_C[k]);
  }
  for (const float value : map.highest_C) highest = std::max(highest, value);
  double hottest = 0;  // of the place itself
  for (double time = 5; time < 9; time += 0.05) hottest = std::max(hottest, heated.mean_C(Point(0.15, 0.1), time));
  CHECK(static_cast<double>(highest) == Catch::Approx(hottest).epsilon(0.02));
  const MetalEnthalpy& metal = heated.part.enthalpy();
  double held = 0;
  for (const float value : map.temperature_C.back())
    held += metal.enthalpy_J_m3(static_cast<double>(value)) * 0.8e-3 * map.cellX_m * map.cellY_m;
  CHECK(held == Catch::Approx(heated.run.stored_J).epsilon(1e-3));
}

TEST_CASE("Windows follow the hand, close in pauses and never grow beyond reason", "[heat]") {
  const PartSheet sheet = test::steelSheet();
  const MetalEnthalpy metal(sheet.metal);
  const SheetLaw law(sheet, metal);
  const HandTour tour = tourOn({2, 2}, {{0, 10, 0, Point(0.1, 0.1), 0.01, 1, 0},
                                        {100, 101, 100, Point(1.9, 1.9), 0.01, 1, 0},
                                        {101, 110, 101, Point(0.1, 0.1), 0.01, 1, 0}});
  CellBlock block(law, tour.part_m, 400, 400);
  block.fill(0);
  LightBox frame;
  frame.size = Point(0.03, 0.01);
  const HeatWindows windows(tour, frame, 1.2e-5, 2, 3);
  const CellRange moving = windows.during(5, 5.2, block);
  CHECK(moving.has(20, 30));  // the hand, 0.15 m along
  CHECK(moving.firstAcross > 10);
  CHECK(moving.cells() < 400);
  CHECK(windows.during(60, 61, block).empty());
  CHECK(windows.during(200, 201, block).empty());
  const CellRange jumped = windows.during(101.5, 101.6, block);
  CHECK(jumped.has(20, 21));
  CHECK(jumped.cells() <= 6000);
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/part_heat.h"

#include "tests/core/heat/sheets.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>

using namespace bw;
using test::Heated;
using test::rectangle;

namespace {

using std::numbers::pi;
const MetalHeat plain{ThermalCurve::Constant, ThermalCurve::Constant, 52, 3.5e6 / 7850, 7850};

PartSheet sheetOf(const Point& size_m, double film_W_m2K = 12, double thickness_m = 1.2e-3) {
  return {plain, thickness_m, size_m, film_W_m2K, 0, 20, 20};
}

/// A tour by hand: every stroke forth, side by side in the part's middle.
struct Strokes {
  Point part_m;
  int swaths;
  double step_m, stroke_m, speed_m_s;
  int passes;
  double pause_s;

  HandTour tour() const {
    HandTour tour;
    tour.part_m = part_m;
    double now = 0;
    for (int pass = 0; pass < passes; ++pass) {
      for (int i = 0; i < swaths; ++i) {
        const double across = (part_m.x() - swaths * step_m) / 2 + (i + 0.5) * step_m, time = stroke_m / speed_m_s;
        tour.strokes.push_back({now, now + time, now, Point(across, (part_m.y() - stroke_m) / 2), speed_m_s, 1, pass});
        now += time;
      }
      now += pause_s;
    }
    return tour;
  }
  Point lastMiddle() const { return {(part_m.x() + (swaths - 1) * step_m) / 2, part_m.y() / 2}; }
};

struct Rise {
  double time_s, rise_K_W;
};

void checkStrokes(const Strokes& strokes, double frameAlong_m, const std::vector<Rise>& rows) {
  const Heated heated(sheetOf(strokes.part_m), rectangle(0.03, frameAlong_m), strokes.tour(), 1e-5, 1, 1000);
  for (const Rise& row : rows) {
    INFO(row.time_s << " s");
    CHECK(heated.mean_C(strokes.lastMiddle(), row.time_s, heated.plate.mixingAge_s()) - 20 ==
          Catch::Approx(row.rise_K_W).epsilon(0.01).margin(0.008));  // the table's edges lose nothing
  }
}

const Strokes wholePart{{0.09, 0.4}, 3, 0.03, 0.4, 0.02, 4, 5};
const Strokes patchOfWidePart{{0.4, 0.4}, 3, 0.03, 0.12, 0.02, 4, 5};
const Strokes oneSwath{{0.3, 0.6}, 1, 0.03, 0.6, 0.02, 1, 0};

}  // namespace

// The tables are sums over cosine modes of the whole plate, edges and loss included, with the frame as a moving rectangle:
// tests/reference/heat_values.py, tour_rise. Carslaw and Jaeger 2nd ed. section 3.3.

TEST_CASE("Heat of a tour over the whole part agrees with cosine modes", "[heat]") {
  checkStrokes(wholePart, 0.01, {{49.7, 0.13448}, {50, 0.30328},    {50.3, 0.50789}, {51, 0.52384},    {59, 0.45065},    {114.7, 0.40516},
                                 {115, 0.57335},  {115.3, 0.77737}, {116, 0.79193},  {124, 0.70357},   {179.7, 0.57985}, {180, 0.74771},
                                 {180.3, 0.9514}, {181, 0.96519},   {189, 0.86843},  {244.7, 0.69782}, {245, 0.86547},   {245.3, 1.069},
                                 {246, 1.0823},   {254, 0.98013},   {280, 0.79187},  {360, 0.46897},   {860, 0.026402}});
}

TEST_CASE("Heat of one swath across the middle of a part agrees with cosine modes", "[heat]") {
  checkStrokes(oneSwath, 0.01,
               {{14.7, 0.0056307}, {15, 0.17378}, {15.3, 0.37769}, {16, 0.39026}, {28.5, 0.2004}, {50, 0.11631}, {130, 0.041648}});
}

TEST_CASE("Heat of a patch of a wide part agrees with cosine modes", "[heat]") {
  checkStrokes(patchOfWidePart, 0.01,
               {{15, 0.22719},
                {15.3, 0.43342},
                {16, 0.45101},
                {38.3, 0.67904},
                {39, 0.69356},
                {40.7, 0.65854},
                {61.3, 0.84727},
                {62, 0.86},
                {63.7, 0.82076},
                {84.3, 0.96809},
                {85, 0.97967},
                {86.7, 0.93771}});
}

TEST_CASE("In the long run a part that loses nothing holds all the energy, spread evenly", "[heat]") {
  for (const Strokes& strokes : {wholePart, patchOfWidePart, oneSwath}) {
    const Heated heated(sheetOf(strokes.part_m, 0), rectangle(0.03, 0.01), strokes.tour(), 1e-3, 10, 2e5);
    const double even = heated.run.absorbed_J / (3.5e6 * 1.2e-3 * strokes.part_m.prod());
    CHECK(heated.run.lost_J == 0);
    CHECK(heated.mean_C(strokes.lastMiddle(), 2e5) - 20 == Catch::Approx(even).epsilon(1e-4));
    CHECK(heated.mean_C(Point::Zero(), 2e5) - 20 == Catch::Approx(even).epsilon(1e-4));
  }
}

TEST_CASE("What is stored and lost is what was absorbed", "[heat]") {
  struct Row {
    MetalHeat metal;
    double emissivity, thickness_m, cooling_s;
  };
  const MetalHeat steel{ThermalCurve::CarbonSteel, ThermalCurve::CarbonSteel, 53.3, 440, 7850};
  const MetalHeat aluminium{ThermalCurve::Aluminium5xxx7xxx, ThermalCurve::Aluminium5xxx7xxx, 142, 911, 2700};
  const MetalHeat stainless{ThermalCurve::StainlessSteel, ThermalCurve::StainlessSteel, 14.9, 455, 7900};
  for (const Row& row : {Row{plain, 0, 1.2e-3, 0}, Row{plain, 0.5, 1.2e-3, 500}, Row{steel, 0.7, 0.8e-3, 0}, Row{steel, 0.7, 0.8e-3, 2000},
                         Row{aluminium, 0.3, 1e-3, 300}, Row{stainless, 0.4, 2e-3, 300}, Row{steel, 0.7, 20e-3, 300}}) {
    PartSheet sheet = sheetOf(wholePart.part_m, 12, row.thickness_m);
    sheet.metal = row.metal;
    sheet.emissivity = row.emissivity;
    const Heated heated(sheet, rectangle(0.03, 0.01), wholePart.tour(), 1e-3, 200, row.cooling_s);
    const PartRun& run = heated.run;
    INFO(row.thickness_m << " m, stored " << run.stored_J << ", lost " << run.lost_J << ", young " << run.young_J << " of "
                         << run.absorbed_J);
    CHECK(run.absorbed_J == Catch::Approx(200 * 4 * 3 * 20.0).epsilon(0.03));  // all but what hangs over the ends
    CHECK(run.stored_J + run.lost_J + run.young_J == Catch::Approx(run.absorbed_J).epsilon(1e-4));
    if (row.cooling_s >= 2000) CHECK(run.lost_J > 0.95 * run.absorbed_J);
  }
}

TEST_CASE("A warm part cools at its own rate, its edges too", "[heat]") {
  const Heated heated(sheetOf(wholePart.part_m), rectangle(0.03, 0.01), wholePart.tour(), 1e-3, 10, 1200);
  const double end = heated.near.tour().end_s(), late = heated.mean_C(wholePart.lastMiddle(), end + 900) - 20;
  const double later = heated.mean_C(wholePart.lastMiddle(), end + 1100) - 20;
  const double edges = 2 * 1.2e-3 * (0.09 + 0.4) / (2 * 0.09 * 0.4);
  CHECK(later / late == Catch::Approx(std::exp(-200 * heated.plate.lossRate_1_s() * (1 + edges))).epsilon(0.002));
}

TEST_CASE("Many passes warm a part as far as its loss allows", "[heat]") {
  Strokes strokes = wholePart;
  strokes.passes = 40;
  const Heated heated(sheetOf(strokes.part_m), rectangle(0.03, 0.01), strokes.tour(), 1e-3, 10, 0);
  const double end = heated.near.tour().end_s();
  double stored = 0;
  for (double age = 0; age < 65; age += 1) stored += heated.heat.part_C(Point(0.045, 0.2), end - age) / 65;
  // Steady: mean power over the loss of both faces, of the part and of what is still too young for the grid.
  const double steady = 10 * 60.0 / 65 / (2 * 12 * 0.09 * 0.4 * (1 + 2 * 1.2e-3 * 0.49 / (2 * 0.036)));
  CHECK(stored - 20 < steady);
  CHECK(stored - 20 > 0.8 * steady);
}

TEST_CASE("A lump warms as one", "[heat]") {
  // 60 x 60 x 40 mm: heat crosses it faster than the tour goes on; lumped capacity, Biot number 12 x 0.02/52 = 0.005.
  const PartSheet lump = sheetOf(Point(0.06, 0.06), 12, 0.04);
  const Strokes strokes{{0.06, 0.06}, 2, 0.03, 0.06, 0.005, 6, 20};
  const Heated heated(lump, rectangle(0.02, 0.01), strokes.tour(), 1e-3, 300, 600);
  const double end = heated.near.tour().end_s();
  const double loss = 12 * (2 * 0.0036 + 4 * 0.06 * 0.04) / (3.5e6 * 0.0036 * 0.04);
  const double mass = 3.5e6 * 0.0036 * 0.04, after = heated.mean_C(Point(0.03, 0.03), end + 600) - 20;
  CHECK(after == Catch::Approx(heated.run.absorbed_J / mass * std::exp(-loss * (600 + end / 2))).epsilon(0.03));
  CHECK(heated.mean_C(Point(0.001, 0.059), end + 600) - 20 == Catch::Approx(after).epsilon(0.02));
}

// Half a kelvin is what packaged finite elements keep too at their cheapest settings (tests/bench/sheet_peer.sh), of a rise of 190 K and
// 363 K. Of it 0.35 K near the part's ends, after a minute, is that the tables' edges lose nothing; the tables themselves are good to 0.05
// K.
TEST_CASE("A sheet of constant properties follows packaged finite elements", "[heat]") {
  // tests/reference/SOURCES.md, heated sheet: 1.0 x 0.6 m, 0.8 mm, 150 W.
  for (const PartGrid& grid : {PartGrid{900}, PartGrid{1600}, PartGrid{6000}, test::windows(900, 2e-3)}) {
    const Heated heated(test::constantSheet(), rectangle(0.03, 0.014), test::thereAndBack(), 3e-3, 150, 0, grid);
    CAPTURE(grid.cells, grid.finest_m);
    CHECK(test::worstOf(heated, "sheet_constant.csv") < (grid.cells < 2000 ? 0.5 : 0.9));
  }
}

TEST_CASE("A steel sheet that glows follows packaged finite elements", "[heat]") {
  // 300 W, EN 1993-1-2 curves, emissivity 0.7; the hottest is 383 degrees.
  const PartSheet sheet = test::steelSheet();
  const auto worst = [&](const PartGrid& grid) {
    return test::worstOf(Heated(sheet, rectangle(0.03, 0.014), test::thereAndBack(), 3e-3, 300, 0, grid, plateAt(sheet, 220)),
                         "sheet_steel.csv");
  };
  CHECK(worst(test::windows(900, 2e-3)) < 0.5);
  CHECK(worst(test::windows(3600, 4e-3)) < 2.5);
  // Without windows near heat spreads and cools with the properties of a middling temperature: 2 % of the rise.
  CHECK(worst({20000}) < 7);
  CHECK(worst({1600}) < 12);
}

TEST_CASE("Without windows the hottest of glowing steel is right to a hundredth, and nothing is off by more than a twentieth of it",
          "[heat]") {
  // Against windows of 1.6 mm, which the sheet above holds to packaged finite elements; every second of two strokes, up to 720 degrees.
  const PartSheet sheet = test::steelSheet();
  struct Row {
    double power_W, nearPlate_C;  // that of the plan: 20 degrees and 0.6 of the rise that a swath alone brings, at most 400
  };
  for (const Row& row : {Row{300, 242}, Row{500, 389}, Row{800, 420}}) {
    const auto heated = [&](const PartGrid& grid, double near_C) {
      return Heated(sheet, rectangle(0.03, 0.014), test::thereAndBack(), 3e-3, row.power_W, 0, grid, plateAt(sheet, near_C));
    };
    const Heated fine = heated(test::windows(900, 1.6e-3), 220), quick = heated({500}, row.nearPlate_C);
    double hottest = 0, hottestQuick = 0, off = 0;
    for (double time_s = 1; time_s <= 120; ++time_s) {
      for (const Point& probe : test::probes) {
        const double exact = fine.mean_C(probe, time_s), told = quick.mean_C(probe, time_s);
        hottest = std::max(hottest, exact);
        hottestQuick = std::max(hottestQuick, told);
        off = std::max(off, std::abs(told - exact));
      }
    }
    CAPTURE(row.power_W, hottest, hottestQuick, off);
    CHECK(hottestQuick - 20 == Catch::Approx(hottest - 20).epsilon(0.012));
    CHECK(off < 0.055 * (hottest - 20));
  }
}

TEST_CASE("Half the step brings a quarter of the error", "[heat]") {
  PartSheet sheet = sheetOf(Point(0.3, 0.2), 12);
  sheet.emissivity = 0.5;
  const Strokes strokes{{0.3, 0.2}, 4, 0.03, 0.2, 0.01, 1, 0};
  const auto middle = [&](double perStep) {
    PartGrid grid{400, perStep, 1e9};
    const Heated heated(sheet, rectangle(0.03, 0.01), strokes.tour(), 1e-3, 150, 0, grid);
    return heated.heat.part_C(Point(0.15, 0.11), heated.run.field.time_s.back());
  };
  const double exact = middle(0.02), coarse = std::abs(middle(1.6) - exact), fine = std::abs(middle(0.8) - exact);
  CAPTURE(exact, coarse, fine);
  CHECK(coarse > 1e-4);  // there is an error to halve
  CHECK(fine < 0.45 * coarse);
}

TEST_CASE("Near and part heat count every joule of a raster once", "[heat]") {
  struct Row {
    double late_s, front_K_W, back_K_W;
  };
  // Every age summed in one Green's sum, through two frames of 0.155 s: tests/reference/heat_values.py, raster_rise.
  const std::vector<Row> rows = {{0, 0.36027, 0.35113}, {0.002, 0.35978, 0.35195}, {0.02, 0.35824, 0.35628}, {0.05, 0.66152, 0.39132},
                                 {0.0745, 0.59443, 0.50935}, {0.076, 0.58881, 0.51338},
                                 {0.0774, 0.58433, 0.51674}, {0.079, 0.57996, 0.52014}, {0.085, 0.56722, 0.52959}, {0.1, 0.55072, 0.5389}, {0.13, 0.53823, 0.53707},
                                 {0.15, 0.53313, 0.53288}, {0.2, 0.61237, 0.59839}, {0.2324, 0.60327, 0.60206}, {0.3, 0.59408, 0.59408}, {0.5, 0.58101, 0.58101}};
  Strokes strokes{{0.5, 0.2}, 1, 0.02, 0.2, 0.02, 1, 0};
  HandTour tour = strokes.tour();
  tour.strokes.front().clock_s = 5;  // frames start anew in the middle of the stroke
  tour.strokes.front().start += Point(0, 0.1);
  const Heated heated(sheetOf(strokes.part_m), test::raster(0.02, 0.006, 4, 0.2e-3), tour, 0.3e-3, 1, 10);
  for (const Row& row : rows) {
    INFO(row.late_s << " s after the middle of the stroke");
    const Faces faces = heated.heat.at({Point(0.25, 0.1), 5 + row.late_s});
    CHECK(faces.front_C - 20 == Catch::Approx(row.front_K_W).epsilon(0.02));
    CHECK(faces.back_C - 20 == Catch::Approx(row.back_K_W).epsilon(0.02));
  }
}

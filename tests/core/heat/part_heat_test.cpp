// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/part_heat.h"

#include "core/heat/path_heat.h"
#include "tests/core/heat/beams.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>
#include <vector>

using namespace bw;
using test::plateOf;

namespace {

const Plate sheet = plateOf(1.2e-3, 52, 3.5e6, 12);
const Plate sealed = plateOf(1.2e-3, 52, 3.5e6, 0);  // loses nothing to the air

Tour wholePart(int passes) {
  Tour tour;
  tour.travelSpeed_m_s = 0.02;
  tour.stepOver_m = tour.frameAcross_m = 0.03;
  tour.strokeLength_m = tour.partAlong_m = 0.4;
  tour.swaths = 3;
  tour.partAcross_m = 0.09;
  tour.passes = passes;
  tour.pause_s = 5;
  tour.frameAlong_m = 0.01;
  return tour;
}

Tour patchOfWidePart() {
  Tour tour = wholePart(4);
  tour.strokeLength_m = 0.12;
  tour.partAcross_m = tour.partAlong_m = 0.4;
  return tour;
}

Tour oneSwath() {
  Tour tour = wholePart(1);
  tour.swaths = 1;
  tour.pause_s = 0;
  tour.strokeLength_m = tour.partAlong_m = 0.6;
  tour.partAcross_m = 0.3;
  return tour;
}

struct Rise {
  double time_s, rise_K_W;
};

void checkTour(const Tour& tour, const std::vector<Rise>& rows, double tolerance) {
  const PartHeat part(sheet, tour);
  for (const Rise& row : rows) {
    INFO(row.time_s << " s");
    CHECK(part.rise_K_W(row.time_s) == Catch::Approx(row.rise_K_W).epsilon(tolerance));
  }
}

}  // namespace

// The tables are sums over cosine modes of the whole plate, edges and loss included, with the frame as a moving rectangle:
// tests/reference/heat_values.py, tour_rise.

TEST_CASE("Part heat of a tour over the whole part agrees with cosine modes", "[heat]") {
  checkTour(wholePart(4),
            {{49.7, 0.13448}, {50, 0.30328},  {50.3, 0.50789},  {51, 0.52384},  {59, 0.45065},  {114.7, 0.40516}, {115, 0.57335}, {115.3, 0.77737},
             {116, 0.79193},  {124, 0.70357}, {179.7, 0.57985}, {180, 0.74771}, {180.3, 0.9514}, {181, 0.96519},  {189, 0.86843}, {244.7, 0.69782},
             {245, 0.86547},  {245.3, 1.069}, {246, 1.0823},    {254, 0.98013}, {280, 0.79187}, {360, 0.46897},   {860, 0.026402}},
            0.05);
}

TEST_CASE("Part heat of one swath across the middle of a part agrees with cosine modes", "[heat]") {
  checkTour(oneSwath(), {{14.7, 0.0056307}, {15, 0.17378}, {15.3, 0.37769}, {16, 0.39026}, {28.5, 0.2004}, {50, 0.11631}, {130, 0.041648}}, 0.04);
}

TEST_CASE("Part heat of a patch of a wide part agrees with cosine modes", "[heat]") {
  checkTour(patchOfWidePart(),
            {{15, 0.22719}, {15.3, 0.43342}, {16, 0.45101}, {38.3, 0.67904}, {39, 0.69356}, {40.7, 0.65854}, {61.3, 0.84727}, {62, 0.86},
             {63.7, 0.82076}, {84.3, 0.96809}, {85, 0.97967}, {86.7, 0.93771}},
            0.05);
}

TEST_CASE("In the long run a part that loses nothing holds all the energy, spread evenly", "[heat]") {
  for (const Tour& tour : {wholePart(1), wholePart(4), wholePart(300), patchOfWidePart(), oneSwath()}) {
    const PartHeat part(sealed, tour);
    const double energy = tour.passes * tour.swaths * tour.strokeTime_s();
    const double even = energy / (sealed.heatCapacity_J_m3K * sealed.thickness_m * tour.partAcross_m * tour.partAlong_m);
    CHECK(part.rise_K_W(1e5) == Catch::Approx(even).epsilon(1e-6));
  }
}

TEST_CASE("A part cools at its own rate", "[heat]") {
  const PartHeat part(sheet, wholePart(3));
  const double late = part.rise_K_W(2e4), later = part.rise_K_W(2e4 + 100);
  CHECK(later / late == Catch::Approx(std::exp(-100 * sheet.lossRate_1_s())).epsilon(0.01));
}

TEST_CASE("Part heat has no jumps from pass to pass", "[heat]") {
  for (const Tour& tour : {wholePart(6), patchOfWidePart(), oneSwath()}) {
    const PartHeat part(sheet, tour);
    double peak = 0;
    for (int pass = 0; pass < tour.passes; ++pass) peak = std::max(peak, part.rise_K_W(tour.crossing_s(pass) + 1));
    for (int pass = 1; pass <= tour.passes; ++pass) {
      const double turn = pass * tour.passTime_s();
      INFO("pass " << pass);
      CHECK(part.rise_K_W(turn + 1e-6) == Catch::Approx(part.rise_K_W(turn - 1e-6)).margin(0.03 * peak));
    }
  }
}

TEST_CASE("Many passes warm a part no further than its loss allows", "[heat]") {
  Tour tour = wholePart(5000);
  const PartHeat part(sheet, tour);
  // Steady: mean power over the loss of both faces.
  const double lit = tour.swaths * tour.strokeTime_s() / tour.passTime_s();
  const double steady = lit / (2 * sheet.filmCoefficient_W_m2K * tour.partAcross_m * tour.partAlong_m);
  const double before = part.rise_K_W(4999 * tour.passTime_s() - 1e-3);
  CHECK(before == Catch::Approx(steady).epsilon(0.1));
}

namespace {

/// Near and part heat of a frame that starts in the middle of the stroke at time 0 of the near heat.
double nearAndPart_K_W(const Frame& frame, const Tour& tour, double radius_m, const Plate& plate, const Point& place, double late_s, bool back = false) {
  const PathHeat near(frame, Travel(tour.travelSpeed_m_s, test::quarterTurn), {false, 0, 1}, radius_m, plate, tour.strokeTime_s());
  const FacesRise rise = near.rise_K_W({place, late_s});
  return (back ? rise.back_K : rise.front_K) + frame.litFraction() * PartHeat(plate, tour).rise_K_W(tour.crossing_s(0) + late_s);
}

}  // namespace

TEST_CASE("Near and part heat together follow Rosenthal's thin plate behind and ahead of a slow spot", "[heat]") {
  struct Row {
    double ahead_m, rise_K;
  };
  // D. Rosenthal, Trans. ASME 68 (1946): q 100 W, h 0.8 mm, v 5 mm/s, k 45, a 1.25e-5; computed from q/(2 pi k h) exp(-v xi/2a) K0(v r/2a).
  const Plate plate = plateOf(0.8e-3, 45, 45 / 1.25e-5);
  Tour tour;
  tour.travelSpeed_m_s = 5e-3;
  tour.stepOver_m = 1e-3;
  tour.strokeLength_m = tour.partAlong_m = 2;
  tour.partAcross_m = 2;
  const Frame frame = test::straightLine(1e-9, 1e-6);
  for (const Row& row : {Row{-5e-3, 506.0}, Row{-10e-3, 372.1}, Row{5e-3, 68.47}}) {
    const double late = -row.ahead_m / tour.travelSpeed_m_s;  // the spot has gone on by that much
    INFO(row.ahead_m << " m ahead");
    CHECK(100 * nearAndPart_K_W(frame, tour, 0.2e-3, plate, Point::Zero(), late) == Catch::Approx(row.rise_K).epsilon(0.02));
  }
}

TEST_CASE("Near and part heat count every joule of a raster once", "[heat]") {
  struct Row {
    double late_s, front_K_W, back_K_W;
  };
  // Every age summed in one Green's sum, through two frames of 0.155 s: tests/reference/heat_values.py, raster_rise. Where in the frame
  // the older lines lie is averaged, so single moments swing about the sum; the mean does not.
  const std::vector<Row> rows = {{0, 0.36027, 0.35113}, {0.002, 0.35978, 0.35195}, {0.02, 0.35824, 0.35628}, {0.05, 0.66152, 0.39132},
                                 {0.0745, 0.59443, 0.50935}, {0.076, 0.58881, 0.51338},
                                 {0.0774, 0.58433, 0.51674}, {0.079, 0.57996, 0.52014}, {0.085, 0.56722, 0.52959}, {0.1, 0.55072, 0.5389}, {0.13, 0.53823, 0.53707},
                                 {0.15, 0.53313, 0.53288}, {0.2, 0.61237, 0.59839}, {0.2324, 0.60327, 0.60206}, {0.3, 0.59408, 0.59408}, {0.5, 0.58101, 0.58101}};
  Tour tour;
  tour.travelSpeed_m_s = 0.02;
  tour.stepOver_m = tour.frameAcross_m = 0.02;
  tour.strokeLength_m = tour.partAlong_m = 0.2;
  tour.partAcross_m = 0.5;
  tour.frameAlong_m = 0.006;
  const Frame frame = test::raster(0.02, 0.006, 4, 0.2e-3);
  double meanError = 0;
  for (const Row& row : rows) {
    INFO(row.late_s << " s after the middle of the stroke");
    const double front = nearAndPart_K_W(frame, tour, 0.3e-3, sheet, Point::Zero(), row.late_s);
    CHECK(front == Catch::Approx(row.front_K_W).epsilon(0.08));
    CHECK(nearAndPart_K_W(frame, tour, 0.3e-3, sheet, Point::Zero(), row.late_s, true) == Catch::Approx(row.back_K_W).epsilon(0.08));
    meanError += (front / row.front_K_W - 1) / static_cast<double>(rows.size());
  }
  CHECK(std::abs(meanError) < 0.02);
}

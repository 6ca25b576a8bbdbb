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

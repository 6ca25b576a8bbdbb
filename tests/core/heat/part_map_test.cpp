// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/part_map.h"

#include "core/heat/work_heat.h"
#include "tests/core/heat/beams.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace bw;

namespace {

/// Two swaths over a small sheet, more cells than the handover is long, so that both scales show.
struct Small {
  PartSheet sheet{{ThermalCurve::Constant, ThermalCurve::Constant, 52, 446, 7850}, 1e-3, Point(0.1, 0.08), 12, 0.3, 20, 20};
  Frame frame = test::raster(0.03, 0.01, 4, 0.2e-3, 250e-6);
  Plate plate = plateAt(sheet, 20);
  PartHeat part{sheet, {400}, plate, 1e-4, frame.period_s()};
  PathHeat near{frame, test::quarterTurn, {true, 100e3, 1}, 1e-4, plate, tour(), part.handover_s()};
  PartRun run = part.run(near.tour(), near.boxes(), 100, 120);
  WorkHeat heat{near, part.enthalpy(), run.field, 100};

  static HandTour tour() {
    TourPlan plan;
    plan.part_m = Point(0.1, 0.08);
    plan.area_m2 = 0.004;
    plan.travelSpeed_m_s = 0.01;
    plan.stepOver_m = 0.028;
    return tourOf(plan);
  }
};

}  // namespace

TEST_CASE("The map holds what is asked of a cell, and its highest no less than any of its times", "[heat]") {
  const Small small;
  const PartMap map = partMap(small.heat, 40);
  REQUIRE(map.columns * map.rows == static_cast<int>(map.highest_C.size()));
  REQUIRE(map.time_s.size() == map.temperature_C.size());
  REQUIRE(map.time_s.size() == map.hand_m.size());
  CHECK(map.time_s.front() == 0);
  CHECK(map.time_s.back() == Catch::Approx(small.near.tour().end_s() + 120));
  for (std::size_t t = 0; t < map.time_s.size(); ++t) {
    for (std::size_t k = 0; k < map.highest_C.size(); ++k) CHECK(map.temperature_C[t][k] <= map.highest_C[k]);
    CHECK(map.hand_m[t].has_value() == (map.time_s[t] <= small.near.tour().end_s()));
  }
  for (const std::size_t t : {map.time_s.size() / 8, map.time_s.size() / 4, map.time_s.size() - 2}) {
    for (const int cell : {0, map.columns * map.rows / 2 + map.columns / 2, map.columns * map.rows / 3}) {
      const Point place((cell % map.columns + 0.5) * map.cellX_m, (cell / map.columns + 0.5) * map.cellY_m);
      const Faces there =
          small.heat.at({place, std::max(map.time_s[t], 1e-6), 0, Point(map.cellX_m, map.cellY_m).squaredNorm() / 24, Smear::Frames});
      INFO("time " << map.time_s[t] << ", cell " << cell);
      CHECK(static_cast<double>(map.temperature_C[t][static_cast<std::size_t>(cell)]) ==
            Catch::Approx((there.front_C + 2 * there.back_C) / 3).margin(0.5));
    }
  }
}

TEST_CASE("The map keeps the energy: what landed, less what the air took", "[heat]") {
  Small small;
  const PartMap map = partMap(small.heat, 60);
  const double perCell = 446.0 * 7850 * 1e-3 * map.cellX_m * map.cellY_m;
  for (const std::size_t t : {std::size_t{10}, map.time_s.size() - 1}) {
    double held = 0;
    for (const float value : map.temperature_C[t]) held += perCell * (static_cast<double>(value) - 20);
    INFO(map.time_s[t] << " s, landed in all " << small.run.absorbed_J);
    if (map.time_s[t] < 3)
      CHECK(held == Catch::Approx(100 * map.time_s[t]).epsilon(0.35));  // the first frames hang over the edge
    else
      CHECK(held < small.run.absorbed_J);
  }
  double left = 0;
  for (const float value : map.temperature_C.back()) left += perCell * (static_cast<double>(value) - 20);
  CHECK(left == Catch::Approx(small.run.stored_J + small.run.young_J).epsilon(1e-3));
}

TEST_CASE("The tour's axes turn into the part's", "[heat]") {
  using std::numbers::pi;
  PartMap map;
  map.columns = 3;  // across the travel
  map.rows = 2;
  map.cellX_m = map.cellY_m = 1;
  map.highest_C = map.highestAt_s = {0, 1, 2, 10, 11, 12};
  map.time_s = {0};
  map.temperature_C = {map.highest_C};
  map.hand_m = {std::array{0.5, 1.5}};
  CHECK(inPartAxes(map, pi / 2).highest_C == map.highest_C);  // along +y: across is +x
  const PartMap alongX = inPartAxes(map, 0);                  // along +x: across is -y
  CHECK(alongX.columns == 2);
  CHECK(alongX.rows == 3);
  CHECK(alongX.highest_C == std::vector<float>{2, 12, 1, 11, 0, 10});
  CHECK((*alongX.hand_m[0])[0] == 1.5);
  CHECK((*alongX.hand_m[0])[1] == 2.5);
  CHECK(inPartAxes(map, -pi / 2).highest_C == std::vector<float>{12, 11, 10, 2, 1, 0});
  CHECK(inPartAxes(map, pi).highest_C == std::vector<float>{10, 0, 11, 1, 12, 2});
  // The same as the hand itself goes, for a part of 3 x 2 seen along +y and of 2 x 3 seen along x.
  for (const double angle : {pi / 2, 0.0, -pi / 2, pi}) {
    const bool alongY = std::abs(std::sin(angle)) > 0.5;
    const std::array<double, 2> size = alongY ? std::array{3.0, 2.0} : std::array{2.0, 3.0};
    const auto a = inPartAxes({1.0, 0.5}, size, angle), b = inPartAxes({1.0, 1.5}, size, angle);  // one along the travel
    CHECK(b[0] - a[0] == Catch::Approx(std::cos(angle)).margin(1e-12));
    CHECK(b[1] - a[1] == Catch::Approx(std::sin(angle)).margin(1e-12));
  }
}

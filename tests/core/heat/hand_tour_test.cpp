// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/hand_tour.h"

#include "tests/support/catch.h"

#include <cmath>

using namespace bw;

namespace {

TourPlan planOf(double area_m2 = 0) {
  TourPlan plan;
  plan.part_m = Point(0.3, 0.2);
  plan.area_m2 = area_m2;
  plan.travelSpeed_m_s = 0.01;
  plan.stepOver_m = 0.03;
  plan.passes = 2;
  plan.pause_s = 7;
  return plan;
}

}  // namespace

TEST_CASE("A tour runs there and back, swath beside swath, with its pause after each pass", "[heat]") {
  const HandTour tour = tourOf(planOf());
  REQUIRE(tour.strokes.size() == 20);
  for (std::size_t i = 0; i < 10; ++i) {
    const TourStroke& stroke = tour.strokes[i];
    CHECK(stroke.end_s - stroke.begin_s == Catch::Approx(20));
    CHECK(stroke.start.x() == Catch::Approx(0.015 + 0.03 * static_cast<double>(i)));
    CHECK(stroke.speed_m_s == Catch::Approx(i % 2 == 0 ? 0.01 : -0.01));
    CHECK(stroke.middleAt(stroke.end_s).y() == Catch::Approx(i % 2 == 0 ? 0.2 : 0).margin(1e-12));
    if (i > 0)
      CHECK(stroke.start.y() == Catch::Approx(tour.strokes[i - 1].middleAt(stroke.begin_s).y()).margin(1e-12));  // no way in the air
  }
  CHECK(tour.strokes[10].begin_s == Catch::Approx(207));
  CHECK(tour.passStart_s == std::vector<double>{0, 207});
  CHECK_FALSE(tour.gathered);
}

TEST_CASE("What is worked lies in the part's middle and takes the time of what it is large", "[heat]") {
  const HandTour tour = tourOf(planOf(0.03));  // half of the part
  const double beam = tour.strokes[tour.strokes.size() / 2 - 1].end_s;
  CHECK(beam >= 0.03 / (0.01 * 0.03));
  CHECK(beam <= 1.2 * 0.03 / (0.01 * 0.03));  // whole swaths
  for (std::size_t i = 1; i < tour.strokes.size() / 2; ++i)
    CHECK(tour.strokes[i].start.x() - tour.strokes[i - 1].start.x() == Catch::Approx(0.03));  // no seam
  for (const TourStroke& stroke : tour.strokes) {
    CHECK(stroke.start.x() > 0.04);
    CHECK(stroke.start.x() < 0.29);
    CHECK(stroke.start.y() > 0.02);
  }
  CHECK(tourOf(planOf(1.0)).strokes.size() == 20);  // no more than the part has
}

TEST_CASE("Every second swath first, then those between", "[heat]") {
  TourPlan plan = planOf();
  plan.order = SwathOrder::EverySecond;
  const HandTour skipped = tourOf(plan);
  const HandTour plain = tourOf(planOf());
  REQUIRE(skipped.strokes.size() == plain.strokes.size());
  for (std::size_t i = 0; i < 10; ++i) {
    const std::size_t same = i < 5 ? 2 * i : 2 * (i - 5) + 1;
    CHECK(skipped.strokes[i].start.x() == Catch::Approx(plain.strokes[same].start.x()));
  }
  CHECK(skipped.end_s() == Catch::Approx(plain.end_s()));
}

TEST_CASE("Countless swaths and passes are gathered, with the same energy", "[heat]") {
  TourPlan plan = planOf();
  plan.stepOver_m = 20e-6;
  plan.passes = 500;
  const HandTour tour = tourOf(plan);
  CHECK(tour.gathered);
  CHECK(tour.strokes.size() <= 60 * 401);
  CHECK(tour.passStart_s.size() == 60);
  CHECK(tour.passStart_s[1] - 7 == Catch::Approx(0.3 * 0.2 / (0.01 * 20e-6)).epsilon(0.01));
}

TEST_CASE("A hand that stops stands where it is", "[heat]") {
  const HandTour tour = tourOf(planOf()), stopped = stoppedAt(tour, 50, 30);
  REQUIRE(stopped.strokes.size() == 4);
  const TourStroke& still = stopped.strokes.back();
  CHECK(still.speed_m_s == 0);
  CHECK(still.begin_s == 50);
  CHECK(still.end_s == 80);
  CHECK((still.start - tour.strokes[2].middleAt(50)).norm() < 1e-12);
}

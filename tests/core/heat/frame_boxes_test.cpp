// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/frame_boxes.h"

#include "tests/core/heat/beams.h"
#include "tests/support/catch.h"

#include <cmath>

using namespace bw;

TEST_CASE("The boxes of any frame hold its lit time and its middle", "[heat]") {
  for (const Pattern pattern :
       {Pattern::Raster, Pattern::Line, Pattern::Sine, Pattern::Crossed, Pattern::Circles, Pattern::Spiral, Pattern::TwoSine}) {
    for (const double angle : {test::quarterTurn, 0.0, 0.7}) {
      const Frame frame = test::smallFrame(pattern);
      const FrameBoxes boxes = boxesOf(frame, angle);
      double share = 0;
      Point middle = Point::Zero();
      for (const LightBox& box : boxes.whole) {
        share += box.share;
        middle += box.share * box.middle;
      }
      INFO("pattern " << static_cast<int>(pattern) << " at " << angle);
      CHECK(share == Catch::Approx(frame.litFraction()).epsilon(1e-6));
      CHECK((middle / share - boxes.all.middle).norm() < 2e-5);
      CHECK(boxes.all.share == Catch::Approx(frame.litFraction()).epsilon(1e-6));
      double slow = 0;
      for (const LightBox& box : boxes.rows) slow += box.share * box.duration_s / boxes.period_s;
      if (boxes.hasRows) CHECK(slow == Catch::Approx(frame.litFraction()).epsilon(1e-6));
    }
  }
}

TEST_CASE("A raster is three rows: its lines, its turns at either end", "[heat]") {
  const FrameBoxes boxes = boxesOf(test::smallFrame(Pattern::Raster), test::quarterTurn);
  REQUIRE(boxes.hasRows);
  REQUIRE(boxes.rows.size() == 3);
  CHECK(boxes.rows[0].size.x() == Catch::Approx(10e-3));
  CHECK(boxes.rows[0].velocity.y() == Catch::Approx(0.4e-3 / (10e-3 + 250e-6)));
  CHECK(boxes.rows[1].middle.x() * boxes.rows[2].middle.x() < 0);
  CHECK(boxes.all.size.y() == Catch::Approx(0.4e-3 * std::sqrt(11.0 * 11 - 1)).epsilon(0.01));  // eleven lines
  CHECK(boxes.longRows);
}

TEST_CASE("A line's turns at its two ends are not one row", "[heat]") {
  const FrameBoxes boxes = boxesOf(test::smallFrame(Pattern::Line), test::quarterTurn);
  REQUIRE(boxes.hasRows);
  for (const LightBox& row : boxes.rows) CHECK(row.velocity.norm() < 1e-9);
  CHECK(boxes.whole.size() == 3);
}

TEST_CASE("Swings, circles and slanting lines are cut into tiles", "[heat]") {
  for (const Pattern pattern : {Pattern::Sine, Pattern::Circles, Pattern::Spiral, Pattern::TwoSine}) {
    const FrameBoxes boxes = boxesOf(test::smallFrame(pattern), test::quarterTurn);
    CHECK_FALSE(boxes.hasRows);
    CHECK(boxes.whole.size() > 10);
    CHECK(boxes.wholeWrong.bulge_m4 < 1e-12);  // tiles of a millimetre or so
  }
  CHECK_FALSE(boxesOf(test::smallFrame(Pattern::Raster), 0.7).hasRows);
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scan/wander.h"

#include "core/scan/path.h"
#include "tests/support/catch.h"

#include <cmath>

using namespace bw;
using Catch::Approx;

namespace {

struct Speed {
  double mean = 0;
  double deviation = 0;
};

/// Of the hand against its mean speed, by differences over 1 ms for `duration_s`.
Speed speedOf(const Wander& wander, double duration_s) {
  constexpr double step_s = 1e-3;
  const double count = std::floor(duration_s / step_s);
  double sum = 0, squares = 0;
  for (double i = 0; i < count; ++i) {
    const double speed = 1 + (wander.ahead_s((i + 1) * step_s) - wander.ahead_s(i * step_s)) / step_s;
    sum += speed / count;
    squares += speed * speed / count;
  }
  return {sum, std::sqrt(squares - sum * sum)};
}

}  // namespace

TEST_CASE("A wandering hand keeps its mean speed and strays from it by its share", "[scan]") {
  for (const double share : {0.05, 0.2, 0.4}) {
    for (const std::uint32_t seed : {0U, 1U, 99U}) {
      const Speed speed = speedOf(Wander(share, seed), 600);
      CAPTURE(share, seed);
      // Of the slowest wave at most 2 x share x sqrt(2/6) / (2 pi 0.3 Hz) seconds are left over at the end; six of them.
      CHECK(speed.mean == Approx(1).margin(4 * share / 600));
      CHECK(speed.deviation == Approx(share).epsilon(0.05));
    }
  }
}

TEST_CASE("The seed alone decides how a hand wanders", "[scan]") {
  const Wander one(0.2, 5), same(0.2, 5), other(0.2, 6);
  double apart = 0;
  for (double t = 0; t < 20; t += 0.37) {
    CHECK(one.ahead_s(t) == same.ahead_s(t));
    apart = std::max(apart, std::abs(one.ahead_s(t) - other.ahead_s(t)));
  }
  CHECK(apart > 0.01);
  CHECK(one.ahead_s(0) == 0);
}

TEST_CASE("A hand of no wander is steady", "[scan]") {
  const Wander none(0, 3);
  for (double t = 0; t < 5; t += 0.61) CHECK(none.ahead_s(t) == 0);
}

TEST_CASE("A stroke waits, moves, stands, and may go back", "[scan]") {
  const Point head(1e-3, 2e-3);
  const Stroke stroke{Point(0.1, 0.2), 0.5, 2, false, {}};
  const Travel forth(0.01, std::numbers::pi / 2, stroke);
  CHECK((forth.onPart(head, 0) - Point(0.101, 0.202)).norm() < 1e-15);
  CHECK((forth.onPart(head, 0.5) - Point(0.101, 0.202)).norm() < 1e-15);
  CHECK((forth.onPart(head, 1.5) - Point(0.101, 0.212)).norm() < 1e-15);
  CHECK((forth.onPart(head, 99) - Point(0.101, 0.222)).norm() < 1e-15);
  Stroke back = stroke;
  back.backwards = true;
  CHECK((Travel(0.01, std::numbers::pi / 2, back).onPart(head, 1.5) - Point(0.101, 0.192)).norm() < 1e-15);
  Stroke wandering = stroke;
  wandering.wander = Wander(0.3, 4);
  CHECK(Travel(0.01, std::numbers::pi / 2, wandering).progress_m(1.5) == Approx(0.01 * (1 + Wander(0.3, 4).ahead_s(1))));
  // The steady state reaches back before the frame began.
  CHECK(Travel(0.01, 0).progress_m(-3) == Approx(-0.03));
}

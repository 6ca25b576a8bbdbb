// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"
#include "tests/support/thorough.h"

#include <cmath>

using namespace bw;
using namespace bw::test;
using Catch::Approx;

namespace {

bool isOrdered(const Spread& spread) { return spread.low <= spread.middle && spread.middle <= spread.high; }

}  // namespace

TEST_CASE("Every range has its ends in order and holds in many variations", "[assess]") {
  for (const Variation& variation : sampled(variations(), 10)) {  // a look in depth takes seconds
    const Assessment a = deep(varied(variation));
    CAPTURE(variation.name);
    if (!a.removal.computed) {
      CHECK_FALSE(a.ranges);
      continue;
    }
    REQUIRE(a.ranges);
    const Ranges& r = *a.ranges;
    CHECK(r.samples >= 24);
    CHECK(isOrdered(r.passesNeeded));
    CHECK((r.neverShare >= 0 && r.neverShare <= 1));
    CHECK((r.neverShare > 0.05) == std::isinf(r.passesNeeded.high));
    CHECK((isOrdered(r.heatIntoPartFraction) && r.heatIntoPartFraction.low > 0 && r.heatIntoPartFraction.high <= 1));
    CHECK((isOrdered(r.clearedFraction) && r.clearedFraction.low >= 0 && r.clearedFraction.high <= 1 + 1e-9));
    REQUIRE(r.back_C);
    CHECK((isOrdered(*r.back_C) && isOrdered(*r.front_C) && isOrdered(*r.totalTime_s)));
    CHECK(r.layers.size() == a.removal.layers.size());
    CHECK(r.depth_m.size() == a.removal.clearedAfter.size());
    for (std::size_t pass = 1; pass < r.depth_m.size(); ++pass) CHECK(r.depth_m[pass].middle >= r.depth_m[pass - 1].middle);
    double sum = 0;
    for (const Influence& influence : r.influences) sum += influence.share;
    CHECK(sum < 1.1);  // squared rank correlations of independent inputs: about one in all
    CHECK(a.removal.clearedAfter.front() == (a.removal.layers.empty() ? Approx(1) : Approx(0)));
    CHECK(std::ranges::is_sorted(a.removal.clearedAfter));
  }
}

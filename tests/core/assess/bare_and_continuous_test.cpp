// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"

using namespace bw;
using namespace bw::test;

TEST_CASE("Bare metal and a continuous beam are looked into as well", "[assess]") {
  Project bare = smallProject();
  bare.coat.clear();
  const Assessment a = deep(bare);
  REQUIRE(a.ranges);
  CHECK(a.ranges->passesNeeded.high == 0);
  CHECK_FALSE(a.removal.map);
  Project continuous = smallProject();
  makeContinuous(continuous);
  const Assessment c = deep(continuous);
  REQUIRE(c.ranges);
  REQUIRE(c.removal.map);
  CHECK_FALSE(c.ranges->etch_m);
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"

#include <numbers>

using namespace bw;
using namespace bw::test;

TEST_CASE("Tilt stops a layer where the cosine takes its light below what it needs", "[assess]") {
  const Assessment& a = smallInDepth();
  double before = std::numbers::pi / 2;
  for (const LayerResult& layer : a.removal.layers) {  // what lies deeper stops no later
    const double tilt = layer.clearsUpTo_rad.value_or(0);
    CHECK(tilt <= before);
    before = tilt;
  }
  Project steep = smallProject();
  settingsOf(steep).powerFraction *= 0.5;
  const Assessment weaker = deep(steep);
  for (std::size_t i = 0; i < a.removal.layers.size(); ++i)
    CHECK(weaker.removal.layers[i].clearsUpTo_rad.value_or(0) <= a.removal.layers[i].clearsUpTo_rad.value_or(0));
}

TEST_CASE("A still hand is through sooner with more power, and first somewhere, then all over", "[assess]") {
  Project project = smallProject();
  const Assessment& full = smallInDepth();
  REQUIRE(full.removal.stillHand);
  REQUIRE(full.removal.stillHand->most_s);
  CHECK(*full.removal.stillHand->first_s > 0);
  CHECK(*full.removal.stillHand->first_s <= *full.removal.stillHand->most_s);
  settingsOf(project).powerFraction *= 0.6;
  const Assessment weak = deep(project);
  if (weak.removal.stillHand->most_s) CHECK(*weak.removal.stillHand->most_s >= *full.removal.stillHand->most_s);
}

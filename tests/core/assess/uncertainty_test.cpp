// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"

#include <cmath>
#include <numbers>

using namespace bw;
using namespace bw::test;
using Catch::Approx;

namespace {

/// All that is uncertain of the coat and the metal taken to be known.
Project known(Project project) {
  for (Layer& layer : project.coat) layer.thickness_m = Range::exact(layer.thickness_m.likely);
  return project;
}

}  // namespace

TEST_CASE("The less is known, the wider the passes spread", "[assess]") {
  const auto width = [](const Assessment& deepened) {
    const Spread passes = deepened.ranges->passesNeeded;
    return std::log(std::min(100.0, passes.high) / passes.low);
  };
  Project gauged = known(smallProject()), guessed = gauged;
  for (Layer& layer : guessed.coat) layer.thickness_m = {layer.thickness_m.likely / 3, layer.thickness_m.likely, layer.thickness_m.likely * 3};
  const double gaugedWidth = width(deep(gauged));
  CHECK(gaugedWidth <= width(deep(guessed)));
  Project unknown = gauged;
  for (Layer& layer : unknown.coat) layer.coating = "unknown";
  const Assessment a = deep(unknown);
  CHECK(gaugedWidth < width(a));
  CHECK(rowOf(a, "removal").message.find("prove on a patch") != std::string::npos);
  CHECK(rowOf(a, "removal").status != Status::Meets);
}

TEST_CASE("What matters most is what varies most, and is said with how to measure it", "[assess]") {
  Project project = known(smallProject());
  project.coat.resize(1);
  project.coat[0].coating = "alkyd-dark";
  project.coat[0].thickness_m = {30e-6, 150e-6, 750e-6};
  const Assessment a = deep(project);
  REQUIRE_FALSE(a.ranges->influences.empty());
  CHECK(a.ranges->influences[0].what == "thickness of \"" + project.coat[0].name + "\"");
  CHECK(a.ranges->influences[0].share > 0.5);
  CHECK(a.ranges->influences[0].passesIfKnown.high < a.ranges->passesNeeded.high);
  REQUIRE_FALSE(a.findOutNext.empty());
  CHECK(a.findOutNext[0].how.find("gauge") != std::string::npos);
  CHECK(a.findOutNext[0].narrows.find("becomes") != std::string::npos);
}

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

TEST_CASE("The rate over bare metal spreads as the hand's pace", "[assess]") {
  const auto spreadOfRate = [](HandState state) {
    Project project = smallProject();
    project.coat.clear();
    project.plans[0].hand = Hand{};
    project.plans[0].hand->state = state;
    const Spread rate = *deep(project).ranges->rate_m2_s;
    return rate.high / rate.low;
  };
  // Nine in ten within 10, 30 and 40 % (physics of the model, section 6: guesses).
  CHECK(spreadOfRate(HandState::Fresh) == Approx(1.1 / 0.9).epsilon(0.01));
  CHECK(spreadOfRate(HandState::Tired) == Approx(1.3 / 0.7).epsilon(0.01));
  CHECK(spreadOfRate(HandState::Overhead) == Approx(1.4 / 0.6).epsilon(0.01));
}

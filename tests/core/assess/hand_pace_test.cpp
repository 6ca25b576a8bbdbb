// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"

using namespace bw;
using namespace bw::test;
using Catch::Approx;

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

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/chebyshev_step.h"

#include "tests/support/catch.h"

#include <cmath>

using namespace bw;

namespace {

/// y' = -rate (y - cos t) with y(0) = 1, to t = 1.
double solve(double rate, int steps, int stages) {
  const ChebyshevStages method = chebyshevStages(stages);
  const double h = 1.0 / steps;
  double y = 1;
  for (int n = 0; n < steps; ++n) {
    const double middle = std::cos((n + 0.5) * h);  // a source that is constant in a step, at its middle
    const auto slope = [&](double value) { return -rate * (value - middle); };
    const double start = y, first = slope(start);
    double before = start, now = start + method.firstMu * h * first;
    for (const auto& stage : method.stages) {
      const double next = (1 - stage.mu - stage.nu) * start + stage.mu * now + stage.nu * before + stage.muTilde * h * slope(now) +
                          stage.gammaTilde * h * first;
      before = now;
      now = next;
    }
    y = now;
  }
  return y;
}

double exact(double r) {  // r (r cos t + sin t)/(1 + r^2) + (1 - r^2/(1 + r^2)) exp(-r t)
  return r * (r * std::cos(1.0) + std::sin(1.0)) / (1 + r * r) + std::exp(-r) / (1 + r * r);
}

}  // namespace

TEST_CASE("Runge-Kutta-Chebyshev steps are of second order", "[heat]") {
  for (const int stages : {2, 3, 5, 10}) {
    const double coarse = std::abs(solve(3, 20, stages) - exact(3)), fine = std::abs(solve(3, 40, stages) - exact(3));
    INFO(stages << " stages: " << coarse << ", " << fine);
    CHECK(coarse / fine == Catch::Approx(4).epsilon(0.15));
  }
}

TEST_CASE("As many stages as asked for hold any step", "[heat]") {
  for (const double rate : {1.0, 30.0, 1e3, 1e5}) {
    const int stages = chebyshevCount(0.1, rate);
    INFO(rate << ": " << stages << " stages");
    CHECK(stages >= 2);
    CHECK(std::abs(solve(rate, 10, stages) - exact(rate)) < 0.3);
    CHECK(stages < 3 + 1.3 * std::sqrt(0.1 * rate));
    CHECK(std::abs(solve(rate / 100, 1000, chebyshevCount(1e-3, rate / 100)) - exact(rate / 100)) < 0.02);
  }
}

TEST_CASE("What goes along with a step by weights is what its own stages would give", "[heat]") {
  for (const int count : {2, 3, 5, 9}) {
    const ChebyshevStages method = chebyshevStages(count);
    REQUIRE(method.weights.size() == method.stages.size() + 1);
    REQUIRE(method.times.size() == method.weights.size());
    double whole = 0, moment = 0;
    for (std::size_t k = 0; k < method.weights.size(); ++k) {
      whole += method.weights[k];
      moment += method.weights[k] * method.times[k];
      CHECK(method.times[k] < 1);
      if (k > 0) CHECK(method.times[k] > method.times[k - 1]);
    }
    CHECK(whole == Catch::Approx(1).epsilon(1e-12));    // the conditions of first
    CHECK(moment == Catch::Approx(0.5).epsilon(1e-9));  // and of second order
  }
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/blurred_strip.h"

#include "tests/support/catch.h"

#include <cmath>
#include <limits>
#include <numbers>

using namespace bw;

namespace {

using std::numbers::pi;

/// Neumann's cosine modes of a bar [0, length]: (Carslaw and Jaeger 2nd ed. section 3.3).
double byModes(double at, double low, double high, double size, double variance, double length) {
  double sum = (high - low) / size / length;
  for (int n = 1; n < 4000; ++n) {
    const double k = n * pi / length, decay = std::exp(-k * k * variance / 2);
    if (decay < 1e-14) break;
    sum += 2 / length * decay * std::cos(k * at) * (std::sin(k * high) - std::sin(k * low)) / (k * size);
  }
  return sum;
}

}  // namespace

TEST_CASE("A strip that diffuses between insulated ends agrees with cosine modes", "[heat]") {
  for (const double deviation : {0.002, 0.02, 0.1, 0.24, 0.26, 0.8}) {
    for (const double middle : {0.0, 0.05, 0.13, 0.25}) {
      for (const double at : {0.0, 0.07, 0.13, 0.25}) {
        const double size = 0.04, length = 0.25, low = std::max(0.0, middle - size / 2), high = std::min(length, middle + size / 2);
        INFO("deviation " << deviation << ", middle " << middle << ", at " << at);
        CHECK(blurredShare_1_m(at, middle, size, deviation * deviation, length) ==
              Catch::Approx(byModes(at, low, high, size, deviation * deviation, length)).margin(2e-3 / length));
      }
    }
  }
}

TEST_CASE("What is laid on a bar stays on it, what is laid beyond is lost", "[heat]") {
  const double length = 0.3;
  for (const double size : {0.0, 1e-18, 0.05}) {
    for (const double middle : {0.1, 0.29, 0.3 + 1e-6, 0.5}) {
      double sum = 0;
      constexpr int cells = 3000;
      for (int i = 0; i < cells; ++i) sum += blurredShare_1_m((i + 0.5) / cells * length, middle, size, 1e-4, length) * length / cells;
      const double landed = size > 1e-9        ? std::max(0.0, std::min(length, middle + size / 2) - (middle - size / 2)) / size
                            : middle <= length ? 1
                                               : 0;
      INFO("size " << size << ", middle " << middle);
      CHECK(sum == Catch::Approx(landed).margin(1e-6));
    }
  }
}

TEST_CASE("Without ends a spot is a Gaussian, a wide strip its error functions", "[heat]") {
  const double endless = std::numeric_limits<double>::infinity();
  CHECK(blurredShare_1_m(-0.02, 0, 0, 1e-4, endless) == Catch::Approx(std::exp(-2.0) / std::sqrt(2 * pi * 1e-4)));
  CHECK(blurredShare_1_m(0, 0, 0.1, 1e-8, endless) == Catch::Approx(10));
  CHECK(blurredShare_1_m(0.05, 0, 0.1, 1e-8, endless) == Catch::Approx(5));
}

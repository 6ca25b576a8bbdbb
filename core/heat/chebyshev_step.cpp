// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/chebyshev_step.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace bw {

namespace {

/// Chebyshev polynomial of the first kind with its derivatives, at w >= 1, orders 0 to n.
struct Polynomials {
  std::vector<double> value, first, second;
};

Polynomials polynomials(int n, double w) {
  Polynomials t{{1, w}, {0, 1}, {0, 0}};
  for (std::size_t j = 2; j <= static_cast<std::size_t>(n); ++j) {
    t.value.push_back(2 * w * t.value[j - 1] - t.value[j - 2]);
    t.first.push_back(2 * t.value[j - 1] + 2 * w * t.first[j - 1] - t.first[j - 2]);
    t.second.push_back(4 * t.first[j - 1] + 2 * w * t.second[j - 1] - t.second[j - 2]);
  }
  return t;
}

/// Follows each rate through the stages.
void addWeights(ChebyshevStages& method) {
  const std::size_t count = method.stages.size() + 1;
  std::vector<double> before(count, 0), now(count, 0);
  now[0] = method.firstMu;
  method.times = {0};
  for (std::size_t n = 0; n < method.stages.size(); ++n) {
    const ChebyshevStages::Stage& stage = method.stages[n];
    method.times.push_back(std::accumulate(now.begin(), now.end(), 0.0));
    for (std::size_t k = 0; k < count; ++k) before[k] = stage.mu * now[k] + stage.nu * before[k];
    before[0] += stage.gammaTilde;
    before[n + 1] += stage.muTilde;
    std::swap(before, now);
  }
  method.weights = now;
}

}  // namespace

ChebyshevStages chebyshevStages(int count) {
  const int s = std::max(2, count);
  const double w0 = 1 + 2.0 / 13 / (s * s);
  const Polynomials t = polynomials(s, w0);
  const auto last = static_cast<std::size_t>(s);
  const double w1 = t.first[last] / t.second[last];
  std::vector<double> b(last + 1);
  for (std::size_t j = 2; j <= last; ++j) b[j] = t.second[j] / (t.first[j] * t.first[j]);
  b[0] = b[1] = b[2];

  ChebyshevStages out;
  out.firstMu = b[1] * w1;
  for (std::size_t j = 2; j <= last; ++j) {
    const double muTilde = 2 * b[j] * w1 / b[j - 1];
    out.stages.push_back({2 * b[j] * w0 / b[j - 1], -b[j] / b[j - 2], muTilde, -(1 - b[j - 1] * t.value[j - 1]) * muTilde});
  }
  addWeights(out);
  return out;
}

int chebyshevCount(double step_s, double largest_1_s) {
  return std::max(2, static_cast<int>(std::ceil(std::sqrt(1 + 1.55 * step_s * largest_1_s))));
}

}  // namespace bw

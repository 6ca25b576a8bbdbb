// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/draws.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace bw {

double normalScore(double share) {
  double low = -9, high = 9;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (0.5 * std::erfc(-middle / std::numbers::sqrt2) < share ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

std::vector<std::vector<double>> latinHypercube(std::size_t variables, std::size_t samples, std::uint32_t seed) {
  std::vector<double> scores;
  for (std::size_t i = 0; i < samples; ++i) scores.push_back(normalScore((static_cast<double>(i) + 0.5) / static_cast<double>(samples)));
  std::mt19937 random(seed);
  std::vector<std::vector<double>> rows;
  for (std::size_t v = 0; v < variables; ++v) {
    for (std::size_t i = samples; i-- > 1;) std::swap(scores[i], scores[random() % (i + 1)]);  // the same on every machine
    rows.push_back(scores);
  }
  return rows;
}

double drawn(const Range& range, double score) {
  if (range.isExact() || range.likely <= 0) return range.likely;
  const double bound = score < 0 ? std::max(range.low, range.likely / 100) : range.high;
  return range.likely * std::exp(std::abs(score) / scoreOfNineInTen * std::log(bound / range.likely));
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/ensemble.h"

#include "core/removal/draws.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace bw {

namespace {

std::vector<std::size_t> orderOf(const std::vector<double>& values) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), 0);
  std::ranges::stable_sort(order, {}, [&](std::size_t i) { return values[i]; });
  return order;
}

/// Weight below each value and half of those that tie with it.
std::vector<double> ranksOf(const std::vector<double>& values, const std::vector<double>& weights) {
  const std::vector<std::size_t> order = orderOf(values);
  std::vector<double> ranks(values.size());
  double below = 0;
  for (std::size_t begin = 0, end = 0; begin < order.size(); begin = end) {
    double tied = 0;
    while (end < order.size() && values[order[end]] == values[order[begin]]) tied += weights[order[end++]];
    for (std::size_t i = begin; i < end; ++i) ranks[order[i]] = below + tied / 2;
    below += tied;
  }
  return ranks;
}

}  // namespace

Ensemble priorOf(std::vector<std::string> ids, std::size_t draws, std::uint32_t seed) {
  auto scores = latinHypercube(ids.size(), draws, seed);
  return {std::move(ids), std::move(scores), std::vector<double>(draws, 1.0)};
}

Spread spreadOf(const std::vector<double>& values, const std::vector<double>& weights) {
  const std::vector<std::size_t> order = orderOf(values);
  const double sum = std::accumulate(weights.begin(), weights.end(), 0.0), mean = sum / effectiveSize(weights);
  const auto at = [&](double share) {
    double reached = 0;
    for (const std::size_t i : order) {
      reached += weights[i];
      if (reached > (share * (sum - mean) + mean / 2) * (1 + 1e-12)) return values[i];
    }
    return values[order.back()];
  };
  return {at(0.05), at(0.5), at(0.95)};
}

double rankCorrelationSquared(const std::vector<double>& a, const std::vector<double>& b, const std::vector<double>& weights) {
  const std::vector<double> ofA = ranksOf(a, weights), ofB = ranksOf(b, weights);
  const double middle = 0.5 * std::accumulate(weights.begin(), weights.end(), 0.0);
  double ab = 0, aa = 0, bb = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    ab += weights[i] * (ofA[i] - middle) * (ofB[i] - middle);
    aa += weights[i] * (ofA[i] - middle) * (ofA[i] - middle);
    bb += weights[i] * (ofB[i] - middle) * (ofB[i] - middle);
  }
  return aa > 0 && bb > 0 ? ab * ab / (aa * bb) : 0;
}

double effectiveSize(const std::vector<double>& weights) {
  double sum = 0, squares = 0;
  for (const double weight : weights) {
    sum += weight;
    squares += weight * weight;
  }
  return squares > 0 ? sum * sum / squares : 0;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/spread.h"

#include <cstdint>
#include <string>
#include <vector>

namespace bw {

/// What can be: draws of everything uncertain, each with its weight. Before anything is known, a Latin hypercube of equal weights; what
/// readings teach is other weights, or other draws.
struct Ensemble {
  std::vector<std::string> ids;             // of what varies
  std::vector<std::vector<double>> scores;  // [what][draw], standard normal
  std::vector<double> weights;              // [draw], above zero; they count by their share of the sum

  std::size_t size() const { return weights.size(); }
};

/// Draws of equal weight, see latinHypercube(). Same seed, same draws.
Ensemble priorOf(std::vector<std::string> ids, std::size_t draws, std::uint32_t seed);

/// The middle, and what nine in ten draws lie between, by weight. A quantile is the value whose weight, in the order of values, reaches over
/// share x (sum - mean) + mean / 2, the mean that of so many draws as effectiveSize() counts: of equal weights the value nearest to
/// R. J. Hyndman, Y. Fan, Am. Stat. 50 (1996) 361, definition 7. Only values that were drawn are told: numbers of passes stay whole. Values
/// may be infinite. Precondition: as many as weights, at least one.
Spread spreadOf(const std::vector<double>& values, const std::vector<double>& weights);

/// Square of Spearman's rank correlation, by weight: of independent inputs, about the share of the outcome's variance. 0 where one of the
/// two does not vary.
double rankCorrelationSquared(const std::vector<double>& a, const std::vector<double>& b, const std::vector<double>& weights);

/// How many draws of equal weight say as much about a mean: (sum of weights)^2 / sum of their squares. L. Kish, Survey Sampling (1965).
double effectiveSize(const std::vector<double>& weights);

}  // namespace bw

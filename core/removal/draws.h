// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/range.h"

#include <cstdint>
#include <vector>

namespace bw {

/// A normal score beyond which 5 % lie: nine in ten draws stay between plus and minus it.
inline constexpr double scoreOfNineInTen = 1.6448536269514722;

/// Standard normal scores, a row for each variable. Latin hypercube: each variable takes the middles of `samples` equally likely pieces
/// once each, in an order of its own by chance. Same seed, same scores.
/// M. D. McKay, R. J. Beckman, W. J. Conover, Technometrics 21 (1979) 239.
std::vector<std::vector<double>> latinHypercube(std::size_t variables, std::size_t samples, std::uint32_t seed);

/// The value of a range at a normal score: log-normal on either side of the likely value, nine in ten inside the range. Positive ranges;
/// a bound of zero counts as a hundredth of the likely value.
double drawn(const Range& range, double score);

/// Score that a share of all draws stays below, 0 < share < 1.
double normalScore(double share);

}  // namespace bw

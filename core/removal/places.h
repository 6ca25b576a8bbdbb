// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/removal/hit_finder.h"
#include "core/values/crew.h"

#include <cstdint>
#include <memory>
#include <stop_token>
#include <vector>

namespace bw {

inline constexpr int drawsUntilAgain = 50;  // passes after which a place gets its draws again

using PassHits = std::shared_ptr<const std::vector<Hit>>;

/// A still point that stands for a share of the surface, and the light that each pass brings it.
struct Place {
  double share = 0;
  double dose_J_m2 = 0;          // of one pass, mean over those of the plan
  std::vector<PassHits> passes;  // of the first pass, the second, ...; after the last the first again. Never empty

  /// In the order of time; passes count from 1.
  const std::vector<Hit>& hitsOf(int pass) const { return *passes[static_cast<std::size_t>(pass - 1) % passes.size()]; }
};

/// Every pass brings the same.
Place sameEachPass(std::vector<Hit> hits);

/// How the passes of a plan fall.
struct PassesByChance {
  double speedWander = 0;  // of the hand, as in Wander
  double linePitch_m = 0;  // as in PassChance
  int passes = 1;          // of the plan, over which a place's dose is the mean
  std::uint32_t seed = 7;

  bool operator==(const PassesByChance&) const = default;
};

/// The surface as an ensemble. Nobody lays a pass in step with the one before: where its swaths, frames, lines and pulses begin is a matter
/// of chance, and so is the hand's wander. `count` draws of a pass are spread evenly over where the point lies in the repeat cell (R2
/// sequence: M. Roberts, The unreasonable effectiveness of quasirandom sequences, 2018, from memory), each with chances of its own. Each of
/// `count` places gets the draws in an order of its own, every draw once in each pass; so places are equal shares, n passes are n
/// independent draws, and no chance is in the answer: the same seed gives the same draws, at the same phases, whatever the settings. Least
/// dose first. Throws Stopped.
std::vector<Place> placesByChance(const HitFinder& hits, int count, const PassesByChance& chance, std::stop_token stop = {},
                                  const Crew& crew = {});

/// Fewer of them stand for all: the least hundredth, and `classes` equal ones, each by its middle. Least dose first.
std::vector<Place> classesOf(const std::vector<Place>& places, int classes);

/// Where light falls on a place hundreds of times in a pass: leaves out hits below a hundredth of the strongest and gives their light to
/// the others. Half of the hits go, a hundredth of the light moves.
void dropFaintHits(std::vector<Place>& places);

}  // namespace bw

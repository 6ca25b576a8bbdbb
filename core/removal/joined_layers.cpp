// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/joined_layers.h"

#include <algorithm>

namespace bw {

std::optional<JoinedLayers> joinedLayers(const CoatedMetal& part, const std::vector<bool>& kept) {
  std::vector<CoatLayer> coat;
  std::vector<bool> stays;
  std::vector<std::size_t> joined;
  for (std::size_t i = 0; i < part.coat.size(); ++i) {
    if (i > 0 && kept[i] == kept[i - 1] && isSameStuff(part.coat[i], part.coat[i - 1])) {
      coat.back().thickness_m += part.coat[i].thickness_m;
    } else {
      coat.push_back(part.coat[i]);
      stays.push_back(kept[i]);
    }
    joined.push_back(coat.size() - 1);
  }
  if (coat.size() == part.coat.size()) return std::nullopt;
  return JoinedLayers{CoatedMetal(std::move(coat), part.metal), std::move(stays), std::move(joined)};
}

PlaceRun JoinedLayers::apart(PlaceRun run, const std::vector<CoatLayer>& coat) const {
  for (std::vector<double>& left_m : run.left_m) {
    std::vector<double> each(coat.size());
    for (std::size_t i = coat.size(); i-- > 0;) {
      each[i] = std::min(coat[i].thickness_m, left_m[joined[i]]);
      left_m[joined[i]] -= each[i];
      const bool lowest = i + 1 == coat.size() || joined[i + 1] != joined[i];
      if (!lowest && each[i] < coat[i].filmLimit_m() && each[i] < coat[i].thickness_m) each[i] = 0;
    }
    left_m = std::move(each);
  }
  return run;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/removal/passes.h"

#include <optional>

namespace bw {

/// A coat whose neighbours of the same stuff are one layer: where one coat of a paint ends and the next begins nothing is different, and
/// the models, which keep heat layer by layer, must not see a border there.
struct JoinedLayers {
  CoatedMetal part;
  std::vector<bool> kept;
  std::vector<std::size_t> joined;  // of each layer as it was, the one it is in

  /// The run of the joined layers told of those as they were: what is left of one fills them from below, and a film that
  /// counts as gone over another paint does so here.
  PlaceRun apart(PlaceRun run, const std::vector<CoatLayer>& coat) const;
};

/// Nothing where no neighbours are alike. A layer that is to stay is joined with none that is to go.
std::optional<JoinedLayers> joinedLayers(const CoatedMetal& part, const std::vector<bool>& kept);

}  // namespace bw

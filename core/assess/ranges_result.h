// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/spread.h"

#include <optional>
#include <string>
#include <vector>

namespace bw {

/// One thing that is not known well, and what it does to the passes that are needed.
struct Influence {
  std::string what;      // "thickness of \"white\""
  double share = 0;      // of the passes' spread that it accounts for, 0..1
  Spread passesIfKnown;  // what remains of the passes once it is known to be as likely; infinite where it never clears
  std::string how = {};  // to find it out
};

/// What the results spread over when everything uncertain varies within its range. High may be infinite: it never clears.
struct LayerRanges {
  Spread passes;
  Spread removed_m;       // after the plan's passes
  double neverShare = 0;  // of the samples in which it never clears
};

/// Ends are the 5 and 95 % places of the draws, moved out where the plan's own likely value lies beyond.
struct Ranges {
  int samples = 0;
  Spread passesNeeded;  // high and middle are infinite where the coat never clears in so many samples
  double neverShare = 0;
  Spread clearedFraction;
  Spread heatIntoPartFraction;
  std::optional<Spread> rate_m2_s;
  std::optional<Spread> front_C;
  std::optional<Spread> back_C;
  std::optional<Spread> near_C;
  std::optional<Spread> worstMargin;
  std::vector<Spread> limits_C;  // what each of the thermal limits is held against
  std::optional<Spread> etch_m;
  std::optional<Spread> beamTime_s;  // of the passes that are needed
  std::optional<Spread> totalTime_s;
  std::optional<Spread> cost;
  std::optional<Spread> plannedBeamTime_s;  // of the passes that are planned
  std::optional<Spread> plannedTotalTime_s;
  std::optional<Spread> plannedCost;
  std::vector<LayerRanges> layers;
  std::vector<Spread> depth_m;        // coat gone after pass 0, 1, 2, ..., mean over the repeat cell
  std::vector<Influence> influences;  // greatest first
};

}  // namespace bw

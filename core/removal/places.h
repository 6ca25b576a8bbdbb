// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/dose/repeat_cell.h"

#include <vector>

namespace bw {

/// One pulse as a place on the part feels it.
struct Hit {
  double time_s = 0;  // from the beginning of the pass
  double fluence_J_m2 = 0;
  double duration_s = 0;  // of a piece of a continuous beam; 0 for a pulse
};

/// A still point that stands for a share of the repeat cell, with the pulses of one pass in the order of time.
struct Place {
  double share = 0;
  double across_m = 0;
  double along_m = 0;
  double dose_J_m2 = 0;
  std::vector<Hit> hits;
};

/// Still points for classes of place: cells of the map in the order of their dose, cut into a class of the least 1 % and `classes` equal
/// ones, each stood for by its middle cell. Hits weaker than 1e-4 of a pulse's peak are left out. `strokeTime_s` is the time between one
/// swath and the next. `continuousPower_W` gives the pieces of a continuous beam their durations; 0 for pulses.
/// Throws Stopped.
std::vector<Place> choosePlaces(const DoseMap& map, const std::vector<Dab>& dabs, const SpotProfile& profile, double spotRadius_m,
                                double framePeriod_s, double strokeTime_s, int classes, double continuousPower_W = 0,
                                std::stop_token stop = {});

}  // namespace bw

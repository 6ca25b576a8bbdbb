// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "core/beam/profile.h"
#include "core/scan/path.h"

#include <stop_token>

namespace bw {

/// The rectangle after which the steady pattern of dose repeats: the step-over across the travel, travel speed x frame period along it.
struct RepeatCell {
  double across_m = 0;
  double along_m = 0;
};

/// How finely a map is cut. Cells are as near to square as whole numbers allow and no side is longer than asked.
struct Grid {
  int columns = 0;
  int rows = 0;
};

Grid gridOf(const RepeatCell& cell, double longestStep_m);

/// Cells that gridOf would make; asked before anything is allocated.
double cellCount(const RepeatCell& cell, double longestStep_m);

/// Cells that laying down one dab goes over: what a map costs, times its dabs. Spots that are no Gaussian count several times, as their
/// cells take longer.
double cellsPerDab(const RepeatCell& cell, const SpotProfile& profile, double spotRadius_m, double longestStep_m);

/// Dose of one pass in the endless steady state. Every dab of one frame is laid down once and folded into the repeat cell, which adds
/// the frames before and after it and the neighbouring swaths. Spots are cut at 2.75 radii (3e-7 of a dab's energy is lost).
/// Throws Stopped.
DoseMap steadyMap(const std::vector<Dab>& dabs, const SpotProfile& profile, double spotRadius_m, const RepeatCell& cell, Grid grid,
                  std::stop_token stop = {});

/// Dose of one frame by a still hand: the same sum over a rectangle that holds the whole frame with three spot radii around it.
DoseMap stillMap(const std::vector<Dab>& dabs, const SpotProfile& profile, double spotRadius_m, double longestStep_m,
                 std::stop_token stop = {});

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/ensemble.h"
#include "core/assess/unknowns.h"

#include <limits>

namespace bw {

/// A number of passes, or a time, that has no end.
inline constexpr double neverDone = std::numeric_limits<double>::infinity();

/// What one draw comes to.
struct Outcome {
  double passesNeeded = neverDone;
  double course = neverDone;        // passes and parts of one, for comparing
  double cleared = 0;
  double heatShare = 0;
  std::vector<double> passShares;   // of the beam's energy that reaches the metal in each pass of the plan; none without a coat
  double etch_m = 0;
  Drawn drawn;
  std::vector<double> layerPasses;
  std::vector<double> layerRemoved_m;
  std::vector<double> depth_m;  // after each pass, mean over the cell
  double work = 0;              // as in PlaceRun
};

/// A few of the places stand for all: the last hundredth to clear, the next, which decides when 99 % are clear, and `others` evenly of the
/// rest. Of fewer than a hundred places the last decides by itself.
std::vector<Place> fewer(const std::vector<Place>& places, std::size_t others);

/// What each draw comes to at these places, as `first` has it at the likely values. `unknowns` are those of the ensemble. Throws Stopped.
std::vector<Outcome> outcomesOf(const Work& work, const Assessment& first, const std::vector<Place>& places,
                                const std::vector<Unknown>& unknowns, const Ensemble& ensemble);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/materials/resolve.h"
#include "core/removal/column.h"
#include "core/removal/places.h"

namespace bw {

inline constexpr int mostPasses = 50;       // beyond, a coat counts as never clear
inline constexpr double clearShare = 0.99;  // of the repeat cell that must be bare

/// How the light of a plan comes again.
struct PassRhythm {
  double pulseDuration_s = 0;  // 0: a continuous beam, whose hits carry their own
  double passTime_s = 0;  // from the beginning of one pass to that of the next, pause included
  int passes = 1;
};

struct PassesOutcome {
  RemovalResult removal;
  double strippingShare = 0;  // of the beam's energy that ends in the part while coat remains
  double etch_m = 0;          // most, over the places, after the plan's passes
};

/// Runs the ledger (pulses) or the column (continuous beam) at every place, pass after pass, until the whole coat is gone there, nothing moves any more, or the most passes are done.
/// Likely values. Throws Stopped.
PassesOutcome runPasses(const std::vector<LayerMaterial>& coat, const BareMetal& metal, double thickness_m,
                        const std::vector<Place>& places, const PassRhythm& rhythm, std::stop_token stop = {});

/// Single likely values of a layer; the removal temperature as a rise above the start.
CoatLayer coatLayer(const LayerMaterial& material, double start_C);

}  // namespace bw

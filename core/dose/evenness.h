// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/dose/dose_result.h"
#include "core/dose/repeat_cell.h"

namespace bw {

/// Statistics of a map over equal areas: mean, least, greatest, the 5 % and 95 % quantiles, standard deviation over mean, and the share
/// below half the mean. Edge ratio and ripple are left for the profile.
/// Throws Stopped.
DoseResult evennessOf(const DoseMap& map, std::stop_token stop = {});

/// Dose across the travel averaged along it. `summed` is read off the steady map's `columnMeans`; `oneSwath` is the same swath alone, each
/// dab spread across the travel by the spot's own width. Gaussian spots exactly; other profiles by their shape's sum in one direction.
/// `lit` is where the beam's centre goes while lit: the rows may end short of it.
SwathProfile swathProfile(const std::vector<DabRow>& rows, const LitBounds& lit, const SpotProfile& profile, double spotRadius_m,
                          const RepeatCell& cell, const std::vector<double>& steadyMeans);

/// Mean over the outer tenths of the lit extent over the mean of its central half, of one swath; nothing below five spots.
std::optional<double> edgeRatio(const SwathProfile& profile, double spotDiameter_m);

}  // namespace bw

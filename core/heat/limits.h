// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/heat_result.h"
#include "core/materials/resolve.h"
#include "core/values/part.h"
#include "core/values/status.h"

namespace bw {

/// The temperatures that limits are held against, the worse of stripping and bare.
struct HeatPeaks {
  double near_C = 0;
  double front_C = 0;
  double back_C = 0;
  double tintEquivalent_C = 0;    // of built-up heat
  double flash_C = 0;             // within a pulse
  double tintUnderBeam_C = 0;     // an instant before each pulse, where the metal does not melt
  double scorchEquivalent_C = 0;  // of the back face
};

/// Every temperature limit of the part with its source: the metal's, the kept layers', the user's own, what lies behind, touch.
std::vector<LimitResult> limitsOf(const Part& part, const Metal& metal, const std::vector<LayerMaterial>& coat, const HeatPeaks& peaks);

/// The predicted temperature that a limit is held against.
double feltBy(const LimitResult& limit, const HeatPeaks& peaks);

/// When each limit is first met, each where its face is hottest; `flashRise_K` within a pulse, on top of near heat.
void addMoments(std::vector<LimitResult>& limits, const ThermalResult& thermal);

/// Where a limit is felt.
HeatSite siteOf(const LimitResult& limit);

/// Where the limit to tell of is felt; the front where there is none.
HeatSite siteOf(const std::vector<LimitResult>& limits);

/// How long the hand may stop before each limit is met.
void addStillHand(std::vector<LimitResult>& limits, const StillHandHeat& still, double flashRise_K);

/// Our own working value, no source: a limit with less of its way left is near.
inline constexpr double nearMargin = 0.2;

/// State of one limit; near also where only the upper end of its range reaches it, not known where it is not above the start.
Status statusOf(const LimitResult& limit);

/// The limit to tell of: of those in the worst state, warnings left out, the one with the least margin; nothing where there is none.
const LimitResult* tellingLimit(const std::vector<LimitResult>& limits);

/// The limit with the smallest margin of those that are not warnings only; nothing where there is none.
const LimitResult* worstLimit(const std::vector<LimitResult>& limits);

/// Smallest margin of the limits that are not warnings only; nothing where there is none.
std::optional<double> worstMargin(const std::vector<LimitResult>& limits);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/heat_work.h"
#include "core/heat/limits.h"
#include "core/heat/tint.h"
#include "core/text/text.h"

#include <algorithm>

namespace bw {

namespace {

/// The likely worst of a hand that never moves, after all the time it was followed for. Tint under the beam is not followed for it.
HeatPeaks peaksOf(const StillHandHeat& still, double flashRise_K, double boiling_C) {
  HeatPeaks peaks;
  peaks.near_C = still.near_C.back();
  peaks.front_C = still.front_C.back();
  peaks.back_C = still.back_C.back();
  peaks.flash_C = peaks.near_C + flashRise_K;
  for (double* peak : {&peaks.near_C, &peaks.front_C, &peaks.back_C, &peaks.flash_C}) *peak = std::min(*peak, boiling_C);
  peaks.tintEquivalent_C = equivalentTintTemperature_C(still.time_s, still.front_C);
  peaks.scorchEquivalent_C = equivalentScorchTemperature_C(still.time_s, still.back_C);
  return peaks;
}

}  // namespace

void assessStandingHand(const Work& work, Assessment& assessment) {
  if (!work.scan->frame || work.settings().travelSpeed_m_s > 0) return;
  const double power = work.metal.absorptance.high * assessment.beam.meanPower_W;
  const auto still = standingHeat(work, heatInput(work, assessment.beam.spotDiameter_m / 2, power));
  if (!still) return;
  ThermalResult& thermal = assessment.thermal;
  thermal.boiling_C = work.metal.boiling_C.likely;
  thermal.stillHand = still;
  thermal.limits = limitsOf(work.project.part, work.metal, work.coat, peaksOf(*still, thermal.flashRise_K, thermal.boiling_C));
  std::erase_if(thermal.limits, [](const LimitResult& limit) { return limit.felt == Felt::TintUnderBeam; });
  addStillHand(thermal.limits, *still, thermal.flashRise_K);
  for (LimitResult& limit : thermal.limits) limit.reached_s = limit.stillHand_s;
  thermal.worstMargin = worstMargin(thermal.limits);
  assessment.notes.push_back("heat: the hand stands still; the temperatures beside the limits are those of bare metal after " +
                             text::duration(still->time_s.back()));
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/hold_likely.h"

#include "core/assess/outcomes.h"

#include <algorithm>

namespace bw {

namespace {


void hold(Spread& spread, double likely) {
  spread.low = std::min(spread.low, likely);
  spread.high = std::max(spread.high, likely);
}

void hold(std::optional<Spread>& spread, const std::optional<double>& likely) {
  if (spread && likely) hold(*spread, *likely);
}

double orNever(const std::optional<int>& passes) { return passes ? *passes : neverDone; }

void holdRemoval(const RemovalResult& removal, Ranges& ranges) {
  hold(ranges.passesNeeded, orNever(removal.passesNeeded));
  hold(ranges.clearedFraction, removal.clearedFraction.value_or(ranges.clearedFraction.middle));
  hold(ranges.heatIntoPartFraction, removal.heatIntoPartFraction.value_or(ranges.heatIntoPartFraction.middle));
  hold(ranges.rate_m2_s, removal.rate_m2_s);
  for (std::size_t i = 0; i < std::min(ranges.layers.size(), removal.layers.size()); ++i) {
    hold(ranges.layers[i].passes, orNever(removal.layers[i].passes));
    hold(ranges.layers[i].removed_m, removal.layers[i].removed_m);
  }
}

void holdHeat(const ThermalResult& thermal, Ranges& ranges) {
  hold(ranges.near_C, thermal.near_C);
  hold(ranges.front_C, thermal.front_C);
  hold(ranges.back_C, thermal.back_C);
  hold(ranges.worstMargin, thermal.worstMargin);
  for (std::size_t i = 0; i < ranges.limits_C.size(); ++i) hold(ranges.limits_C[i], thermal.limits[i].predicted_C);
}

void holdJob(const JobResult& job, Ranges& ranges) {
  hold(ranges.plannedBeamTime_s, job.beamTime_s);
  hold(ranges.plannedTotalTime_s, job.totalTime_s);
  hold(ranges.plannedCost, job.cost);
  if (!job.needed) return;
  hold(ranges.beamTime_s, job.needed->beamTime_s);
  hold(ranges.totalTime_s, job.needed->totalTime_s);
  hold(ranges.cost, job.needed->cost);
}

}  // namespace

void holdLikely(const Assessment& likely, Ranges& ranges) {
  holdRemoval(likely.removal, ranges);
  holdHeat(likely.thermal, ranges);
  holdJob(likely.job, ranges);
  hold(ranges.etch_m, likely.finish.etch_m);
}

}  // namespace bw

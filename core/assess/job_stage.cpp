// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/work.h"

#include "core/job/air.h"
#include "core/job/eyes.h"
#include "core/job/work.h"

namespace bw {

namespace {

/// Share of the coat's mass that the plan's passes take off.
double removedShare(const RemovalResult& removal) {
  double whole = 0, gone = 0;
  for (const LayerResult& layer : removal.layers) {
    whole += layer.thickness_m;
    gone += layer.removed_m;
  }
  return whole > 0 ? gone / whole : 0;
}

}  // namespace

void assessJob(Work& work, Assessment& assessment) {
  const RemovalResult& removal = assessment.removal;
  const std::optional<int> passes = work.settings().travelSpeed_m_s > 0 ? std::optional(work.settings().passes) : std::nullopt;
  assessment.job = job(work.project, work.step, work.machine, passes);
  const auto areas = coatedAreas(work.project, work.step, work.shipped);
  assessment.air = air(areas, work.metal, work.project.part, removedShare(removal), assessment.job.beamTime_s);
  assessment.eyes = eyes(work.machine, work.settings());
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/work.h"

#include "core/job/air.h"
#include "core/job/eyes.h"
#include "core/job/hazards.h"
#include "core/job/other_ways.h"
#include "core/job/work.h"

#include <algorithm>

namespace bw {

namespace {

/// Share of the mass of what need not stay that the plan's passes take off; nothing where removal was not computed.
std::optional<double> removedShare(const Work& work, const RemovalResult& removal) {
  if (work.coat.empty()) return 0;
  if (!removal.computed) return std::nullopt;
  double whole = 0, gone = 0;
  for (std::size_t i = 0; i < std::min(work.coat.size(), removal.layers.size()); ++i) {
    if (work.coat[i].keep) continue;
    whole += work.coat[i].density_kg_m3.likely * removal.layers[i].thickness_m;
    gone += work.coat[i].density_kg_m3.likely * removal.layers[i].removed_m;
  }
  return whole > 0 ? gone / whole : 0;
}

std::optional<JobNeeds> neededJob(const Work& work, const RemovalResult& removal) {
  if (!removal.passesNeeded) return std::nullopt;
  const JobResult job = bw::job(work.project, work.step, work.machine, std::max(1, *removal.passesNeeded));
  if (!job.beamTime_s || !job.totalTime_s) return std::nullopt;
  return JobNeeds{*job.beamTime_s, *job.totalTime_s, job.cost};
}

}  // namespace

void assessJob(Work& work, Assessment& assessment) {
  const RemovalResult& removal = assessment.removal;
  const std::optional<int> passes = work.settings().travelSpeed_m_s > 0 ? std::optional(work.settings().passes) : std::nullopt;
  assessment.job = job(work.project, work.step, work.machine, passes);
  assessment.job.needed = neededJob(work, removal);
  const auto areas = coatedAreas(work.project, work.step, work.shipped);
  assessment.air = air(areas, work.metal, work.project.part, removedShare(work, removal), assessment.job.beamTime_s);
  assessment.eyes = eyes(work.machine, work.settings());
  assessment.precautions = precautions(work.project, work.plan, work.shipped);
  if (openStops(assessment.precautions).empty())  // what stops the beam stops scraper and blast as well
    assessment.job.otherWays = otherWays(work.coat, work.project.part, assessment.job.area_m2, work.machine.hourlyCost);
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/quick.h"

#include "core/assess/heat_work.h"
#include "core/assess/removal_work.h"
#include "core/assess/stage_memo.h"
#include "core/dose/edge_on.h"
#include "core/dose/stripes.h"
#include "core/job/work.h"

#include <algorithm>

namespace bw {

namespace {

constexpr double quickestCells = 250;

void addHeat(Work& work, QuickNumbers& numbers) {
  if (!(work.settings().travelSpeed_m_s > 0)) return;
  const BeamResult& beam = work.scan->beam;
  const auto bare = bareHeat(work, heatInput(work, beam.spotDiameter_m / 2, work.metal.absorptance.high * beam.meanPower_W), quickestCells,
                             HeatWanted::Peaks);
  if (!bare) return;
  const auto told = [&](double temperature_C) { return std::min(temperature_C, work.metal.boiling_C.likely); };
  numbers.front_C = told(bare->hot.patch.front_C);
  numbers.back_C = told(bare->hot.patch.back_C);
  numbers.near_C = told(std::max(bare->hot.point_C, bare->hot.patch.front_C));
  work.nearBare_C = *numbers.near_C;
}

void addRemoval(const Work& work, QuickNumbers& numbers) {
  const auto places = placesFound(work);
  if (!places) return;
  std::vector<Place> sorted = *places;
  const RemovalResult removal =
      runPasses(work.coat, warmMetal(work), work.project.part.thickness_m.likely, sorted, rhythmOf(work), work.stop, work.crew).removal;
  numbers.passesNeeded = removal.passesNeeded;
  numbers.clearedFraction = removal.clearedFraction.value_or(0);
  const JobResult needed =
      job(work.project, work.step, work.machine, removal.passesNeeded ? std::optional(std::max(1, *removal.passesNeeded)) : std::nullopt);
  numbers.workingTime_s = needed.totalTime_s;
  numbers.cost = needed.cost;
}

}  // namespace

Prepared::Prepared(const Project& project, const std::string& planName, const Library& shipped)
    : m_project(std::make_unique<const Project>(project)), m_work(std::make_unique<const Work>(prepare(*m_project, planName, shipped, {}))) {}

Prepared::~Prepared() = default;

const Settings& Prepared::settings() const { return m_work->settings(); }

QuickNumbers Prepared::quick(const Settings& settings, std::stop_token stop, const Lent& lent) const {
  Work work = withSettings(*m_work, settings);
  work.stop = std::move(stop);
  work.memo = lent.memo;
  work.crew = lent.crew;
  work.scan = scanned(work);
  QuickNumbers numbers;
  if (!work.scan->frame || !work.scan->rows || work.scan->rows->empty()) return numbers;
  work.nearBare_C = work.project.part.startTemperature_C;
  throwIfStopped(work.stop);
  addHeat(work, numbers);
  throwIfStopped(work.stop);
  if (!(settings.travelSpeed_m_s > 0)) return numbers;
  numbers.rippleAcross = rippleOf(foldedEdgeOn(*work.scan->rows, Axis::Across, SpotProfile(work.machine.beamProfile),
                                               work.scan->beam.spotDiameter_m / 2, settings.stepOver_m));
  addRemoval(work, numbers);
  return numbers;
}

}  // namespace bw

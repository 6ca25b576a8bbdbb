// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/work.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace bw {
namespace {

constexpr double sheetA4_m2 = 0.210 * 0.297;  // ISO 216

double accessShare(Access access) {
  switch (access) {
    case Access::Tight:
      return tightShare;
    case Access::Hidden:
      return hiddenShare;
    case Access::Open:
      break;
  }
  return 1;
}

/// Area that an open face would have if it took as long.
double openArea_m2(const std::vector<Area>& areas) {
  double sum_m2 = 0;
  for (const Area& area : areas) sum_m2 += area.area_m2 * area.count.value_or(1) / paceShare(area);
  return sum_m2;
}

constexpr double hour_s = 3600;

/// Nothing where no hour has a price.
void addCost(JobResult& result, const std::optional<double>& machinePerHour, const std::optional<double>& labourPerHour) {
  if (!machinePerHour && !labourPerHour) return;
  const double total_s = *result.totalTime_s;
  if (machinePerHour)
    result.costItems = {{"stripping", *machinePerHour * (total_s - setUp_s) / hour_s}, {"set-up", *machinePerHour * setUp_s / hour_s}};
  if (labourPerHour) result.costItems.push_back({"labour", *labourPerHour * total_s / hour_s});
  result.cost = 0;
  for (const CostItem& item : result.costItems) *result.cost += item.amount;
}

std::optional<double> energy_J(const Machine& machine, double beamTime_s, double totalTime_s) {
  if (!machine.supplyPower_W) return std::nullopt;
  return *machine.supplyPower_W * beamTime_s + machine.extraDraw_W.value_or(0) * totalTime_s;
}

}  // namespace

std::vector<Area> areasOf(const Part& part, const Step& step) {
  if (part.areas.empty()) {
    Area whole;
    whole.area_m2 = part.size_m[0] * part.size_m[1];
    return {whole};
  }
  if (step.areas.empty()) return part.areas;
  std::vector<Area> named;
  std::ranges::copy_if(part.areas, std::back_inserter(named),
                       [&](const Area& area) { return std::ranges::find(step.areas, area.name) != step.areas.end(); });
  return named;
}

double areaOf_m2(const std::vector<Area>& areas) {
  double sum_m2 = 0;
  for (const Area& area : areas) sum_m2 += area.area_m2 * area.count.value_or(1);
  return sum_m2;
}

double paceShare(const Area& area) { return accessShare(area.access) * std::max(leastTiltShare, std::cos(area.tilt_rad)); }

JobResult job(const Project& project, const Step& step, const Machine& machine, std::optional<int> passes) {
  const std::vector<Area> areas = areasOf(project.part, step);
  JobResult result;
  result.area_m2 = areaOf_m2(areas);
  const double pace_m2_s = step.settings.travelSpeed_m_s * step.settings.stepOver_m;
  if (!passes || pace_m2_s <= 0) return result;
  const double beamTime_s = *passes * openArea_m2(areas) / pace_m2_s;
  const double totalTime_s = beamTime_s / beamOnShare + *passes * step.settings.pause_s + machine.warmUp_s.value_or(0) + setUp_s;
  result.beamTime_s = beamTime_s;
  result.totalTime_s = totalTime_s;
  result.energy_J = energy_J(machine, beamTime_s, totalTime_s);
  const Prices prices = project.prices.value_or(Prices{});
  addCost(result, machine.hourlyCost ? machine.hourlyCost : prices.machinePerHour, prices.labourPerHour);
  if (result.area_m2 > 0) result.secondsPerA4 = beamTime_s / result.area_m2 * sheetA4_m2;
  return result;
}

}  // namespace bw

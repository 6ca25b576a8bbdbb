// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/work.h"

#include "core/heat/flatness.h"
#include "core/heat/limits.h"
#include "core/heat/part_trace.h"
#include "core/heat/tint.h"
#include "core/job/work.h"

#include <algorithm>
#include <cmath>
#include <future>

namespace bw {

namespace {

/// The tour over the areas: strokes along the travel, the areas' sum laid out with the part's own proportions.
Tour tourOf(const Work& work, const Assessment& assessment) {
  const Settings& s = work.settings();
  const auto size = work.project.part.size_m;
  const bool alongY = std::abs(std::sin(s.travelAngle_rad)) >= std::abs(std::cos(s.travelAngle_rad));
  const double area = areaOf_m2(areasOf(work.project.part, work.step));
  const double whole = size[0] * size[1];
  const double scale = area > 0 && whole > 0 ? std::sqrt(std::min(1.0, area / whole)) : 1;

  Tour tour;
  tour.travelSpeed_m_s = s.travelSpeed_m_s;
  tour.stepOver_m = s.stepOver_m;
  tour.partAcross_m = alongY ? size[0] : size[1];
  tour.partAlong_m = alongY ? size[1] : size[0];
  tour.strokeLength_m = tour.partAlong_m * scale;
  tour.swaths = static_cast<int>(std::clamp(std::ceil(tour.partAcross_m * scale / s.stepOver_m - 1e-9), 1.0, 1e6));
  tour.passes = s.passes;
  tour.pause_s = s.pause_s;
  tour.frameAcross_m = assessment.profile.litExtent_m;
  tour.frameAlong_m = std::max(0.0, work.lit.high.y() - work.lit.low.y());
  return tour;
}

Plate plateOf(const Work& work) {
  const BareMetal metal = bareMetal(work.metal, 1, 0);
  return {work.project.part.thickness_m.likely, metal.conductivity_W_mK, metal.heatCapacity_J_m3K, work.project.part.filmCoefficient_W_m2K};
}

SheetMechanics sheetOf(const Work& work) {
  const Metal& metal = work.metal;
  return {work.project.part.thickness_m.likely, metal.expansion_1_K.likely, metal.youngsModulus_Pa.likely, metal.poissonRatio.likely,
          metal.yield_Pa.likely};
}

struct HeatPerWatt {
  HotSpot hot;
  PartTrace trace;
  double partPeak_K = 0;
  double bump_K = 0;
  double bumpWidth_m = 0;
};

HeatPerWatt heatPerWatt(const Work& work, const PathHeat& near, const Tour& tour) {
  HeatPerWatt heat;
  auto hot = std::async(std::launch::async, [&] { return hottestSpot(near, *work.frame, *work.travel, work.emission); });
  const PartHeat part(plateOf(work), tour);
  const double lit = work.frame->litFraction();
  heat.trace = traceOf(near, part, tour, *work.frame, lit);
  heat.hot = hot.get();
  for (const double rise : heat.trace.part_K_W) heat.partPeak_K = std::max(heat.partPeak_K, rise);
  const double crossing = tour.crossing_s(tour.passes - 1), half = tour.frameAlong_m / tour.travelSpeed_m_s / 2;
  for (const double late : {0.0, 0.5, 1.0}) heat.bump_K = std::max(heat.bump_K, lit * part.bump_K_W(crossing + late * half));
  heat.bumpWidth_m = part.bumpWidth_m(half);
  return heat;
}

double atPart(const Work& work, double rise_K) { return work.project.part.startTemperature_C + rise_K; }

/// The most a depth under the hottest spot reaches: heat from the face takes about z^2/(2 alpha) to get there.
double peakAtDepth_K_W(const PathHeat& near, HeatQuery query, double depth_m, double diffusivity_m2_s) {
  const double now = query.time_s, travelTime = depth_m * depth_m / diffusivity_m2_s;
  double peak = 0;
  for (const double late : {0.0, 0.1, 0.25, 0.5, 1.0}) {
    query.time_s = now + late * travelTime;
    peak = std::max(peak, near.riseAtDepth_K_W(query, depth_m));
  }
  return peak;
}

/// Depth whose near-heat peak passes the yielding rise, by bisection; 0 where even the surface stays below.
double yieldedDepth(const PathHeat& near, const HeatQuery& query, double power_W, double rise_K, const Plate& plate) {
  const auto yields = [&](double depth) { return power_W * peakAtDepth_K_W(near, query, depth, plate.diffusivity_m2_s()) > rise_K; };
  if (!yields(0)) return 0;
  double low = 0, high = plate.thickness_m;
  for (int i = 0; i < 12; ++i) {
    const double middle = 0.5 * (low + high);
    (yields(middle) ? low : high) = middle;
  }
  return low;
}

void fillTrace(const Work& work, const HeatPerWatt& heat, const Tour& tour, double power_W, HeatTrace& trace) {
  for (int pass = 0; pass < tour.passes; ++pass) trace.passStart_s.push_back(pass * tour.passTime_s());
  trace.time_s = heat.trace.time_s;
  for (std::size_t i = 0; i < trace.time_s.size(); ++i) {
    trace.front_C.push_back(atPart(work, power_W * (heat.trace.part_K_W[i] + heat.trace.nearFront_K_W[i])));
    trace.back_C.push_back(atPart(work, power_W * (heat.trace.part_K_W[i] + heat.trace.nearBack_K_W[i])));
  }
}

}  // namespace

void assessBareHeat(Work& work, Assessment& assessment) {
  work.nearBare_C = work.project.part.startTemperature_C;
  if (!work.frame || !assessment.dose) return;
  const Tour tour = tourOf(work, assessment);
  const PathHeat near(*work.frame, *work.travel, work.emission, assessment.beam.spotDiameter_m / 2, plateOf(work), tour.strokeTime_s());
  const HeatPerWatt heat = heatPerWatt(work, near, tour);
  const double power = work.metal.absorptance.high * assessment.beam.meanPower_W;

  ThermalResult& thermal = assessment.thermal;
  const BareMetal metal = bareMetal(work.metal, work.metal.absorptance.high, 0);
  thermal.near_C = atPart(work, power * (heat.partPeak_K + heat.hot.point_K_W));
  thermal.frontBare_C = atPart(work, power * (heat.partPeak_K + heat.hot.patchFront_K_W));
  thermal.backBare_C = atPart(work, power * (heat.partPeak_K + heat.hot.patchBack_K_W));
  thermal.flash_C = *thermal.near_C;
  if (work.pulsed())
    *thermal.flash_C += metal.flashRise_K(metal.absorptance * assessment.beam.peakIrradiance_W_m2, work.settings().pulseDuration_s);
  thermal.nearBare_C = thermal.near_C;
  work.nearBare_C = *thermal.near_C;

  fillTrace(work, heat, tour, power, thermal.trace);
  const SheetMechanics sheet = sheetOf(work);
  const double depth = yieldedDepth(near, heat.hot.query, power, skinYieldRise_K(sheet), plateOf(work));
  thermal.warpIndex = warpIndex(sheet, power * heat.bump_K, heat.bumpWidth_m, depth);
}

void assessLimits(Work& work, Assessment& assessment) {
  ThermalResult& thermal = assessment.thermal;
  if (!thermal.near_C) return;
  const double start = work.project.part.startTemperature_C;
  const double ratio = work.strippingShare / std::max(1e-6, work.metal.absorptance.high);
  if (work.strippingKnown) {
    thermal.frontStripping_C = start + ratio * (*thermal.frontBare_C - start);
    thermal.backStripping_C = start + ratio * (*thermal.backBare_C - start);
  }
  const double worse = work.strippingKnown ? std::max(1.0, ratio) : 1;
  thermal.front_C = start + worse * (*thermal.frontBare_C - start);
  thermal.back_C = start + worse * (*thermal.backBare_C - start);
  thermal.near_C = start + worse * (*thermal.near_C - start);
  thermal.flash_C = std::max(*thermal.flash_C, *thermal.near_C);
  if (worse > 1) {
    for (double& value : thermal.trace.front_C) value = start + worse * (value - start);
    for (double& value : thermal.trace.back_C) value = start + worse * (value - start);
  }
  const bool keepsZinc = std::ranges::any_of(
      work.coat, [](const LayerMaterial& layer) { return layer.keep && layer.coating.find("zinc") != std::string::npos; });
  const HeatPeaks peaks{*thermal.near_C, *thermal.front_C, *thermal.back_C,
                        equivalentTintTemperature_C(thermal.trace.time_s, thermal.trace.front_C)};
  thermal.limits = limitsOf(work.project.part, work.metal, keepsZinc, peaks);
  thermal.worstMargin = worstMargin(thermal.limits);
}

void assessFinish(Work& work, Assessment& assessment) {
  FinishResult& finish = assessment.finish;
  if (assessment.thermal.flash_C) finish.melts = *assessment.thermal.flash_C >= work.metal.melting_C.range.likely;
  if (!work.pulsed()) return;
  const double duration = work.settings().pulseDuration_s;
  finish.meltFluence_J_m2 =
      bareMetal(work.metal, work.metal.absorptance.likely, work.project.part.startTemperature_C).meltFluence_J_m2(duration);
  const double before = std::min(work.nearBare_C, work.metal.melting_C.range.likely - 1);
  finish.meltDepth_m = bareMetal(work.metal, work.metal.absorptance.high, before).meltDepth_m(*assessment.beam.peakFluence_J_m2, duration);
}

}  // namespace bw

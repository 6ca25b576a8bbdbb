// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/heat_work.h"
#include "core/heat/flatness.h"
#include "core/heat/limits.h"
#include "core/heat/part_map.h"
#include "core/heat/tint.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>
#include <future>

namespace bw {

namespace {

SheetMechanics sheetOf(const Work& work) {
  const Metal& metal = work.metal;
  return {work.project.part.thickness_m.likely, metal.expansion_1_K.likely, metal.youngsModulus_Pa.likely, metal.poissonRatio.likely,
          metal.yield_Pa.likely};
}

/// The most a depth under the hottest spot reaches: heat from the face takes about z^2/(2 alpha) to get there.
double peakAtDepth_K_W(const PathHeat& near, HeatQuery query, double depth_m) {
  query.depth_m = depth_m;
  const double now = query.time_s, travelTime = depth_m * depth_m / near.plate().diffusivity_m2_s();
  double peak = 0;
  for (const double late : {0.0, 0.1, 0.25, 0.5, 1.0}) {
    query.time_s = now + late * travelTime;
    peak = std::max(peak, near.riseAtDepth_K_W(query));
  }
  return peak;
}

/// Near heat alone, younger than it takes to cross the sheet.
PathHeat youngHeat(const Work& work, const BareHeat& bare) {
  const Plate& plate = bare.tour->near().plate();
  return {*work.frame,
          work.settings().travelAngle_rad,
          work.emission,
          bare.input.spotRadius_m,
          plate,
          endlessTour(bare.input.tour.travelSpeed_m_s),
          plate.mixingAge_s()};
}

/// Depth whose near-heat peak passes the yielding rise, by bisection; 0 where even the surface stays below.
double yieldedDepth(const PathHeat& near, const HeatQuery& query, double power_W, double rise_K) {
  const auto yields = [&](double depth) { return power_W * peakAtDepth_K_W(near, query, depth) > rise_K; };
  if (!yields(0)) return 0;
  double low = 0, high = near.plate().thickness_m;
  for (int i = 0; i < 10; ++i) {
    const double middle = 0.5 * (low + high);
    (yields(middle) ? low : high) = middle;
  }
  return low;
}

/// The hot place across the travel, frames smeared evenly: how far it stands above the sheet within 150 mm and how wide it is at half that.
struct Bump {
  double rise_K = 0;
  double width_m = 0;
};

Bump bumpAt(const BareHeat& bare) {
  constexpr double reach_m = 0.15;
  constexpr int steps = 30;
  const WorkHeat& heat = bare.tour->heat();
  const double mixing = heat.near().plate().mixingAge_s(), middle = bare.hot.back.place.x(), across = heat.near().tour().part_m.x();
  std::vector<double> place, level;
  for (int i = -steps; i <= steps; ++i) {
    const double x = middle + reach_m * i / steps;
    if (x < 0 || x > across) continue;
    place.push_back(x);
    level.push_back(heat.at({Point(x, bare.hot.back.place.y()), bare.hot.back.time_s, mixing, 0, Smear::Frames}).front_C);
  }
  if (level.empty()) return {};
  const auto [low, high] = std::ranges::minmax(level);
  const double half = 0.5 * (low + high);
  double width = 0;
  for (std::size_t i = 1; i < level.size(); ++i)
    if (level[i] > half || level[i - 1] > half) width += place[i] - place[i - 1];
  return {high - low, std::max(width, 1e-3)};
}

void cap(std::vector<double>& temperature_C, double boiling_C) {
  for (double& value : temperature_C) value = std::min(value, boiling_C);
}

void fillTrace(const Work& work, const BareHeat& bare, HeatTrace& trace) {
  trace.time_s = bare.trace.time_s;
  trace.front_C = trace.frontBare_C = bare.trace.front_C;
  trace.back_C = trace.backBare_C = bare.trace.back_C;
  trace.part_C = bare.trace.part_C;
  trace.near_C = bare.near_C;
  for (auto* curve : {&trace.front_C, &trace.back_C, &trace.frontBare_C, &trace.backBare_C, &trace.part_C, &trace.near_C})
    cap(*curve, work.metal.boiling_C.likely);
  trace.passStart_s = bare.tour->tour().passStart_s;
  const Point& place = bare.hot.front.place;
  const auto at = inPartAxes({place.x(), place.y()}, work.project.part.size_m, work.settings().travelAngle_rad);
  trace.x_m = at[0];
  trace.y_m = at[1];
}

/// The hot place through its stroke in fine time, and the frame that makes it hottest.
FineHistory crossingOf(const Work& work, const BareHeat& bare, double before_s, double after_s, int evenly) {
  const TourStroke stroke = shifted(bare.tour->tour().strokes[static_cast<std::size_t>(bare.hot.stroke)], bare.hot.query.frameShift_s);
  const double now = bare.hot.query.time_s;
  return fineHistory(bare.tour->near(), *work.frame, work.settings().travelAngle_rad, bare.hot.query, stroke,
                     std::max(stroke.begin_s, now - before_s), now + after_s, evenly);
}

void fillLastFrame(const Work& work, const BareHeat& bare, FrameTrace& frame) {
  const double period = work.frame->period_s();
  const FineHistory fine = crossingOf(work, bare, 0.3 * period, 0.7 * period, 120);
  frame.begin_s = fine.time_s.front();
  for (std::size_t i = 0; i < fine.time_s.size(); ++i) {
    const Faces faces = bare.tour->heat().with(bare.hot.query.place, fine.time_s[i], fine.rise[i]);
    frame.time_s.push_back(fine.time_s[i] - frame.begin_s);
    frame.near_C.push_back(faces.front_C);
    frame.back_C.push_back(faces.back_C);
  }
  for (auto* curve : {&frame.near_C, &frame.back_C}) cap(*curve, work.metal.boiling_C.likely);
}

/// While the frame goes over, without what melts: that film is another.
double tintUnderBeam(const Work& work, const BareHeat& bare) {
  const TourStroke& stroke = bare.tour->tour().strokes[static_cast<std::size_t>(bare.hot.stroke)];
  const double along = bare.tour->near().boxes().all.size.y() / std::max(std::abs(stroke.speed_m_s), 1e-9);
  constexpr double mostFrames = 6;  // followed in fine time; a slower hand repeats them
  const double period = work.frame->period_s(), over = std::max(along, period), followed = std::min(over, mostFrames * period);
  const FineHistory crossing = crossingOf(work, bare, followed, followed, 30);
  return tenMinuteTemperature_C(grownFilm_m2(bare.tour->heat(), bare.trace, crossing, bare.hot.query.place, bare.hot.query.time_s,
                                             work.metal.melting_C.range.likely, over / followed));
}

double flashRise(const Work& work, const Assessment& assessment) {
  if (!work.pulsed()) return 0;
  const BareMetal metal = bareMetal(work.metal, work.metal.absorptance.high, 0);
  return metal.flashRise_K(metal.absorptance * assessment.beam.peakIrradiance_W_m2, work.settings().pulseDuration_s);
}

/// What a pulse makes of the near heat; beyond boiling, the share of what the metal takes of it that is too much.
void flash(const Work& work, Assessment& assessment) {
  ThermalResult& thermal = assessment.thermal;
  const double reached = *thermal.near_C + thermal.flashRise_K, above = reached - thermal.boiling_C;
  thermal.flash_C = std::min(thermal.boiling_C, reached);
  if (above > 0 && assessment.beam.peakFluence_J_m2)
    thermal.flashExcess_J_m2 = work.metal.absorptance.high * *assessment.beam.peakFluence_J_m2 * std::min(1.0, above / thermal.flashRise_K);
}

}  // namespace

void assessBareHeat(Work& work, Assessment& assessment) {
  work.nearBare_C = work.project.part.startTemperature_C;
  assessment.thermal.boiling_C = work.metal.boiling_C.likely;
  assessment.thermal.flashRise_K = flashRise(work, assessment);
  if (!work.frame || !assessment.dose) return;
  const double power = work.metal.absorptance.high * assessment.beam.meanPower_W;
  work.bare = bareHeat(work, heatInput(work, assessment.beam.spotDiameter_m / 2, power), quickCells);
  if (!work.bare) {
    const double hand_s = tourOf(heatInput(work, 0, 0).tour).end_s();
    if (hand_s > longestFollowed_s)
      assessment.notes.push_back("heat: the hand would need " + text::duration(hand_s) +
                                 " for this part; temperatures are told for up to " + text::duration(longestFollowed_s));
    return;
  }
  const BareHeat& bare = *work.bare;
  ThermalResult& thermal = assessment.thermal;
  const double boiling = thermal.boiling_C;
  thermal.frontBare_C = std::min(boiling, std::max(bare.hot.patch.front_C, *std::ranges::max_element(bare.trace.front_C)));
  thermal.backBare_C = std::min(boiling, std::max(bare.hot.patch.back_C, *std::ranges::max_element(bare.trace.back_C)));
  thermal.near_C = thermal.nearBare_C = std::min(boiling, std::max(bare.hot.point_C, *thermal.frontBare_C));
  flash(work, assessment);
  work.nearBare_C = *thermal.near_C;

  fillTrace(work, bare, thermal.trace);
  auto frame = std::async(std::launch::async, [&] { fillLastFrame(work, bare, thermal.lastFrame); });
  const SheetMechanics sheet = sheetOf(work);
  const Bump bump = bumpAt(bare);
  const double depth = yieldedDepth(youngHeat(work, bare), bare.spots.front().query, power, skinYieldRise_K(sheet));
  thermal.flatness = flatness(sheet, bump.rise_K, bump.width_m, depth);
  thermal.warpIndex = thermal.flatness->index();
  frame.get();
  if (bare.coarse)
    assessment.notes.push_back(
        "heat: the beam's way winds so much that the hottest place is sought less closely than usual; a few per cent of the rise may be "
        "missed");
  if (bare.tour->tour().gathered)
    assessment.notes.push_back(
        "heat: so many swaths or passes are not followed one by one; neighbours are taken together, the first 60 passes stand for all");
}

namespace {

/// Follows the coat as it comes off, where there is one.
void addStripping(const Work& work, const BareHeat& bare, const RemovalResult& removal, ThermalResult& thermal) {
  if (!work.strippingKnown || removal.heatIntoPartByPass.empty()) return;
  const HeatedTour stripping(work, bare.input, strippingTour(bare.tour->tour(), removal, work.metal), quickCells, bare.tour->cooling_s());
  FaceHistory trace = tracedAnew(stripping.heat(), bare.hot.front.place, bare.trace);

  // The fine structure under the beam is that of bare metal, by the share of each pass.
  double near = *std::ranges::max_element(trace.front_C), front = near, back = *std::ranges::max_element(trace.back_C);
  const TourStroke& hottest = stripping.tour().strokes[static_cast<std::size_t>(bare.hot.stroke)];
  for (const TourStroke& stroke : stripping.tour().strokes) {
    if (std::abs(stroke.start.x() - hottest.start.x()) > 1e-9 || std::abs(stroke.speed_m_s - hottest.speed_m_s) > 1e-12) continue;
    const double time = stroke.begin_s + bare.hot.query.time_s - hottest.begin_s;
    near = std::max(near, stripping.heat().with(bare.hot.query.place, time, {stroke.share * bare.hot.pointRise.front_K, 0}).front_C);
    const double since = time - bare.hot.query.time_s;
    const auto patch = [&](const PatchMoment& hot) { return stripping.heat().patchAt(hot.place, hot.time_s + since, hot.frameShift_s); };
    const double frontNow = patch(bare.hot.front).front_C, backNow = patch(bare.hot.back).back_C;
    front = std::max(front, frontNow);
    back = std::max(back, backNow);
    raiseAt(trace.time_s, trace.front_C, bare.hot.front.time_s + since, frontNow);
    raiseAt(trace.time_s, trace.back_C, bare.hot.back.time_s + since, backNow);
  }
  for (auto* curve : {&trace.front_C, &trace.back_C}) cap(*curve, thermal.boiling_C);
  front = std::min(front, thermal.boiling_C);
  back = std::min(back, thermal.boiling_C);
  near = std::min(near, thermal.boiling_C);
  HeatTrace& out = thermal.trace;
  out.frontStripping_C = trace.front_C;
  out.backStripping_C = trace.back_C;
  thermal.frontStripping_C = front;
  thermal.backStripping_C = back;
  thermal.near_C = std::max(*thermal.near_C, near);
  for (std::size_t i = 0; i < out.time_s.size(); ++i) {
    out.front_C[i] = std::max(out.front_C[i], trace.front_C[i]);
    out.back_C[i] = std::max(out.back_C[i], trace.back_C[i]);
    out.near_C[i] = std::max(out.near_C[i], trace.front_C[i]);
  }
}

/// A kept layer whose coating states no limit is not judged by heat.
void noteKeptWithoutLimit(const Work& work, Assessment& assessment) {
  for (const LayerMaterial& layer : work.coat)
    if (layer.keep && !layer.melts_C && !work.metal.platingMelts_C)
      assessment.notes.push_back("heat: no temperature limit is known for the kept layer \"" + layer.name + "\"");
}

}  // namespace

void assessLimits(Work& work, Assessment& assessment) {
  ThermalResult& thermal = assessment.thermal;
  if (!work.bare) return assessStandingHand(work, assessment);
  const BareHeat& bare = *work.bare;
  auto tint = std::async(std::launch::async, [&] { return tintUnderBeam(work, bare); });
  addStripping(work, bare, assessment.removal, thermal);
  thermal.front_C = std::max(*thermal.frontBare_C, thermal.frontStripping_C.value_or(*thermal.frontBare_C));
  thermal.back_C = std::max(*thermal.backBare_C, thermal.backStripping_C.value_or(*thermal.backBare_C));
  flash(work, assessment);
  thermal.tintEquivalent_C = equivalentTintTemperature_C(thermal.trace.time_s, thermal.trace.frontBare_C);

  const HeatPeaks peaks{*thermal.near_C,
                        *thermal.front_C,
                        *thermal.back_C,
                        *thermal.tintEquivalent_C,
                        *thermal.flash_C,
                        tint.get(),
                        equivalentScorchTemperature_C(thermal.trace.time_s, thermal.trace.back_C)};
  noteKeptWithoutLimit(work, assessment);
  thermal.limits = limitsOf(work.project.part, work.metal, work.coat, peaks);
  addMoments(thermal.limits, thermal.trace, thermal.flashRise_K);
  for (LimitResult& limit : thermal.limits)  // met between the trace's times, at the hottest
    if (limit.predicted_C >= limit.limit_C && !limit.reached_s && limit.felt != Felt::TintUnderBeam)
      limit.reached_s = limit.felt == Felt::Back ? bare.hot.back.time_s : bare.hot.query.time_s;
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

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/stage_memo.h"
#include "core/heat/flatness.h"
#include "core/heat/limits.h"
#include "core/heat/part_map.h"
#include "core/heat/tint.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>

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
  return {*work.scan->frame,
          work.settings().travelAngle_rad,
          work.scan->emission,
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

void cap(std::vector<double>& temperature_C, double boiling_C) {
  for (double& value : temperature_C) value = std::min(value, boiling_C);
}

void fillTrace(const Work& work, const BareHeat& bare, const FaceHistory& history, const std::vector<double>& near_C, const Point& place,
               HeatTrace& trace) {
  trace.time_s = history.time_s;
  trace.front_C = trace.frontBare_C = history.front_C;
  trace.back_C = trace.backBare_C = history.back_C;
  trace.part_C = history.part_C;
  trace.near_C = near_C;
  for (auto* curve : {&trace.front_C, &trace.back_C, &trace.frontBare_C, &trace.backBare_C, &trace.part_C, &trace.near_C})
    cap(*curve, work.metal.boiling_C.likely);
  trace.passStart_s = bare.tour->tour().passStart_s;
  const auto at = inPartAxes({place.x(), place.y()}, work.project.part.size_m, work.settings().travelAngle_rad);
  trace.x_m = at[0];
  trace.y_m = at[1];
}

void fillLastFrame(const Work& work, const BareHeat& bare, FrameTrace& frame) {
  const FineHistory& fine = bare.lastFrame;
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
  return tenMinuteTemperature_C(grownFilm_m2(bare.tour->heat(), bare.trace, bare.crossing, bare.hot.query.place, bare.hot.query.time_s,
                                             work.metal.melting_C.range.likely, bare.crossingRepeats));
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

std::shared_ptr<const BareHeat> bareFound(const Work& work) {
  const BeamResult& beam = work.scan->beam;
  const HeatInput input = heatInput(work, beam.spotDiameter_m / 2, work.metal.absorptance.high * beam.meanPower_W);
  const auto make = [&] { return bareHeat(work, input, quickCells); };
  return work.memo ? work.memo->heat.get({work.scan, input, work.metal.boiling_C.likely}, make) : make();
}

std::shared_ptr<const HeatedTour> strippingFound(const Work& work, const RemovalResult& removal) {
  const BareHeat& bare = *work.bare;
  HandTour tour = strippingTour(bare.tour->tour(), removal, work.metal);
  StrippingInputs inputs{work.bare, {}};
  for (const TourStroke& stroke : tour.strokes) inputs.shares.push_back(stroke.share);
  const auto make = [&] {
    return std::make_shared<const HeatedTour>(work, bare.input, std::move(tour), quickCells, bare.tour->cooling_s());
  };
  return work.memo ? work.memo->stripping.get(inputs, make) : make();
}

void assessBareHeat(Work& work, Assessment& assessment) {
  work.nearBare_C = work.project.part.startTemperature_C;
  assessment.thermal.boiling_C = work.metal.boiling_C.likely;
  assessment.thermal.flashRise_K = flashRise(work, assessment);
  if (!work.scan->frame || !assessment.dose) return;
  const double power = work.metal.absorptance.high * assessment.beam.meanPower_W;
  if (!work.bare) work.bare = bareFound(work);
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
  thermal.backBare_C = std::min(boiling, std::max(bare.hot.patch.back_C, *std::ranges::max_element(bare.backTrace.back_C)));
  thermal.near_C = thermal.nearBare_C = std::min(boiling, std::max(bare.hot.point_C, *thermal.frontBare_C));
  flash(work, assessment);
  work.nearBare_C = *thermal.near_C;

  fillTrace(work, bare, bare.trace, bare.near_C, bare.hot.front.place, thermal.trace);
  fillTrace(work, bare, bare.backTrace, bare.backTrace.front_C, bare.hot.back.place, thermal.backTrace);
  fillLastFrame(work, bare, thermal.lastFrame);
  const SheetMechanics sheet = sheetOf(work);
  const double depth = yieldedDepth(youngHeat(work, bare), bare.spots.front().query, power, skinYieldRise_K(sheet));
  thermal.flatness = flatness(sheet, bare.bump.rise_K, bare.bump.width_m, depth);
  thermal.warpIndex = thermal.flatness->index();
  if (bare.coarse)
    assessment.notes.push_back(
        "heat: the beam's way winds so much that the hottest place is sought less closely than usual; a few per cent of the rise may be "
        "missed");
  if (bare.tour->tour().gathered)
    assessment.notes.push_back(
        "heat: so many swaths or passes are not followed one by one; neighbours are taken together, the first 60 passes stand for all");
}

namespace {

/// Lays what the coat lets through beside what bare metal does.
void takeWorse(FaceHistory stripping, double boiling_C, HeatTrace& trace) {
  for (auto* curve : {&stripping.front_C, &stripping.back_C}) cap(*curve, boiling_C);
  for (std::size_t i = 0; i < trace.time_s.size(); ++i) {
    trace.front_C[i] = std::max(trace.front_C[i], stripping.front_C[i]);
    trace.back_C[i] = std::max(trace.back_C[i], stripping.back_C[i]);
    trace.near_C[i] = std::max(trace.near_C[i], stripping.front_C[i]);
  }
  trace.frontStripping_C = std::move(stripping.front_C);
  trace.backStripping_C = std::move(stripping.back_C);
}

/// Follows the coat as it comes off, where there is one.
void addStripping(const Work& work, const BareHeat& bare, const RemovalResult& removal, ThermalResult& thermal) {
  if (!work.strippingKnown || removal.heatIntoPartByPass.empty()) return;
  const std::shared_ptr<const HeatedTour> heated = strippingFound(work, removal);
  const HeatedTour& stripping = *heated;
  FaceHistory trace = tracedAnew(stripping.heat(), bare.hot.front.place, bare.trace);
  FaceHistory backTrace = tracedAnew(stripping.heat(), bare.hot.back.place, bare.backTrace);

  // The fine structure under the beam is that of bare metal, by the share of each pass.
  double near = *std::ranges::max_element(trace.front_C), front = near, back = *std::ranges::max_element(backTrace.back_C);
  const TourStroke& hottest = stripping.tour().strokes[static_cast<std::size_t>(bare.hot.stroke)];
  for (std::size_t i = 0; i < stripping.tour().strokes.size(); ++i) {
    const TourStroke& stroke = stripping.tour().strokes[i];
    if (std::abs(stroke.start.x() - hottest.start.x()) > 1e-9 || std::abs(stroke.speed_m_s - hottest.speed_m_s) > 1e-12) continue;
    const double time = stroke.begin_s + bare.hot.query.time_s - hottest.begin_s;
    near = std::max(near, stripping.heat().with(bare.hot.query.place, time, {stroke.share * bare.hot.pointRise.front_K, 0}).front_C);
    const double since = time - bare.hot.query.time_s;
    const auto patch = [&](const PatchMoment& hot) {
      return stripping.heat().patchAt(hot.place, hot.time_s + since, hot.frames.movedBy(i + static_cast<std::size_t>(bare.hot.stroke)));
    };
    const double frontNow = patch(bare.hot.front).front_C, backNow = patch(bare.hot.back).back_C;
    front = std::max(front, frontNow);
    back = std::max(back, backNow);
    raiseAt(trace.time_s, trace.front_C, bare.hot.front.time_s + since, frontNow);
    raiseAt(backTrace.time_s, backTrace.back_C, bare.hot.back.time_s + since, backNow);
  }
  front = std::min(front, thermal.boiling_C);
  back = std::min(back, thermal.boiling_C);
  near = std::min(near, thermal.boiling_C);
  takeWorse(trace, thermal.boiling_C, thermal.trace);
  takeWorse(backTrace, thermal.boiling_C, thermal.backTrace);
  thermal.frontStripping_C = front;
  thermal.backStripping_C = back;
  thermal.near_C = std::max(*thermal.near_C, near);
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
                        tintUnderBeam(work, bare),
                        equivalentScorchTemperature_C(thermal.backTrace.time_s, thermal.backTrace.back_C)};
  noteKeptWithoutLimit(work, assessment);
  thermal.limits = limitsOf(work.project.part, work.metal, work.coat, peaks);
  addMoments(thermal.limits, thermal);
  for (LimitResult& limit : thermal.limits)  // met between the trace's times, at the hottest
    if (limit.predicted_C >= limit.limit_C && !limit.reached_s && limit.felt != Felt::TintUnderBeam)
      limit.reached_s = siteOf(limit) == HeatSite::Back ? bare.hot.back.time_s : bare.hot.query.time_s;
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

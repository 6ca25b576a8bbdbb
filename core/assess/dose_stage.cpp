// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/affordable.h"
#include "core/assess/stage_memo.h"

#include "core/dose/advice.h"
#include "core/dose/evenness.h"
#include "core/dose/out_of_step.h"
#include "core/dose/scene_map.h"
#include "core/dose/stripes.h"
#include "core/job/work.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

constexpr double mostSceneCells = 3e6;  // a picture; coarser points show the same
constexpr double mostSceneRows = 1e6;
constexpr std::uint32_t phaseSeed = 1;

/// What makes the dose stage's inputs out of the work, in one place.
struct DoseWork {
  const Work& work;
  SpotProfile profile;
  Footprint spot;
  RepeatCell cell;
  double step_m;

  explicit DoseWork(const Work& w)
      : work(w),
        profile(w.machine.beamProfile),
        spot(roundSpot(w.scan->beam.spotDiameter_m / 2)),
        cell{w.settings().stepOver_m, w.settings().travelSpeed_m_s * w.scan->frame->period_s()},
        step_m(affordable::longestStep_m(w.settings(), w.scan->beam.spotDiameter_m)) {}
  Grid grid() const { return gridOf(cell, step_m); }
};

/// Why a stripe along the travel comes about: the frames' advance, the lines, or both beating.
std::string causeAlong(const DoseWork& dose, double period_m) {
  const Settings& s = dose.work.settings();
  const double advance = dose.cell.along_m, k = std::round(advance / period_m);
  const auto frames = EvennessAdvice::framesOnAPlace(s, dose.work.scan->frame->period_s());
  if (!frames) return "the hand's advance of " + text::length(advance) + " from one frame to the next";
  const double lines = lineCount(s), apart = s.lineSpacing_m + advance / lines;
  const double order = k * apart / advance;  // whole where the period is that of the lines on the part
  if (order > 0.5 && std::abs(order - std::round(order)) < 0.5 / lines) return "lines " + text::length(apart) + " apart on the part";
  if (order > 0.5) return "lines " + text::length(apart) + " apart beating with the hand's " + text::length(advance) + " a frame";
  return "frames laid " + text::number(*frames, 2) + " deep on every place, not a whole number";
}

std::string causeAcross(const DoseWork& dose, double period_m) {
  const Settings& s = dose.work.settings();
  const bool slanted = std::abs(std::sin(s.travelAngle_rad)) < 0.99;
  const double apart = s.lineSpacing_m / std::max(1e-9, std::abs(std::cos(s.travelAngle_rad)));
  if (slanted && hasHeight(s.pattern) && std::abs(period_m - apart) < 0.1 * apart)
    return "the lines, " + text::length(apart) + " apart across the travel";
  if (dose.work.pulsed() && std::abs(period_m * s.repetitionRate_Hz / topScanSpeed_m_s(s) - 1) < 0.02)
    return "pulses " + text::length(period_m) + " apart that fall on the same places in every line";
  const Emission& emission = dose.work.scan->emission;
  if (emission.isGated() && std::abs(period_m * emission.gate_Hz / topScanSpeed_m_s(s) - 1) < 0.02)
    return "the gate's dashes, " + text::length(period_m) + " apart in every line";
  return "the swaths' edges, laid " + text::length(dose.cell.across_m) + " apart";
}

void fillStripes(const DoseWork& dose, const DoseMap& map, const std::vector<double>& across, DoseResult& result) {
  const std::vector<double> along = rowMeans(map, dose.work.stop);
  result.rippleAlong = rippleOf(along);
  result.stripeAlong = strongestStripe(along, dose.cell.along_m);
  result.ripple = rippleOf(across);
  result.stripeAcross = strongestStripe(across, dose.cell.across_m);
  if (result.stripeAlong) result.stripeAlong->cause = causeAlong(dose, result.stripeAlong->period_m);
  if (result.stripeAcross) result.stripeAcross->cause = causeAcross(dose, result.stripeAcross->period_m);
}

/// Frames so close that their phase does not show make no difference, nor does it where dozens of swaths lie on every place.
std::optional<OutOfStep> outOfStepOf(const DoseWork& dose, double spotRadius_m) {
  const Work& work = dose.work;
  if (dose.cell.along_m < spotRadius_m / 2 || dose.cell.across_m < spotRadius_m) return std::nullopt;
  Stroke back;
  back.backwards = true;
  const Settings& s = work.settings();
  const auto backRows =
      rowsOf(*work.scan->frame, Travel(s.travelSpeed_m_s, s.travelAngle_rad, back), work.scan->emission, spotRadius_m, {}, work.stop);
  return outOfStep(*work.scan->rows, backRows, dose.profile, dose.spot, work.scan->lit, dose.cell, phaseSeed, work.stop);
}

TiltedDose tiltedDose(const DoseWork& dose, const Area& area) {
  const double slope = std::cos(area.tilt_rad);
  std::vector<DabRow> rows = *dose.work.scan->rows;
  for (DabRow& row : rows) {
    row.first.x() /= slope;
    row.step.x() /= slope;
  }
  const Footprint spot{dose.spot.across_m / slope, dose.spot.along_m};
  const std::stop_token& stop = dose.work.stop;
  const DoseMap map = steadyMap(rows, dose.profile, spot, dose.cell, gridOf(dose.cell, dose.spot.along_m / 2), stop);
  const DoseResult even = evennessOf(map, stop);
  return {area.name, area.tilt_rad, slope, even.cv, rippleOf(columnMeans(map, stop)), rippleOf(rowMeans(map, stop)), even.missedFraction};
}

/// Areas of one tilt are alike.
std::vector<TiltedDose> tiltedAreas(const DoseWork& dose) {
  constexpr double steepest = 80 * std::numbers::pi / 180;  // beyond, hardly any light lands
  std::vector<TiltedDose> tilted;
  for (const Area& area : areasOf(dose.work.project.part, dose.work.step)) {
    if (area.tilt_rad == 0 || std::abs(area.tilt_rad) > steepest) continue;
    const auto same = std::ranges::find(tilted, area.tilt_rad, &TiltedDose::tilt_rad);
    tilted.push_back(same == tilted.end() ? tiltedDose(dose, area) : *same);
    tilted.back().area = area.name;
  }
  return tilted;
}

bool fits(const DoseWork& dose, DoseFound& found) {
  using namespace affordable;
  const double cells = cellCount(dose.cell, dose.step_m), share = mostCells / cells;
  const Settings& s = dose.work.settings();
  const bool lines = (hasHeight(s.pattern) || isRound(s.pattern)) && s.lineSpacing_m / 4 < dose.work.scan->beam.spotDiameter_m / 8;
  const std::string closer =
      "lines at least " + text::length(leastSpacing_m(dose.work, dose.work.scan->beam.spotDiameter_m)) + " apart would do";
  if (cells > mostCells) {
    found.whyNoDose = "the dose map would need " + text::number(cells) + " points, more than the " + text::number(mostCells) +
                      " this version computes; " +
                      (lines ? closer
                             : "a travel of " + atMost(s.travelSpeed_m_s * 1e3 * share) + " mm/s or a step-over of " +
                                   atMost(s.stepOver_m * 1e3 * share) + " mm would do");
    return false;
  }
  const double cost = steadyCost(*dose.work.scan->rows, dose.profile, dose.spot, dose.cell, dose.grid());
  if (cost > mostVisits) {
    found.whyNoDose = "the dose map is too fine for this many lines and pulses, " + text::number(cost / mostVisits) +
                      " times what this version computes; lines wider apart or a smaller frame would do";
    return false;
  }
  return true;
}

void mapSteady(const DoseWork& dose, DoseFound& found) {
  const Work& work = dose.work;
  if (!fits(dose, found)) return;
  const double radius = dose.work.scan->beam.spotDiameter_m / 2;
  auto chance = work.crew.beside([&] { return outOfStepOf(dose, radius); });
  auto map = std::make_shared<DoseMap>(steadyMap(*work.scan->rows, dose.profile, dose.spot, dose.cell, dose.grid(), work.stop, work.crew));
  auto evenness = work.crew.beside([&] { return evennessOf(*map, work.stop); });
  const std::vector<double> across = columnMeans(*map, work.stop);
  found.profile = swathProfile(*work.scan->rows, work.scan->lit, dose.profile, radius, dose.cell, across);
  throwIfStopped(work.stop);
  DoseResult stripes;
  fillStripes(dose, *map, across, stripes);
  DoseResult result = evenness.get();
  result.edgeRatio = edgeRatio(found.profile, dose.work.scan->beam.spotDiameter_m);
  result.ripple = stripes.ripple;
  result.rippleAlong = stripes.rippleAlong;
  result.stripeAcross = stripes.stripeAcross;
  result.stripeAlong = stripes.stripeAlong;
  result.outOfStep = chance.get();
  result.tilted = tiltedAreas(dose);
  found.dose = result;
  found.map = std::move(map);
}

void mapStill(const DoseWork& dose, DoseFound& found) {
  const Settings& s = dose.work.settings();
  const double radius = dose.work.scan->beam.spotDiameter_m / 2;
  const RepeatCell around{s.width_m + 8 * radius, s.height_m + 8 * radius};
  found.whyNoDose = "the hand stands still: one frame is shown, and nothing that needs a travel is known";
  if (cellCount(around, dose.step_m) > affordable::mostCells) return;
  found.stillMap =
      std::make_shared<DoseMap>(stillMap(*dose.work.scan->rows, dose.profile, dose.spot, dose.step_m, dose.work.stop, dose.work.crew));
}

Strokes strokesOf(const DoseWork& dose) {
  const Work& work = dose.work;
  const Settings& s = work.settings();
  Strokes strokes{*work.scan->frame,   s.travelSpeed_m_s, s.travelAngle_rad, s.stepOver_m,
                  work.scan->emission, dose.profile,      dose.spot.across_m};
  if (work.plan.hand && work.plan.hand->speedWander.value_or(0) > 0)
    strokes.wander = Wander(*work.plan.hand->speedWander, static_cast<std::uint32_t>(work.plan.hand->wanderSeed.value_or(1)));
  return strokes;
}

/// Points as close as the picture allows.
double sceneStep(const DoseWork& dose, const Point& size) { return std::max(dose.step_m, std::sqrt(size.prod() / mostSceneCells)); }

void mapScene(const DoseWork& dose, DoseFound& found) {
  const SceneRequest& request = dose.work.scene;
  const bool moves = dose.work.settings().travelSpeed_m_s > 0;
  if (request.scene == Scene::Endless || (!moves && request.scene != Scene::StillHand)) return;
  if (request.scene == Scene::OneSwath) {
    const LitBounds& lit = dose.work.scan->lit;
    const double step = sceneStep(dose, Point(lit.high.x() - lit.low.x() + 6 * dose.spot.across_m, dose.cell.along_m));
    found.sceneMap = std::make_shared<DoseMap>(
        oneSwathMap(*dose.work.scan->rows, dose.profile, dose.spot, lit, dose.cell.along_m, step, dose.work.stop, dose.work.crew));
    return;
  }
  const Strokes strokes = strokesOf(dose);
  const ScenePlan plan = planScene(strokes, request);
  if (sceneRows(strokes, plan) > mostSceneRows) {
    found.notes.push_back("this view would hold " + text::number(sceneRows(strokes, plan)) + " lines and pulses, more than the " +
                          text::number(mostSceneRows) + " this version lays down; a faster travel or a smaller frame would do");
    return;
  }
  found.sceneMap =
      std::make_shared<DoseMap>(sceneMap(strokes, plan, sceneStep(dose, plan.high - plan.low), dose.work.stop, dose.work.crew));
}

}  // namespace

std::shared_ptr<const DoseFound> doseFound(const Work& work) {
  const auto make = [&] {
    auto found = std::make_shared<DoseFound>();
    found->whyNoDose = work.scan->whyNoDose;
    if (!work.scan->rows || work.scan->rows->empty()) {
      found->notes.push_back(found->whyNoDose);
      return found;
    }
    const DoseWork dose(work);
    if (work.settings().travelSpeed_m_s > 0)
      mapSteady(dose, *found);
    else
      mapStill(dose, *found);
    if (!found->whyNoDose.empty()) found->notes.push_back(found->whyNoDose);
    mapScene(dose, *found);
    return found;
  };
  if (!work.memo) return make();
  DoseInputs inputs{work.scan, areasOf(work.project.part, work.step), work.scene, {}};
  if (work.scene.scene != Scene::Endless) inputs.hand = work.plan.hand;
  return work.memo->dose.get(inputs, make);
}

void takeDose(const Work& work, const DoseFound& found, Assessment& assessment) {
  assessment.scene = work.scene;
  assessment.dose = found.dose;
  assessment.whyNoDose = found.whyNoDose;
  assessment.map = found.map;
  assessment.stillMap = found.stillMap;
  assessment.sceneMap = found.sceneMap;
  assessment.profile = found.profile;
  assessment.notes.insert(assessment.notes.end(), found.notes.begin(), found.notes.end());
}

void assessDose(Work& work, Assessment& assessment) { takeDose(work, *doseFound(work), assessment); }

}  // namespace bw

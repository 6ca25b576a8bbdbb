// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/work.h"

#include "core/beam/delivery.h"
#include "core/dose/evenness.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>
#include <future>
#include <limits>
#include <numbers>

namespace bw {

namespace {

// What can be done in a second or two.
constexpr double mostDabs = 3e6;
constexpr double mostRows = 3e6;
constexpr double mostCells = 4e7;
constexpr double mostStrokes = 5e9;  // rows times the cells that one goes over
constexpr double mostStretches = 1e6;
constexpr double mostOff = 0.02;  // of a frame's energy, before it is remarked upon

OverlapResult overlapOf(const Work& work, const BeamResult& beam) {
  const Settings& s = work.settings();
  OverlapResult overlap;
  const bool sine = s.pattern == Pattern::Sine;
  const double speed = sine ? std::numbers::pi * s.oscillationRate_Hz.value_or(0) * s.width_m : s.scanSpeed_m_s;
  if (work.pulsed()) {
    overlap.pulseStep_m = speed / s.repetitionRate_Hz;
    overlap.pulseOverlap = 1 - *overlap.pulseStep_m / beam.spotDiameter_m;
    overlap.pulsesPerSpot = beam.spotDiameter_m / *overlap.pulseStep_m;
  }
  overlap.lineSpacing_m = s.lineSpacing_m;
  overlap.lineOverlap = 1 - s.lineSpacing_m / beam.spotDiameter_m;
  if (work.frame) {
    overlap.framePeriod_s = work.frame->period_s();
    overlap.litFraction = work.frame->litFraction();
  }
  return overlap;
}

/// The frame as a polyline of a few thousand points at most: ends of every piece, and points between where it curves.
std::vector<PathPoint> drawing(const Frame& frame) {
  std::vector<PathPoint> path;
  for (const Stretch& stretch : frame.stretches()) {
    const bool straight = stretch.isStraight();
    const int pieces = straight ? 1 : stretch.rate_rad_s > 0 ? 48 : 6;
    for (int i = 0; i <= pieces; ++i) {
      const Point p = stretch.at(stretch.duration_s * i / pieces);
      path.push_back({p.x(), p.y(), stretch.lit});
    }
    if (path.size() > 20000) break;  // a drawing of more says nothing
  }
  return path;
}

/// Pulses restart with each frame; in a short one their whole number may be far from rate x time.
void noteRestarts(const Work& work, Assessment& assessment) {
  const double asked = work.emission.meanPower_W * work.frame->litFraction() * work.frame->period_s();
  const double given = energyOf(work.rows);
  if (work.rows.empty() || std::abs(given - asked) <= mostOff * asked) return;
  assessment.notes.push_back("one frame holds " + text::whole(given * work.emission.rate_Hz / work.emission.meanPower_W) +
                             " pulses, counted anew in each: its energy is " + text::number(given / asked) +
                             " times mean power times lit time");
}

void buildPath(Work& work, Assessment& assessment) {
  const Settings& s = work.settings();
  if (!canDraw(s.pattern)) {
    assessment.notes.push_back("this pattern is not computed yet: dose, removal and heat are not known");
    return;
  }
  if (!(stretchCount(s) <= mostStretches)) {
    assessment.notes.push_back("the frame would have more than " + text::number(mostStretches / 4) +
                               " lines: too many to compute; set the lines wider apart");
    return;
  }
  work.frame = buildFrame(s, work.machine.scan);
  work.travel = Travel(s.travelSpeed_m_s, s.travelAngle_rad);
  work.emission = {work.pulsed(), s.repetitionRate_Hz, assessment.beam.meanPower_W};
  work.lit = litBounds(*work.frame, *work.travel);
  assessment.path = drawing(*work.frame);
  const double radius = assessment.beam.spotDiameter_m / 2;
  const double rows = rowCount(*work.frame, *work.travel, work.emission, radius);
  if (rows > mostRows) {
    assessment.notes.push_back("one frame holds " + text::number(rows) + " pulses along curves, more than the " + text::number(mostRows) +
                               " this version computes: no dose map; a smaller frame or a lower repetition rate would do");
    return;
  }
  work.rows = rowsOf(*work.frame, *work.travel, work.emission, radius);
  const double dabs = dabCount(*work.frame, *work.travel, work.emission, radius);
  if (dabs <= mostDabs)
    work.dabs = dabsOf(*work.frame, *work.travel, work.emission, radius);
  else
    assessment.notes.push_back("removal: one frame holds " + text::number(dabs) + " pulses, more than the " + text::number(mostDabs) +
                               " this version follows; a smaller frame or a lower repetition rate would do");
  noteRestarts(work, assessment);
}

double longestStep(const Settings& s, double spotDiameter_m) {
  const bool stack = s.pattern == Pattern::Raster || s.pattern == Pattern::Crossed;
  return stack ? std::min(spotDiameter_m / 8, s.lineSpacing_m / 4) : spotDiameter_m / 8;
}

void mapStill(Work& work, Assessment& assessment, const SpotProfile& profile, double step) {
  const double radius = assessment.beam.spotDiameter_m / 2;
  const Settings& s = work.settings();
  const RepeatCell around{s.width_m + 8 * radius, s.height_m + 8 * radius};
  assessment.notes.push_back("the hand stands still: one frame is shown, and nothing that needs a travel is known");
  if (cellCount(around, step) > mostCells) return;
  assessment.stillMap = std::make_shared<DoseMap>(stillMap(work.rows, profile, roundSpot(radius), step, work.stop));
}

void mapSteady(Work& work, Assessment& assessment, const SpotProfile& profile, double step) {
  const double radius = assessment.beam.spotDiameter_m / 2;
  const RepeatCell cell{work.settings().stepOver_m, work.settings().travelSpeed_m_s * work.frame->period_s()};
  if (cellCount(cell, step) > mostCells) {
    assessment.notes.push_back("the dose map would need " + text::number(cellCount(cell, step)) + " points, more than the " +
                               text::number(mostCells) +
                               " this version computes: no dose map; slower travel, a smaller frame or a smaller step-over would do");
    return;
  }
  if (steadyCost(work.rows, profile, roundSpot(radius), cell, gridOf(cell, step)) > mostStrokes) {
    assessment.notes.push_back(
        "the dose map is too fine for this many pulses: no dose map; lines wider apart, a smaller frame or a lower repetition rate would "
        "do");
    return;
  }
  auto map = std::make_shared<DoseMap>(steadyMap(work.rows, profile, roundSpot(radius), cell, gridOf(cell, step), work.stop));
  auto evenness = std::async(std::launch::async, [&] { return evennessOf(*map); });
  assessment.profile = swathProfile(work.rows, work.lit, profile, radius, cell, *map);
  DoseResult dose = evenness.get();
  dose.edgeRatio = edgeRatio(assessment.profile, assessment.beam.spotDiameter_m);
  dose.ripple = ripple(*map);
  assessment.dose = dose;
  assessment.map = std::move(map);
}

}  // namespace

void assessScanAndDose(Work& work, Assessment& assessment) {
  assessment.beam = deliver(work.machine, work.settings());
  buildPath(work, assessment);
  assessment.overlap = overlapOf(work, assessment.beam);
  if (work.rows.empty()) return;
  const SpotProfile profile(work.machine.beamProfile);
  const double step = longestStep(work.settings(), assessment.beam.spotDiameter_m);
  if (work.settings().travelSpeed_m_s > 0)
    mapSteady(work, assessment, profile, step);
  else
    mapStill(work, assessment, profile, step);
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/affordable.h"
#include "core/assess/work.h"

#include "core/beam/delivery.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr double mostOff = 0.02;  // of a frame's energy, before it is remarked upon

OverlapResult overlapOf(const Work& work, const BeamResult& beam) {
  const Settings& s = work.settings();
  OverlapResult overlap;
  if (work.pulsed()) {
    overlap.pulseStep_m = topScanSpeed_m_s(s) / s.repetitionRate_Hz;
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

/// The frame as a polyline: ends of every piece, and points between where it curves.
std::vector<PathPoint> drawing(const Frame& frame) {
  constexpr std::size_t enough = 20000;  // a drawing of more says nothing
  std::vector<PathPoint> path;
  for (const Stretch& stretch : frame.stretches()) {
    const int pieces = stretch.isStraight() ? 1 : static_cast<int>(std::max(6.0, std::min(1e4, std::ceil(48 * stretch.turns()))));
    for (int i = 0; i <= pieces; ++i) {
      const double t = stretch.duration_s * i / pieces;
      const Point p = stretch.at(t);
      path.push_back({p.x(), p.y(), stretch.lit, stretch.begin_s + t});
    }
    if (path.size() > enough) break;
  }
  return path;
}

/// Pulses restart with each frame; in a short one their whole number may be far from rate x time.
void noteRestarts(const Work& work, Assessment& assessment) {
  const double asked = work.emission.meanPower_W * work.frame->litFraction() * work.frame->period_s();
  const double given = energyOf(*work.rows);
  if (work.rows->empty() || std::abs(given - asked) <= mostOff * asked) return;
  assessment.notes.push_back("one frame holds " + text::whole(given * work.emission.rate_Hz / work.emission.meanPower_W) +
                             " pulses, counted anew in each: its energy is " + text::number(given / asked) +
                             " times mean power times lit time");
}

std::string closestLines(const Work& work, const Assessment& assessment) {
  return "lines at least " + text::length(affordable::leastSpacing_m(work, assessment.beam.spotDiameter_m)) + " apart would do";
}

/// The frame, where it has no more pieces than can be followed.
bool drawFrame(Work& work, Assessment& assessment) {
  const Settings& s = work.settings();
  if (!(stretchCount(s) <= affordable::mostStretches)) {
    assessment.whyNoDose = "the frame would have more than " + text::number(affordable::mostStretches / 4) +
                           " lines, too many to compute; " + closestLines(work, assessment);
    return false;
  }
  work.frame = buildFrame(s, work.machine.scan);
  work.travel = Travel(s.travelSpeed_m_s, s.travelAngle_rad);
  work.emission = emissionOf(work.machine, s, assessment.beam);
  work.lit = litBounds(*work.frame, *work.travel);
  assessment.path = drawing(*work.frame);
  return true;
}

/// Nothing comes out: for want of power, or of a place where the beam is on.
std::string nothingLit(const Work& work) {
  const Settings& s = work.settings();
  if (!(work.emission.meanPower_W > 0)) return "no power: a power and a duty above 0 % would do";
  if (s.edgeTrim_m > 0) return "the edge trim leaves nothing lit; less than " + text::length(s.width_m / 2) + " would do";
  return "no pulse falls into a frame; a higher repetition rate or a slower scan would do";
}

void layRows(Work& work, Assessment& assessment) {
  using namespace affordable;
  const double radius = assessment.beam.spotDiameter_m / 2;
  const double rows = rowCount(*work.frame, *work.travel, work.emission, radius);
  if (rows > mostRows) {
    const bool lines = hasHeight(work.settings().pattern) || isRound(work.settings().pattern);
    assessment.whyNoDose =
        "one frame holds " + text::number(rows) + " pulses along curves, more than the " + text::number(mostRows) +
        " this version computes; " +
        (lines           ? closestLines(work, assessment)
         : work.pulsed() ? "a repetition rate of " + atMost(work.emission.rate_Hz * mostRows / rows / 1e3) + " kHz would do"
                         : std::string("a faster oscillation would do"));
    return;
  }
  work.rows = std::make_shared<const std::vector<DabRow>>(rowsOf(*work.frame, *work.travel, work.emission, radius, {}, work.stop));
  assessment.rows = work.rows;
  if (work.rows->empty() || !(work.emission.meanPower_W > 0)) assessment.whyNoDose = nothingLit(work);
  noteRestarts(work, assessment);
  const double strikes = strikeCount(*work.frame, *work.travel, work.emission, radius);
  if (strikes <= mostStrikes)
    work.strikes = strikesOf(*work.frame, *work.travel, work.emission, radius, work.stop);
  else
    assessment.notes.push_back("removal: one frame holds " + text::number(strikes) + " pulses along curves, more than the " +
                               text::number(mostStrikes) + " this version follows; a frame or a repetition rate " +
                               text::number(strikes / mostStrikes * 1.05) + " times smaller would do");
}

}  // namespace

Emission emissionOf(const Machine& machine, const Settings& settings, const BeamResult& beam) {
  Emission emission{machine.kind == MachineKind::Pulsed, settings.repetitionRate_Hz, beam.meanPower_W};
  const double gate = machine.gate_Hz.value_or(0);
  if (emission.pulsed || !(gate > 0) || topScanSpeed_m_s(settings) / gate < beam.spotDiameter_m / 4) return emission;
  emission.gate_Hz = gate;
  emission.duty = settings.dutyFraction;
  return emission;
}

void assessScan(Work& work, Assessment& assessment) {
  assessment.beam = deliver(work.machine, work.settings());
  if (drawFrame(work, assessment)) layRows(work, assessment);
  assessment.overlap = overlapOf(work, assessment.beam);
}

}  // namespace bw

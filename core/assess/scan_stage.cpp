// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/affordable.h"
#include "core/assess/stage_memo.h"

#include "core/beam/delivery.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr double mostOff = 0.02;  // of a frame's energy, before it is remarked upon

OverlapResult overlapOf(const Work& work, const ScanWork& scan) {
  const Settings& s = work.settings();
  OverlapResult overlap;
  if (work.pulsed()) {
    overlap.pulseStep_m = topScanSpeed_m_s(s) / s.repetitionRate_Hz;
    overlap.pulseOverlap = 1 - *overlap.pulseStep_m / scan.beam.spotDiameter_m;
    overlap.pulsesPerSpot = scan.beam.spotDiameter_m / *overlap.pulseStep_m;
  }
  overlap.lineSpacing_m = s.lineSpacing_m;
  overlap.lineOverlap = 1 - s.lineSpacing_m / scan.beam.spotDiameter_m;
  if (scan.frame) {
    overlap.framePeriod_s = scan.frame->period_s();
    overlap.litFraction = scan.frame->litFraction();
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
void noteRestarts(ScanWork& scan) {
  const double asked = scan.emission.meanPower_W * scan.frame->litFraction() * scan.frame->period_s();
  const double given = energyOf(*scan.rows);
  if (scan.rows->empty() || std::abs(given - asked) <= mostOff * asked) return;
  scan.notes.push_back("one frame holds " + text::whole(given * scan.emission.rate_Hz / scan.emission.meanPower_W) +
                       " pulses, counted anew in each: its energy is " + text::number(given / asked) + " times mean power times lit time");
}

std::string closestLines(const Work& work, const ScanWork& scan) {
  return "lines at least " + text::length(affordable::leastSpacing_m(work, scan.beam.spotDiameter_m)) + " apart would do";
}

/// The frame, where it has no more pieces than can be followed.
bool drawFrame(const Work& work, ScanWork& scan) {
  const Settings& s = work.settings();
  if (!(stretchCount(s) <= affordable::mostStretches)) {
    scan.whyNoDose = "the frame would have more than " + text::number(affordable::mostStretches / 4) + " lines, too many to compute; " +
                     closestLines(work, scan);
    return false;
  }
  scan.frame = buildFrame(s, work.machine.scan);
  scan.travel = Travel(s.travelSpeed_m_s, s.travelAngle_rad);
  scan.emission = emissionOf(work.machine, s, scan.beam);
  scan.lit = litBounds(*scan.frame, *scan.travel);
  scan.path = drawing(*scan.frame);
  return true;
}

/// Nothing comes out: for want of power, or of a place where the beam is on.
std::string nothingLit(const Work& work, const ScanWork& scan) {
  const Settings& s = work.settings();
  if (!(scan.emission.meanPower_W > 0)) return "no power: a power and a duty above 0 % would do";
  if (s.edgeTrim_m > 0) return "the edge trim leaves nothing lit; less than " + text::length(s.width_m / 2) + " would do";
  return "no pulse falls into a frame; a higher repetition rate or a slower scan would do";
}

void layRows(const Work& work, ScanWork& scan) {
  using namespace affordable;
  const double radius = scan.beam.spotDiameter_m / 2;
  const double rows = rowCount(*scan.frame, *scan.travel, scan.emission, radius);
  if (rows > mostRows) {
    const bool lines = hasHeight(work.settings().pattern) || isRound(work.settings().pattern);
    scan.whyNoDose = "one frame holds " + text::number(rows) + " pulses along curves, more than the " + text::number(mostRows) +
                     " this version computes; " +
                     (lines           ? closestLines(work, scan)
                      : work.pulsed() ? "a repetition rate of " + atMost(scan.emission.rate_Hz * mostRows / rows / 1e3) + " kHz would do"
                                      : std::string("a faster oscillation would do"));
    return;
  }
  scan.rows = std::make_shared<const std::vector<DabRow>>(rowsOf(*scan.frame, *scan.travel, scan.emission, radius, {}, work.stop));
  if (scan.rows->empty() || !(scan.emission.meanPower_W > 0)) scan.whyNoDose = nothingLit(work, scan);
  noteRestarts(scan);
  const double strikes = strikeCount(*scan.frame, *scan.travel, scan.emission, radius);
  if (strikes <= mostStrikes)
    scan.strikes = strikesOf(*scan.frame, *scan.travel, scan.emission, radius, work.stop);
  else
    scan.notes.push_back("removal: one frame holds " + text::number(strikes) + " pulses along curves, more than the " +
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

std::shared_ptr<const ScanWork> scanned(const Work& work) {
  const auto make = [&] {
    auto scan = std::make_shared<ScanWork>();
    scan->beam = deliver(work.machine, work.settings());
    if (drawFrame(work, *scan)) layRows(work, *scan);
    scan->overlap = overlapOf(work, *scan);
    return scan;
  };
  if (!work.memo) return make();
  ScanInputs inputs{work.machine, work.settings()};
  const Settings none;
  inputs.settings.passes = none.passes;
  inputs.settings.pause_s = none.pause_s;
  inputs.settings.swathOrder = none.swathOrder;
  inputs.settings.extras = none.extras;
  return work.memo->scan.get(inputs, make);
}

void assessScan(Work& work, Assessment& assessment) {
  work.scan = scanned(work);
  const ScanWork& scan = *work.scan;
  assessment.beam = scan.beam;
  assessment.overlap = scan.overlap;
  assessment.path = scan.path;
  assessment.rows = scan.rows;
  assessment.whyNoDose = scan.whyNoDose;
  assessment.notes.insert(assessment.notes.end(), scan.notes.begin(), scan.notes.end());
}

}  // namespace bw

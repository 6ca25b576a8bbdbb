// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/machine_setup.h"

#include "core/text/text.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

void propose(Proposal& proposal, MachineField field, std::optional<double> old, const Range& value, std::string from) {
  proposal.changes.push_back({field, old, value, std::move(from), {}});
}

std::vector<Plane> planesOf(const Proposal& proposal, const Measurements& measurements) {
  std::vector<Plane> planes = measurements.diameters;
  for (const SpotAt& at : proposal.spots) {
    if (!at.spot.value) continue;
    const Range& d = at.spot.value->diameter_m;
    const double half = (d.high - d.low) / 2;
    planes.push_back({at.focusOffset_m, {d.likely, half > 1e-9 * d.likely ? std::optional(half) : std::nullopt}});
  }
  return planes;
}

void proposeCaustic(Proposal& proposal, const Machine& machine) {
  const CausticFit& beam = *proposal.caustic->value;
  propose(proposal, MachineField::SpotDiameter, machine.spotDiameter_m, beam.waistDiameter_m, "diameters along the beam");
  propose(proposal, MachineField::M2, machine.M2, beam.M2, "diameters along the beam");
  if (machine.divergence_rad) {
    propose(proposal, MachineField::Divergence, machine.divergence_rad, beam.fullAngle_rad, "diameters along the beam");
  }
  if (beam.waistPosition_m.low > 0 || beam.waistPosition_m.high < 0) {
    proposal.remarks.push_back("the focus lies at " + text::length(beam.waistPosition_m.likely) + " (" +
                               text::length(beam.waistPosition_m.low) + " to " + text::length(beam.waistPosition_m.high) +
                               ") on the scale of focus offsets, not at 0");
  }
}

void learnBeam(Proposal& proposal, const Machine& machine, const Measurements& measurements) {
  for (const MarkSeries& series : measurements.marks) proposal.spots.push_back({series.focusOffset_m, fitSpot(series.marks)});
  if (!proposal.spots.empty() && machine.beamProfile != BeamProfile::Gaussian) {
    proposal.remarks.push_back("the machine's beam profile is not Gaussian: marks then tell the spot only roughly");
  }
  const std::vector<Plane> planes = planesOf(proposal, measurements);
  if (planes.size() >= 4 || !measurements.diameters.empty()) proposal.caustic = fitCaustic(planes, machine.wavelength_m);
  if (proposal.caustic && proposal.caustic->value) return proposeCaustic(proposal, machine);
  const auto inFocus = std::ranges::find_if(proposal.spots, [](const SpotAt& at) { return at.focusOffset_m == 0 && at.spot.value; });
  if (inFocus != proposal.spots.end()) {
    return propose(proposal, MachineField::SpotDiameter, machine.spotDiameter_m, inFocus->spot.value->diameter_m, "marks in focus");
  }
  const bool elsewhere = std::ranges::any_of(proposal.spots, [](const SpotAt& at) { return at.spot.value.has_value(); });
  if (elsewhere)
    proposal.remarks.push_back("marks were made out of focus only: the machine's spot, which is that in focus, stays as it is");
}

/// Dial and rating share their unit, so what is lit at the greatest dialled size is its scale times that size, without the mark's own
/// width.
void learnReach(Proposal& proposal, const std::vector<Dialled>& given, double most_m, MachineField field, const char* noun) {
  const double full = most_m > 0 ? most_m : 1;
  auto& learnt = field == MachineField::MaxWidth ? proposal.width : proposal.height;
  learnt = fitProportion(given, full, noun);
  if (!learnt->value || most_m <= 0) return;
  propose(proposal, field, most_m, learnt->value->gain * most_m, std::string("lit ") + noun + "s");
  proposal.remarks.push_back(std::string("for 10 mm of ") + noun + " dial " + text::number(10 / learnt->value->gain.likely, 3) +
                             " mm; if the scale is put right at the machine, its greatest " + noun + " stays as it was");
}

void learnHead(Proposal& proposal, const Machine& machine, const Measurements& measurements) {
  if (!measurements.widths.empty()) learnReach(proposal, measurements.widths, machine.scan.maxWidth_m, MachineField::MaxWidth, "width");
  if (!measurements.heights.empty())
    learnReach(proposal, measurements.heights, machine.scan.maxHeight_m, MachineField::MaxHeight, "height");
  if (measurements.frameTimes.empty()) return;
  proposal.turnaround = fitTurnaround(lineTimes(measurements.frameTimes));
  if (!proposal.turnaround->value) return;
  propose(proposal, MachineField::Turnaround, machine.scan.turnaround_s, proposal.turnaround->value->turnaround_s, "frame times");
}

void learnPower(Proposal& proposal, const Machine& machine, const Measurements& measurements) {
  if (measurements.powers.empty()) return;
  proposal.power = fitDeliveredPower(measurements.powers, machine.ratedPower_W, measurements.meterUncertainty);
  if (!proposal.power->value) return;
  propose(proposal, MachineField::DeliveredPower, machine.deliveredPower_W, proposal.power->value->line.atFull, "powers at the part");
  if (!measurements.checkedOn) return;
  proposal.machine.checkedOn = measurements.checkedOn;
  proposal.remarks.push_back("with the delivered power the date of its check becomes " + *measurements.checkedOn);
}

/// Which of the machine's pulse durations this is; none where it has none like it.
std::optional<std::size_t> durationOf(const Machine& machine, double duration_s) {
  const auto& list = machine.pulseDurations_s;
  const auto found = std::ranges::find_if(list, [&](double known) { return std::abs(known - duration_s) <= 1e-3 * known; });
  return found == list.end() ? std::nullopt : std::optional(static_cast<std::size_t>(found - list.begin()));
}

void proposeCeiling(Proposal& proposal, const Machine& machine, const CeilingAt& at) {
  const auto& listed = machine.maxPulseEnergy_J;
  MachineChange change{MachineField::MaxPulseEnergy, {}, at.ceiling.value->pulseEnergy_J, "powers against repetition rate", {}};
  if (machine.pulseDurations_s.size() > 1) {
    if (at.pulseDuration_s) change.pulseDuration = durationOf(machine, *at.pulseDuration_s);
    if (!change.pulseDuration) {
      proposal.remarks.push_back("the ceiling of pulse energy was measured at no pulse duration of this machine: its list stays as it is");
      return;
    }
  }
  if (listed.empty() && change.pulseDuration) {
    proposal.remarks.push_back("the machine named no ceiling of pulse energy: until measured, its other pulse durations get the same");
  }
  const std::size_t entry = listed.size() > 1 && change.pulseDuration ? *change.pulseDuration : 0;
  if (entry < listed.size()) change.old = listed[entry];
  proposal.changes.push_back(change);
}

void learnCeilings(Proposal& proposal, const Machine& machine, const Measurements& measurements) {
  if (!measurements.rates.empty() && machine.kind == MachineKind::Continuous) {
    proposal.remarks.push_back("the machine is continuous: its power does not depend on a repetition rate, those readings were left aside");
    return;
  }
  for (const RateSeries& series : measurements.rates) {
    proposal.ceilings.push_back({series.pulseDuration_s, fitEnergyCeiling(series.readings, measurements.meterUncertainty)});
    if (proposal.ceilings.back().ceiling.value) proposeCeiling(proposal, machine, proposal.ceilings.back());
  }
}

void applyPulseEnergy(Machine& machine, const MachineChange& change) {
  auto& listed = machine.maxPulseEnergy_J;
  if (!change.pulseDuration) {
    listed = {change.value.likely};
    return;
  }
  // What was not measured keeps the one value that held for all.
  if (listed.size() != machine.pulseDurations_s.size()) {
    listed.assign(machine.pulseDurations_s.size(), listed.empty() ? change.value.likely : listed.front());
  }
  listed[*change.pulseDuration] = change.value.likely;
}

}  // namespace

std::vector<LineTime> lineTimes(const std::vector<FrameTime>& frames) {
  std::vector<LineTime> times;
  for (const FrameTime& frame : frames) {
    LineTime line{frame.width_m, frame.scanSpeed_m_s, {}};
    const double strokes = frame.oneWay ? 2 : 1;
    if (frame.lines && frame.frameTime_s) {
      line.time_s.value = *frame.frameTime_s / (*frame.lines * strokes);
      if (frame.uncertainty_s) line.time_s.uncertainty = *frame.uncertainty_s / (*frame.lines * strokes);
    } else if (frame.linesPerSecond) {
      line.time_s.value = 1 / (*frame.linesPerSecond * strokes);
    }
    times.push_back(line);
  }
  return times;
}

void apply(Machine& machine, const MachineChange& change) {
  const double value = change.value.likely;
  switch (change.field) {
    case MachineField::SpotDiameter:
      machine.spotDiameter_m = value;
      break;
    case MachineField::M2:
      machine.M2 = value;
      break;
    case MachineField::Divergence:
      machine.divergence_rad = value;
      break;
    case MachineField::MaxWidth:
      machine.scan.maxWidth_m = value;
      break;
    case MachineField::MaxHeight:
      machine.scan.maxHeight_m = value;
      break;
    case MachineField::Turnaround:
      machine.scan.turnaround_s = value;
      break;
    case MachineField::DeliveredPower:
      machine.deliveredPower_W = value;
      break;
    case MachineField::MaxPulseEnergy:
      applyPulseEnergy(machine, change);
      break;
  }
}

Proposal proposeMachine(const Machine& machine, const Measurements& measurements) {
  Proposal proposal;
  proposal.machine = machine;
  learnBeam(proposal, machine, measurements);
  learnHead(proposal, machine, measurements);
  learnPower(proposal, machine, measurements);
  learnCeilings(proposal, machine, measurements);
  for (const MachineChange& change : proposal.changes) apply(proposal.machine, change);
  return proposal;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/machine_field_file.h"
#include "core/learn/measurements_file.h"
#include "core/text/text.h"

namespace bw {

namespace {

std::string figure(double value_SI, const FileUnit& unit) {
  const std::string symbol = unit.symbol;
  return text::number(unit.fromSi(value_SI), 3) + (symbol.empty() ? "" : " " + symbol);
}

std::string span(const Range& range, const FileUnit& unit) {
  return figure(range.likely, unit) + " (" + text::number(unit.fromSi(range.low), 3) + " to " + text::number(unit.fromSi(range.high), 3) +
         ")";
}

std::string changeLine(const Machine& machine, const MachineChange& change) {
  const FieldInFile field = fieldInFile(change.field);
  std::string line = std::string("  ") + field.name;
  if (change.pulseDuration) line += " at " + figure(machine.pulseDurations_s[*change.pulseDuration], units::ns);
  line += ": " + (change.old ? figure(*change.old, field.unit) : "not stated") + " -> " + span(change.value, field.unit);
  return line + ", from " + change.from + (change.agrees() ? "; the old value agrees\n" : "\n");
}

/// A heading with what was learnt or why not, and its remarks.
template <class T, class Words>
std::string section(const std::string& heading, const Learnt<T>& learnt, const Words& words) {
  std::string text = heading + ": " + (learnt.value ? words(*learnt.value) : learnt.problem) + "\n";
  for (const std::string& remark : learnt.remarks) text += "  - " + remark + "\n";
  return text;
}

std::string spotWords(const SpotFit& spot) {
  const FileUnit perLine{"J/cm", 1e2, 1};
  const FileUnit unit = spot.dose == MarkDose::PulseEnergy ? units::mJ : spot.dose == MarkDose::LineEnergy ? perLine : units::W;
  return "spot " + span(spot.diameter_m, units::um) + ", the material marks from " + span(spot.threshold, unit) + " on";
}

std::string causticWords(const CausticFit& beam) {
  return "spot " + span(beam.waistDiameter_m, units::um) + " at " + span(beam.waistPosition_m, units::mm) + ", M2 " +
         span(beam.M2, units::none) + ", Rayleigh length " + span(beam.rayleighRange_m, units::mm);
}

std::string scaleWords(const Proportion& scale) {
  return "1 mm dialled is lit as " + span(scale.gain * 1e-3, units::mm) +
         (scale.offset ? ", the mark itself adds " + span(*scale.offset, units::mm) : "");
}

std::string powerWords(const DeliveredPower& power) {
  return span(power.line.atFull, units::W) + " at full setting, " + span(power.share, units::percent) + " of the rated power" +
         (power.loss ? "; the optics lose " + span(*power.loss, units::percent) : "");
}

std::string ceilingWords(const EnergyCeiling& ceiling) {
  return "a pulse carries at most " + span(ceiling.pulseEnergy_J, units::mJ) +
         (ceiling.fallsBeyond_Hz ? ", less beyond " + span(*ceiling.fallsBeyond_Hz, units::kHz) : "");
}

}  // namespace

std::string proposalTable(const Proposal& proposal) {
  std::string text = "Machine " + proposal.machine.id + "\nIn brackets: nine in ten such measurements hold the truth there.\n\n";
  for (const SpotAt& at : proposal.spots)
    text += section("Marks at " + figure(at.focusOffset_m, units::mm) + " from focus", at.spot, spotWords);
  if (proposal.caustic) text += section("Diameters along the beam", *proposal.caustic, causticWords);
  if (proposal.width) text += section("Lit width", *proposal.width, scaleWords);
  if (proposal.height) text += section("Lit height", *proposal.height, scaleWords);
  if (proposal.turnaround) {
    text += section("Turnaround", *proposal.turnaround, [](const TurnaroundFit& found) { return span(found.turnaround_s, units::us); });
  }
  if (proposal.power) text += section("Power at the part", *proposal.power, powerWords);
  for (const CeilingAt& at : proposal.ceilings) {
    text += section("Pulse energy" + (at.pulseDuration_s ? " at " + figure(*at.pulseDuration_s, units::ns) : ""), at.ceiling, ceilingWords);
  }
  text += proposal.changes.empty() ? "\nNothing would change.\n" : "\nWould change:\n";
  for (const MachineChange& change : proposal.changes) text += changeLine(proposal.machine, change);
  for (const std::string& remark : proposal.remarks) text += "- " + remark + "\n";
  return text;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/machine_json.h"
#include "core/learn/machine_field_file.h"
#include "core/learn/measurements_file.h"

namespace bw {

namespace {

constexpr FileUnit J_cm2{"J/cm²", 1e4, 1};
constexpr FileUnit J_cm{"J/cm", 1e2, 1};

Json rangeJson(const Range& range, const FileUnit& unit) {
  return Json::array({jsonNumber(unit.fromSi(range.low)), jsonNumber(unit.fromSi(range.likely)), jsonNumber(unit.fromSi(range.high))});
}

Json rangeJson(const std::optional<Range>& range, const FileUnit& unit) { return range ? rangeJson(*range, unit) : Json(nullptr); }

/// The value's keys, or the sentence why there is none; remarks either way.
template <class T, class Keys>
Json learntJson(const Learnt<T>& learnt, const Keys& keys) {
  Json json = learnt.value ? keys(*learnt.value) : Json{{"problem", learnt.problem}};
  json["remarks"] = learnt.remarks;
  return json;
}

template <class T, class Keys>
Json learntJson(const std::optional<Learnt<T>>& learnt, const Keys& keys) {
  return learnt ? learntJson(*learnt, keys) : Json(nullptr);
}

Json spotKeys(const SpotFit& spot) {
  Json json{{"spot_diameter_um", rangeJson(spot.diameter_m, units::um)}};
  switch (spot.dose) {
    case MarkDose::PulseEnergy:
      json["threshold_mJ"] = rangeJson(spot.threshold, units::mJ);
      break;
    case MarkDose::LineEnergy:
      json["threshold_J_cm"] = rangeJson(spot.threshold, J_cm);
      break;
    case MarkDose::Power:
      json["threshold_W"] = rangeJson(spot.threshold, units::W);
      break;
  }
  json["threshold_fluence_J_cm2"] = rangeJson(spot.thresholdFluence_J_m2, J_cm2);
  return json;
}

Json causticKeys(const CausticFit& beam) {
  return {{"waist_diameter_um", rangeJson(beam.waistDiameter_m, units::um)},
          {"waist_position_mm", rangeJson(beam.waistPosition_m, units::mm)},
          {"M2", rangeJson(beam.M2, units::none)},
          {"rayleigh_range_mm", rangeJson(beam.rayleighRange_m, units::mm)},
          {"divergence_mrad", rangeJson(beam.fullAngle_rad, units::mrad)},
          {"planes_within_one_rayleigh_length", beam.planesInside},
          {"planes_beyond_two", beam.planesOutside}};
}

Json scaleKeys(const Proportion& scale) {
  return {{"scale", rangeJson(scale.gain, units::none)}, {"offset_mm", rangeJson(scale.offset, units::mm)}};
}

Json turnaroundKeys(const TurnaroundFit& found) {
  return {{"turnaround_us", rangeJson(found.turnaround_s, units::us)}, {"speed_share", rangeJson(found.speedShare, units::none)}};
}

Json powerKeys(const DeliveredPower& power) {
  return {{"gain", rangeJson(power.line.gain, units::none)},
          {"offset_W", rangeJson(power.line.offset, units::W)},
          {"delivered_power_W", rangeJson(power.line.atFull, units::W)},
          {"delivered_share", rangeJson(power.share, units::none)},
          {"optics_loss", rangeJson(power.loss, units::none)}};
}

Json ceilingKeys(const EnergyCeiling& ceiling) {
  return {{"max_pulse_energy_mJ", rangeJson(ceiling.pulseEnergy_J, units::mJ)},
          {"level_power_W", rangeJson(ceiling.meanPower_W, units::W)},
          {"falls_beyond_kHz", rangeJson(ceiling.fallsBeyond_Hz, units::kHz)}};
}

Json changeJson(const Machine& machine, const MachineChange& change) {
  const FieldInFile field = fieldInFile(change.field);
  Json json{{"property", field.key},
            {"old", change.old ? jsonNumber(field.unit.fromSi(*change.old)) : Json(nullptr)},
            {"new", rangeJson(change.value, field.unit)},
            {"agrees", change.agrees()},
            {"from", change.from}};
  if (change.pulseDuration) json["pulse_duration_ns"] = jsonNumber(units::ns.fromSi(machine.pulseDurations_s[*change.pulseDuration]));
  return json;
}

}  // namespace

FieldInFile fieldInFile(MachineField field) {
  switch (field) {
    case MachineField::SpotDiameter:
      return {"spot_diameter_um", "spot diameter", units::um};
    case MachineField::M2:
      return {"M2", "M2", units::none};
    case MachineField::Divergence:
      return {"divergence_mrad", "divergence", units::mrad};
    case MachineField::MaxWidth:
      return {"scan.max_width_mm", "greatest width", units::mm};
    case MachineField::MaxHeight:
      return {"scan.max_height_mm", "greatest height", units::mm};
    case MachineField::Turnaround:
      return {"scan.turnaround_us", "turnaround", units::us};
    case MachineField::DeliveredPower:
      return {"delivered_power_W", "delivered power", units::W};
    case MachineField::MaxPulseEnergy:
      return {"max_pulse_energy_mJ", "pulse energy ceiling", units::mJ};
  }
  return {"", "", units::none};
}

FieldShown fieldShown(MachineField field) {
  const FieldInFile found = fieldInFile(field);
  return {found.name, found.unit.symbol, found.unit.down / found.unit.up};
}

std::string proposalJson(const Proposal& proposal) {
  Json json{{"format", "barewright-machine-proposal"}, {"version", 1}, {"machine", proposal.machine.id}};
  json["changes"] = Json::array();
  for (const MachineChange& change : proposal.changes) json["changes"].push_back(changeJson(proposal.machine, change));
  json["spots"] = Json::array();
  for (const SpotAt& at : proposal.spots) {
    Json spot{{"focus_offset_mm", jsonNumber(units::mm.fromSi(at.focusOffset_m))}};
    spot.update(learntJson(at.spot, spotKeys));
    json["spots"].push_back(spot);
  }
  json["caustic"] = learntJson(proposal.caustic, causticKeys);
  json["width"] = learntJson(proposal.width, scaleKeys);
  json["height"] = learntJson(proposal.height, scaleKeys);
  json["turnaround"] = learntJson(proposal.turnaround, turnaroundKeys);
  json["power"] = learntJson(proposal.power, powerKeys);
  json["rates"] = Json::array();
  for (const CeilingAt& at : proposal.ceilings) {
    Json ceiling{{"pulse_duration_ns", at.pulseDuration_s ? jsonNumber(units::ns.fromSi(*at.pulseDuration_s)) : Json(nullptr)}};
    ceiling.update(learntJson(at.ceiling, ceilingKeys));
    json["rates"].push_back(ceiling);
  }
  json["remarks"] = proposal.remarks;
  json["proposed_machine"] = writeJson(proposal.machine);
  return jsonText(json);
}

}  // namespace bw

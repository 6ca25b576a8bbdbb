// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// How a machine stands in a file. See part_json.h.

#include "core/files/json_io.h"
#include "core/files/part_json.h"
#include "core/values/machine.h"

namespace bw {

inline const Words<MachineKind> machineKinds{"a kind", {{MachineKind::Pulsed, "pulsed"}, {MachineKind::Continuous, "continuous"}}};
inline const Words<BeamProfile> beamProfiles{
    "a beam profile",
    {{BeamProfile::Gaussian, "gaussian"}, {BeamProfile::SuperGaussian, "super-gaussian"}, {BeamProfile::FlatTop, "flat-top"}}};

inline constexpr FileQuantity wavelength{"a wavelength", units::nm, 100, 20000};
inline constexpr FileQuantity power{"a power", units::W, 0, 100000, Bound::Above};
inline constexpr FileQuantity supplyPower{"a power", units::kW, 0, 1000};
inline constexpr FileQuantity peakPower{"a peak power", units::kW, 0, 1e6, Bound::Above};
inline constexpr FileQuantity beamQuality{"an M2", units::none, 1, 1000};
inline constexpr FileQuantity spot{"a spot diameter", units::um, 0, 50000, Bound::Above};
inline constexpr FileQuantity rate{"a rate", units::kHz, 0, 100000};
inline constexpr FileQuantity pulseDuration{"a pulse duration", units::ns, 0, 1e9, Bound::Above};
inline constexpr FileQuantity pulseEnergy{"a pulse energy", units::mJ, 0, 1e6, Bound::Above};
inline constexpr FileQuantity headReach{"a reach", units::mm, 0, 10000};
inline constexpr FileQuantity headSpeed{"a speed", units::mm_s, 0, 1e6, Bound::Above};
inline constexpr FileQuantity turnaround{"a turnaround time", units::us, 0, 1e6};
inline constexpr FileQuantity distance{"a distance", units::mm, 0, 100000, Bound::Above};
inline constexpr FileQuantity divergence{"a divergence", units::mrad, 0, 3000, Bound::Above};
inline constexpr FileQuantity money{"an amount", units::none, 0, 1e9};
inline constexpr FileQuantity warmUp{"a time", units::minutes, 0, 1440};
inline constexpr Whole axes{"a number of axes", 1, 2};

template <class Io>
void describe(Io& io, ScanHead& head) {
  io.usual("axes", head.axes, axes);
  io.must("max_width_mm", head.maxWidth_m, headReach);
  io.usual("max_height_mm", head.maxHeight_m, headReach);
  io.must("max_speed_mm_s", head.maxSpeed_m_s, headSpeed);
  io.usual("turnaround_us", head.turnaround_s, turnaround);
  io.rest(head.extras);
}

template <class Io>
void describe(Io& io, Optic& optic) {
  io.must("id", optic.id, idText);
  io.may("focal_length_mm", optic.focalLength_m, distance);
  io.may("spot_diameter_um", optic.spotDiameter_m, spot);
  io.may("max_width_mm", optic.maxWidth_m, headReach);
  io.may("max_height_mm", optic.maxHeight_m, headReach);
  io.may("stand_off_mm", optic.standOff_m, distance);
  io.may("tip_width_mm", optic.tipWidth_m, distance);
  io.rest(optic.extras);
}

template <class Io>
void describe(Io& io, Machine& machine) {
  io.must("id", machine.id, idText);
  io.usual("name", machine.name, shortText);
  io.must("kind", machine.kind, machineKinds);
  io.usual("wavelength_nm", machine.wavelength_m, wavelength);
  io.must("rated_power_W", machine.ratedPower_W, power);
  io.usual("M2", machine.M2, beamQuality);
  io.usual("beam_profile", machine.beamProfile, beamProfiles);
  io.must("spot_diameter_um", machine.spotDiameter_m, spot);
  io.may("repetition_rate_kHz", machine.repetitionRate_Hz, rate);
  io.may("pulse_durations_ns", machine.pulseDurations_s, pulseDuration);
  io.may("max_pulse_energy_mJ", machine.maxPulseEnergy_J, OneOrMany{pulseEnergy});
  io.must("scan", machine.scan);
  io.may("min_ambient_C", machine.minAmbient_C, airTemperature);
  io.may("supply_power_kW", machine.supplyPower_W, supplyPower);
  io.may("hourly_cost", machine.hourlyCost, money);
  io.may("max_peak_power_kW", machine.maxPeakPower_W, peakPower);
  io.may("gate_kHz", machine.gate_Hz, rate);
  io.may("optics", machine.optics);
  io.may("divergence_mrad", machine.divergence_rad, divergence);
  io.may("exit_beam_diameter_mm", machine.exitBeamDiameter_m, distance);
  io.may("delivered_power_W", machine.deliveredPower_W, power);
  io.may("checked_on", machine.checkedOn, shortText);
  io.may("warm_up_min", machine.warmUp_s, warmUp);
  io.may("extra_draw_kW", machine.extraDraw_W, supplyPower);
  io.rest(machine.extras);
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/extras.h"
#include "core/values/range.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace bw {

enum class MachineKind { Pulsed, Continuous };

/// Radial shape of the spot; see beam/profile.h.
enum class BeamProfile { Gaussian, SuperGaussian, FlatTop };

/// What the head can do with the beam.
struct ScanHead {
  int axes = 2;
  double maxWidth_m = 0;
  double maxHeight_m = 0;  // 0 for a one-axis head
  double maxSpeed_m_s = 0;
  double turnaround_s = 0;  // time to reverse at full scan speed, constant acceleration
  Extras extras;
  bool operator==(const ScanHead&) const = default;
};

/// A lens or tip that changes the spot and the field.
struct Optic {
  std::string id;
  std::optional<double> focalLength_m;
  std::optional<double> spotDiameter_m;
  std::optional<double> maxWidth_m;
  std::optional<double> maxHeight_m;
  std::optional<double> standOff_m;
  std::optional<double> tipWidth_m;
  Extras extras;
  bool operator==(const Optic&) const = default;
};

/// A laser with its head: what it can deliver.
struct Machine {
  std::string id;
  std::string name;
  MachineKind kind = MachineKind::Pulsed;
  double wavelength_m = 1064e-9;
  double ratedPower_W = 0;
  double M2 = 1;
  BeamProfile beamProfile = BeamProfile::Gaussian;
  double spotDiameter_m = 0;  // 1/e2, at focus
  std::array<double, 2> repetitionRate_Hz = {0, 0};  // lowest, highest; pulsed only
  std::vector<double> pulseDurations_s;              // pulsed only
  std::vector<double> maxPulseEnergy_J;              // one for all durations, or one beside each
  ScanHead scan;
  std::optional<double> minAmbient_C;
  std::optional<double> supplyPower_W;
  std::optional<double> hourlyCost;
  std::optional<double> maxPeakPower_W;
  std::optional<double> gate_Hz;  // continuous with duty
  std::vector<Optic> optics;
  std::optional<double> divergence_rad;  // full 1/e2 angle
  std::optional<double> exitBeamDiameter_m;
  std::optional<double> deliveredPower_W;  // as last measured
  std::optional<std::string> checkedOn;    // ISO 8601 date
  std::optional<double> warmUp_s;
  std::optional<double> extraDraw_W;
  Extras extras;
  bool operator==(const Machine&) const = default;
};

}  // namespace bw

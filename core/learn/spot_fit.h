// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/learnt.h"
#include "core/values/range.h"

#include <optional>
#include <vector>

namespace bw {

/// A mark on burn paper or foil: the diameter of a spot by one pulse, or the width of a line drawn once. Given are the pulse energy, or the
/// mean power and the speed of the line, or the power alone where the speed was the same for all. Width 0: no mark was left.
struct Mark {
  std::optional<double> pulseEnergy_J;
  std::optional<double> power_W;
  std::optional<double> speed_m_s;
  Measured width_m;
  bool operator==(const Mark&) const = default;
};

/// What was turned up from mark to mark.
enum class MarkDose { PulseEnergy, LineEnergy, Power };

/// The spot, and what the marked material takes: J for spots, J/m for lines of known speed, W for lines of equal speed.
struct SpotFit {
  MarkDose dose = MarkDose::PulseEnergy;
  Range diameter_m;  // 1/e2
  Range threshold;
  std::optional<Range> thresholdFluence_J_m2;  // peak; spots by pulse energy, lines by accumulated line energy
  FittedCurve curve;                           // width in m against dose, in the threshold's unit, from where marks end to the largest
};

/// Liu's plot. A Gaussian spot of 1/e2 radius w marks where its fluence passes the material's threshold, so a mark's diameter goes as
///   D^2 = 2 w^2 ln(E/Eth)   (J. M. Liu, Opt. Lett. 7 (1982) 196, eq. 4),
/// E the pulse energy. A line drawn at speed v leaves sqrt(2/pi) P/(w v) exp(-2 y^2/w^2), the same law with P/v for E. Least squares of the
/// widths; E taken as exact; the threshold's range by Fieller's theorem (a ratio of two uncertain numbers), that of the fluence by first
/// order. Holds for a Gaussian spot and marks that neither grow by heat nor by more pulses.
Learnt<SpotFit> fitSpot(const std::vector<Mark>& marks);

}  // namespace bw

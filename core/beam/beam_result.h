// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

namespace bw {

struct BeamResult {
  std::optional<double> pulseEnergy_J;  // pulsed only
  double meanPower_W = 0;               // delivered, after ceilings and duty
  double peakPower_W = 0;
  double spotDiameter_m = 0;  // 1/e2 at the part, with focus offset, untilted
  double rayleighRange_m = 0;
  std::optional<double> peakFluence_J_m2;  // pulsed only
  double peakIrradiance_W_m2 = 0;
};

}  // namespace bw

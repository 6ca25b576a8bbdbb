// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace bw {

/// A sheet of metal with constant properties, losing heat to the air at both faces.
struct Plate {
  double thickness_m = 0;
  double conductivity_W_mK = 0;
  double heatCapacity_J_m3K = 0;  // density x specific heat
  double filmCoefficient_W_m2K = 0;

  double diffusivity_m2_s() const { return conductivity_W_mK / heatCapacity_J_m3K; }

  /// Age after which a joule is spread evenly through the thickness, to 0.2 %: 0.7 L^2/alpha.
  double mixingAge_s() const { return 0.7 * thickness_m * thickness_m / diffusivity_m2_s(); }

  /// Rate at which an evenly warm sheet cools: 2 h / (rho c L).
  double lossRate_1_s() const { return 2 * filmCoefficient_W_m2K / (heatCapacity_J_m3K * thickness_m); }
};

}  // namespace bw

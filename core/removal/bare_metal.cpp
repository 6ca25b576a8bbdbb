// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/bare_metal.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

/// Integral of erfc from u to infinity.
double ierfc(double u) { return std::exp(-u * u) / std::sqrt(std::numbers::pi) - u * std::erfc(u); }

}  // namespace

double BareMetal::meltFluence_J_m2(double pulseDuration_s) const {
  return (melting_C - before_C) * std::sqrt(std::numbers::pi * conductivity_W_mK * heatCapacity_J_m3K * pulseDuration_s) / (2 * absorptance);
}

double BareMetal::meltDepth_m(double fluence_J_m2, double pulseDuration_s) const {
  const double ratio = meltFluence_J_m2(pulseDuration_s) / fluence_J_m2;
  if (ratio >= 1) return 0;
  double low = 0, high = 6;  // ierfc falls steadily; at 6 it is below 1e-17
  for (int i = 0; i < 60; ++i) {
    const double u = 0.5 * (low + high);
    (std::sqrt(std::numbers::pi) * ierfc(u) > ratio ? low : high) = u;
  }
  return 2 * low * std::sqrt(diffusivity_m2_s() * pulseDuration_s);
}

double BareMetal::boilFluence_J_m2(double pulseDuration_s) const {
  return meltFluence_J_m2(pulseDuration_s) * (boiling_C - before_C) / (melting_C - before_C);
}

double BareMetal::etchPerPulse_m(double fluence_J_m2, double pulseDuration_s) const {
  return absorptance * std::max(0.0, fluence_J_m2 - boilFluence_J_m2(pulseDuration_s)) / vaporisation_J_m3;
}

double BareMetal::flashRise_K(double absorbedIrradiance_W_m2, double pulseDuration_s) const {
  return 2 * absorbedIrradiance_W_m2 * std::sqrt(pulseDuration_s / (std::numbers::pi * conductivity_W_mK * heatCapacity_J_m3K));
}

}  // namespace bw

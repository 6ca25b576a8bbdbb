// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/threshold.h"

#include <cmath>
#include <numbers>

namespace bw {

double erfcx(double x) {
  if (x < 5) return std::exp(x * x) * std::erfc(x);
  double tail = x;  // Laplace's continued fraction (Abramowitz and Stegun 7.1.14), from the inside out
  for (int k = 40; k >= 1; --k) tail = x + 0.5 * k / tail;
  return 1 / (std::sqrt(std::numbers::pi) * tail);
}

double heatedDepths(double s) {
  const double y = std::sqrt(s), rootPi = std::sqrt(std::numbers::pi);
  // Below y = 0.05 the closed form cancels; its series in y (1 - 4y/(3 sqrt pi) + y^2/2 - ...) does not.
  const double held = y < 0.05 ? 1 - 4 * y / (3 * rootPi) + y * y / 2 - 8 * y * y * y / (15 * rootPi) : (2 * y / rootPi + erfcx(y) - 1) / s;
  return 1 / held;
}

double thresholdFluence_J_m2(double removalEnthalpy_J_m3, double opticalDepth_m, double absorptance, double diffusivity_m2_s,
                             double pulseDuration_s) {
  const double s = diffusivity_m2_s * pulseDuration_s / (opticalDepth_m * opticalDepth_m);
  return removalEnthalpy_J_m3 * opticalDepth_m / absorptance * heatedDepths(s);
}

}  // namespace bw

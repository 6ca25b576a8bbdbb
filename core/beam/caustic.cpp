// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/beam/caustic.h"

#include <cmath>
#include <numbers>

namespace bw {

Caustic::Caustic(double waistRadius_m, double M2, double wavelength_m)
    : m_waist(waistRadius_m), m_rayleigh(std::numbers::pi * waistRadius_m * waistRadius_m / (M2 * wavelength_m)) {}

double Caustic::radiusAt_m(double distance_m) const { return m_waist * std::hypot(1.0, distance_m / m_rayleigh); }

double waistBehindLens_m(double M2, double wavelength_m, double focalLength_m, double collimatedRadius_m) {
  return M2 * wavelength_m * focalLength_m / (std::numbers::pi * collimatedRadius_m);
}

}  // namespace bw

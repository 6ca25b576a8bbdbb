// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/machine.h"

namespace bw {

/// Radial profile of the spot, I(r) = I0 exp(-2 (r/w)^m), w the 1/e2 radius: m = 2 a Gaussian, m large a flat top of radius w.
class SpotProfile {
 public:
  explicit SpotProfile(double exponent) : m_exponent(exponent) {}
  explicit SpotProfile(BeamProfile shape);

  double exponent() const { return m_exponent; }
  bool isGaussian() const { return m_exponent == 2; }

  /// I(r)/I0 at `ratio` = r/w, ratio >= 0.
  double relative(double ratio) const;

  /// Peak irradiance per watt, 1/m2, for radius w in metres: m 2^(2/m) / (2 pi w^2 Gamma(2/m)); 2/(pi w^2) for a Gaussian.
  /// Source: integral of the profile over the plane (Gradshteyn and Ryzhik 3.326).
  double peakPerWatt_1_m2(double radius_m) const;

 private:
  double m_exponent;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace bw {

/// The beam along its axis near a focus (ISO 11146-1): w(z) = w0 sqrt(1 + (z/zR)^2), zR = pi w0^2 / (M2 lambda).
class Caustic {
 public:
  /// w0 1/e2 radius at the waist, wavelength > 0, M2 >= 1.
  Caustic(double waistRadius_m, double M2, double wavelength_m);

  double waistRadius_m() const { return m_waist; }
  double rayleighRange_m() const { return m_rayleigh; }
  double radiusAt_m(double distance_m) const;

  /// Full 1/e2 angle far from the waist, 2 M2 lambda / (pi w0).
  double fullAngle_rad() const { return 2 * m_waist / m_rayleigh; }

 private:
  double m_waist;
  double m_rayleigh;
};

/// Waist behind a lens: w0 = M2 lambda f / (pi wc), wc the collimated 1/e2 radius before it (ISO 11146-1, thin lens, wc << f).
double waistBehindLens_m(double M2, double wavelength_m, double focalLength_m, double collimatedRadius_m);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/learnt.h"
#include "core/values/range.h"

#include <vector>

namespace bw {

/// The beam's 1/e2 diameter at a place along its axis.
struct Plane {
  double position_m = 0;
  Measured diameter_m;
  bool operator==(const Plane&) const = default;
};

struct CausticFit {
  Range waistDiameter_m;
  Range waistPosition_m;
  Range M2;
  Range rayleighRange_m;
  Range fullAngle_rad;
  int planesInside = 0;   // within one Rayleigh length of the waist
  int planesOutside = 0;  // beyond two
  FittedCurve curve;      // diameter against position, over the places and the waist
};

/// The hyperbola through beam diameters, ISO 11146-1:2005 clause 9:
///   d^2 = a + b z + c z^2;  z0 = -b/(2c), d0 = sqrt(4ac - b^2)/(2 sqrt c), angle = sqrt c, zR = sqrt(4ac - b^2)/(2c),
///   M2 = pi/(8 lambda) sqrt(4ac - b^2).
/// Least squares of the diameters, ranges by first order (of the logarithm, but for the position). M2 is kept from falling below 1. The
/// standard asks for at least ten planes, about half within one Rayleigh length of the waist and half beyond two; what was measured is said
/// in the remarks. The standard's diameters are second moments; marks give those of a Gaussian spot, which then is a measure of their own.
Learnt<CausticFit> fitCaustic(const std::vector<Plane>& planes, double wavelength_m);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

namespace bw {

/// Complex refractive index n + i k of a polished metal.
struct RefractiveIndex {
  double n = 1;
  double k = 0;
};

/// Share of the light that a polished metal absorbs, by polarisation.
struct FresnelAbsorptance {
  double s = 0;  // field across the plane of incidence
  double p = 0;  // field in it
  double unpolarised() const { return (s + p) / 2; }
};

/// Fresnel's equations for light from air at an angle from the normal, 0 to a right angle; square on, s and p are equal.
/// M. Born, E. Wolf, "Principles of Optics", sections 1.5.2 and 14.2.
FresnelAbsorptance fresnelAbsorptance(const RefractiveIndex& index, double angle_rad);

/// Absorptance of a real surface tilted to the beam: that of the surface square on, times the unpolarised Fresnel ratio, at most
/// 0.9 unless the surface already absorbs more. A metal whose index is not known keeps its value.
double tiltedAbsorptance(double squareOn, const std::optional<RefractiveIndex>& index, double angle_rad);

}  // namespace bw

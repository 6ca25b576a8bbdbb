// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/materials/fresnel.h"

#include <algorithm>
#include <cmath>
#include <complex>

namespace bw {

FresnelAbsorptance fresnelAbsorptance(const RefractiveIndex& index, double angle_rad) {
  const std::complex<double> n(index.n, index.k);
  const double cosine = std::cos(angle_rad);
  const double sine = std::sin(angle_rad);
  const std::complex<double> refracted = std::sqrt(1.0 - sine * sine / (n * n));
  const auto s = (cosine - n * refracted) / (cosine + n * refracted);
  const auto p = (n * cosine - refracted) / (n * cosine + refracted);
  return {1 - std::norm(s), 1 - std::norm(p)};
}

double tiltedAbsorptance(double squareOn, const std::optional<RefractiveIndex>& index, double angle_rad) {
  if (!index) return squareOn;
  const double ratio = fresnelAbsorptance(*index, angle_rad).unpolarised() / fresnelAbsorptance(*index, 0).unpolarised();
  constexpr double ceiling = 0.9;  // model: rough surfaces flatten the rise towards grazing incidence
  return std::min(squareOn * ratio, std::max(ceiling, squareOn));
}

}  // namespace bw

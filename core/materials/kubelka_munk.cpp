// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/materials/kubelka_munk.h"

#include <algorithm>
#include <cmath>

namespace bw {

FilmLight filmOver(const KubelkaMunk& film, double thickness_m, double backgroundReflectance) {
  // Written with y = b S d and S y/(b S) = S d sinh(y)/y, which stays finite for S = 0, K = 0 and d = 0 alike;
  // divided through by exp(y), so that a thick film does not overflow.
  const double decay_1_m = std::sqrt(film.absorption_1_m * (film.absorption_1_m + 2 * film.scattering_1_m));
  const double y = decay_1_m * thickness_m;
  const double shrunk = std::exp(-y);
  const double cosh = 0.5 * (1 + shrunk * shrunk);
  const double sinhOverY = y < 1e-8 ? 1.0 : -0.5 * std::expm1(-2 * y) / y;
  const double both = (film.absorption_1_m + film.scattering_1_m) * thickness_m;
  const double denominator = both * sinhOverY + cosh;
  const double r0 = film.scattering_1_m * thickness_m * sinhOverY / denominator;
  const double t0 = shrunk / denominator;
  const double bounces = 1 - r0 * backgroundReflectance;
  return {r0 + t0 * t0 * backgroundReflectance / bounces, t0 / bounces};
}

double thickReflectance(const KubelkaMunk& film) {
  if (film.scattering_1_m <= 0) return 0;
  const double ratio = film.absorption_1_m / film.scattering_1_m;
  return 1 / (1 + ratio + std::sqrt(ratio * (ratio + 2)));
}

double opticalDepth_m(const KubelkaMunk& film) {
  return 1 / std::sqrt(film.absorption_1_m * (film.absorption_1_m + 2 * film.scattering_1_m));
}

KubelkaMunk kubelkaMunkFrom(double absorptance, double opticalDepth_m) {
  const double reflectance = 1 - absorptance;
  const double scattering_1_m = 2 * reflectance / ((1 - reflectance * reflectance) * opticalDepth_m);
  const double absorption_1_m = (1 - reflectance) / ((1 + reflectance) * opticalDepth_m);  // finite at R = 0
  return {absorption_1_m, scattering_1_m};
}

}  // namespace bw

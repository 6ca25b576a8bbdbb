// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/tint.h"

#include <cmath>
#include <cstddef>

namespace bw {

double tintRate_m2_s(double temperature_C) {
  const double RT_kJ = 8.314462618e-3 * (temperature_C + 273.15);
  return 1e-4 * (6.1 * std::exp(-169.5 / RT_kJ) + 0.008 * std::exp(-105 / RT_kJ));
}

double tintFilm_m(double temperature_C, double duration_s) { return std::sqrt(tintRate_m2_s(temperature_C) * duration_s); }

double equivalentTintTemperature_C(std::span<const double> time_s, std::span<const double> temperature_C) {
  double grown = 0;
  for (std::size_t i = 1; i < time_s.size(); ++i) {
    grown += 0.5 * (tintRate_m2_s(temperature_C[i]) + tintRate_m2_s(temperature_C[i - 1])) * (time_s[i] - time_s[i - 1]);
  }
  const double rate = grown / 600;
  double low = 20, high = 2000;
  if (tintRate_m2_s(low) >= rate) return low;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (tintRate_m2_s(middle) < rate ? low : high) = middle;
  }
  return low;
}

}  // namespace bw

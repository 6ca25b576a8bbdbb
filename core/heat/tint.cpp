// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/tint.h"

#include <cmath>
#include <cstddef>

namespace bw {

namespace {

constexpr double tenMinutes_s = 600;
constexpr double gasConstant_kJ_molK = 8.314462618e-3;  // exact since 2019 (CODATA)

double arrhenius(double energy_kJ_mol, double temperature_C) {
  return std::exp(-energy_kJ_mol / (gasConstant_kJ_molK * (temperature_C + 273.15)));
}

/// Trapezoids of a rate over a history.
template <class Rate>
double integral(std::span<const double> time_s, std::span<const double> temperature_C, Rate rate) {
  double sum = 0;
  for (std::size_t i = 1; i < time_s.size(); ++i)
    sum += 0.5 * (rate(temperature_C[i]) + rate(temperature_C[i - 1])) * (time_s[i] - time_s[i - 1]);
  return sum;
}

/// The temperature of that rate, which grows with it; 20 to 2000 degrees.
template <class Rate>
double temperatureOf(double wanted, Rate rate) {
  double low = 20, high = 2000;
  if (rate(low) >= wanted) return low;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (rate(middle) < wanted ? low : high) = middle;
  }
  return low;
}

}  // namespace

double tintRate_m2_s(double temperature_C) {
  return 1e-4 * (6.1 * arrhenius(169.5, temperature_C) + 0.008 * arrhenius(105, temperature_C));
}

double tintFilm_m(double temperature_C, double duration_s) { return std::sqrt(tintRate_m2_s(temperature_C) * duration_s); }

double tenMinuteTemperature_C(double film_m2) { return temperatureOf(film_m2 / tenMinutes_s, tintRate_m2_s); }

double equivalentTintTemperature_C(std::span<const double> time_s, std::span<const double> temperature_C) {
  return tenMinuteTemperature_C(integral(time_s, temperature_C, tintRate_m2_s));
}

double scorchRate(double temperature_C) { return arrhenius(130, temperature_C); }

double equivalentScorchTemperature_C(std::span<const double> time_s, std::span<const double> temperature_C) {
  return temperatureOf(integral(time_s, temperature_C, scorchRate) / tenMinutes_s, scorchRate);
}

std::optional<double> firstAbove(std::span<const double> time_s, std::span<const double> temperature_C, double limit_C) {
  for (std::size_t i = 0; i < time_s.size(); ++i) {
    if (temperature_C[i] < limit_C) continue;
    if (i == 0) return time_s[0];
    const double share = (limit_C - temperature_C[i - 1]) / (temperature_C[i] - temperature_C[i - 1]);
    return std::lerp(time_s[i - 1], time_s[i], share);
  }
  return std::nullopt;
}

std::optional<double> firstAsMuch(std::span<const double> time_s, std::span<const double> temperature_C,
                                  const std::function<double(double)>& rate, double limit_C) {
  const double wanted = tenMinutes_s * rate(limit_C);
  double sum = 0;
  for (std::size_t i = 1; i < time_s.size(); ++i) {
    const double more = 0.5 * (rate(temperature_C[i]) + rate(temperature_C[i - 1])) * (time_s[i] - time_s[i - 1]);
    if (sum + more >= wanted) return std::lerp(time_s[i - 1], time_s[i], (wanted - sum) / more);
    sum += more;
  }
  return std::nullopt;
}

}  // namespace bw

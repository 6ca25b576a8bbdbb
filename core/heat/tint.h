// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <span>

namespace bw {

/// Growth of the oxide film that colours bare steel: d(film^2)/dt = kp, in m2/s.
/// kp = 6.1 exp(-169.5 kJ/RT) (from memory) + 0.008 exp(-105 kJ/RT) cm2/s, the second term fitted to straw = 46 nm at 210 C in 10 min.
/// The second factor is known to a range of 0.0007 to 1.2 only.
double tintRate_m2_s(double temperature_C);

/// Film after a time at a temperature.
double tintFilm_m(double temperature_C, double duration_s);

/// The temperature that grows a film of that thickness, squared, in ten minutes. Nothing grown: 20 C.
double tenMinuteTemperature_C(double film_m2);

/// The temperature that would grow the same film in ten minutes as this history does, so that it can be read on the published ten-minute
/// colours. Nothing grown: 20 C. Times ascending.
double equivalentTintTemperature_C(std::span<const double> time_s, std::span<const double> temperature_C);

/// How fast a baked paint film scorches, relative to any one temperature: exp(-E/RT), E 130 kJ/mol (100 to 170), from memory.
double scorchRate(double temperature_C);

/// The temperature that would scorch as much in ten minutes as this history does.
double equivalentScorchTemperature_C(std::span<const double> time_s, std::span<const double> temperature_C);

/// When a history first passes a temperature, straight between its times; nothing where it stays below.
std::optional<double> firstAbove(std::span<const double> time_s, std::span<const double> temperature_C, double limit_C);

/// When as much has come together, at that rate, as ten minutes at the limit would bring.
std::optional<double> firstAsMuch(std::span<const double> time_s, std::span<const double> temperature_C,
                                  const std::function<double(double)>& rate, double limit_C);

}  // namespace bw

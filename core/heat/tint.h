// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>

namespace bw {

/// Growth of the oxide film that colours bare steel: d(film^2)/dt = kp, in m2/s.
/// kp = 6.1 exp(-169.5 kJ/RT) (from memory) + 0.008 exp(-105 kJ/RT) cm2/s, the second term fitted to straw = 46 nm at 210 C in 10 min.
/// The second factor is known to a range of 0.0007 to 1.2 only.
double tintRate_m2_s(double temperature_C);

/// Film after a time at a temperature.
double tintFilm_m(double temperature_C, double duration_s);

/// The temperature that would grow the same film in ten minutes as this history does, so that it can be read on the published ten-minute
/// colours. Nothing grown: 20 C. Times ascending.
double equivalentTintTemperature_C(std::span<const double> time_s, std::span<const double> temperature_C);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scan/wander.h"

#include <cmath>
#include <numbers>
#include <random>

namespace bw {

Wander::Wander(double share, std::uint32_t seed) {
  constexpr double lowest_Hz = 0.3, highest_Hz = 3;
  std::mt19937 random(seed);  // its numbers are fixed by the standard, those of the distributions are not
  const auto count = static_cast<double>(m_waves.size());
  double n = 0;
  for (Wave& wave : m_waves) {
    const double rate = 2 * std::numbers::pi * lowest_Hz * std::pow(highest_Hz / lowest_Hz, n++ / (count - 1));
    const double phase = 2 * std::numbers::pi * static_cast<double>(random()) / 4294967296.0;
    wave = {share * std::sqrt(2 / count) / rate, rate, phase};
    m_atStart_s += wave.amplitude_s * std::sin(phase);
  }
}

double Wander::ahead_s(double t_s) const {
  double sum = 0;
  for (const Wave& wave : m_waves) sum += wave.amplitude_s * std::sin(wave.rate_rad_s * t_s + wave.phase_rad);
  return sum - m_atStart_s;
}

double Wander::mostAhead_s() const {
  double most = 0;
  for (const Wave& wave : m_waves) most += 2 * wave.amplitude_s;
  return most;
}

double Wander::spread_s() const {
  double squares = 0;
  for (const Wave& wave : m_waves) squares += wave.amplitude_s * wave.amplitude_s / 2;
  return std::sqrt(squares);
}

double Wander::mostRate() const {
  double most = 0;
  for (const Wave& wave : m_waves) most += wave.amplitude_s * wave.rate_rad_s;
  return most;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstdint>

namespace bw {

/// How a hand's speed wanders about its mean: slow waves whose phases come from a seed. The speed's relative standard deviation is
/// `share`; the six waves share its square evenly, from 0.3 to 3 Hz (how fast hands waver: an estimate, no source).
class Wander {
 public:
  Wander(double share, std::uint32_t seed);

  /// How far ahead of a steady hand it is at time t, in seconds of travel; 0 at t = 0.
  double ahead_s(double t_s) const;

  /// Bounds of |ahead| and of how quickly it changes, seconds a second.
  double mostAhead_s() const;
  double mostRate() const;

  /// Standard deviation of ahead.
  double spread_s() const;

 private:
  struct Wave {
    double amplitude_s;
    double rate_rad_s;
    double phase_rad;
  };
  std::array<Wave, 6> m_waves;
  double m_atStart_s = 0;  // their sum at the beginning, from which it counts
};

}  // namespace bw

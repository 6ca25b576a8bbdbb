// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/removal/bare_metal.h"

#include <array>
#include <numbers>

namespace bw {

/// What pulses leave in thick metal, seen from its face: a few stores of energy E over a length l, the face E/(rho c l) above the start by
/// each. A plane source on a half space spreads as l = sqrt(pi alpha t) (Carslaw and Jaeger 2nd ed. section 10.2), so that l^2 grows
/// evenly; a steady flux begins with sqrt(pi alpha tau)/2 at its end (section 2.9). Where there are too many stores, the two neighbours
/// most alike become one, their lengths' geometric mean by energy: within 7 % of the sum over all pulses, in even trains, bursts and at
/// random. Left out: the part's back, heat that spreads sideways.
class MetalWarmth {
 public:
  explicit MetalWarmth(const BareMetal& metal)
      : m_growth_m2_s(std::numbers::pi * metal.diffusivity_m2_s()), m_heatCapacity_J_m3K(metal.heatCapacity_J_m3K) {}

  bool isCold() const { return m_count == 0; }
  double rise_K() const;

  /// Heat that has come evenly over the time that has just passed. Returns by how much it has warmed the face.
  double take(double heat_J_m2, double duration_s);

  /// The mean rise over a time without light; then the rise is that at its end.
  double rest(double time_s);

 private:
  static constexpr std::size_t most = 4;

  struct Store {
    double energy_J_m2 = 0;
    double length_m = 0;
  };

  void joinMostAlike();

  std::array<Store, most + 1> m_stores{};  // oldest first
  std::size_t m_count = 0;
  double m_growth_m2_s;
  double m_heatCapacity_J_m3K;
};

}  // namespace bw

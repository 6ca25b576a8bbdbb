// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/materials/resolve.h"
#include "core/removal/bare_metal.h"

#include <vector>

namespace bw {

/// The metal under a column of coat: what a volume of it holds against its rise of temperature, and how it conducts.
///
/// With the metal's curves (core/materials/curves.h) and the latent heat of melting a table even in enthalpy stands for them, 4 K to a
/// step at most in steel and aluminium; between its entries straight lines. Molten metal goes on with the curve's last values. Left out:
/// boiling, heat carried by a melt that flows.
class ColumnMetal {
 public:
  /// Constant properties, no melting.
  ColumnMetal(const BareMetal& metal);  // NOLINT(google-explicit-constructor): a bare metal is one

  /// Likely values and curves, latent heat by family of metal.
  ColumnMetal(const Metal& metal, double start_C);

  struct State {
    double rise_K = 0;          // above the start
    double perJoule_Km3_J = 0;  // slope of the rise; 0 while it melts
    double conductivity_W_mK = 0;
  };
  State at(double held_J_m3) const {
    if (m_table.empty()) return {held_J_m3 * m_cold.perJoule_Km3_J, m_cold.perJoule_Km3_J, m_cold.conductivity_W_mK};
    const double place = held_J_m3 / m_step_J_m3;
    const double last = static_cast<double>(m_table.size()) - 2;
    const auto below = static_cast<std::size_t>(place <= 0 ? 0 : place >= last ? last : place);
    const double rest = place - static_cast<double>(below);
    const Entry& from = m_table[below];
    const Entry& to = m_table[below + 1];
    const double inside = rest > 1 ? 1 : rest < 0 ? 0 : rest;
    return {from.rise_K + rest * (to.rise_K - from.rise_K), (to.rise_K - from.rise_K) / m_step_J_m3,
            from.conductivity_W_mK + inside * (to.conductivity_W_mK - from.conductivity_W_mK)};
  }

  bool isConstant() const { return m_table.empty(); }
  double heatCapacity_J_m3K() const { return 1 / m_cold.perJoule_Km3_J; }  // cold
  double conductivity_W_mK() const { return m_cold.conductivity_W_mK; }    // cold
  double absorptance() const { return m_absorptance; }
  double start_C() const { return m_start_C; }

 private:
  struct Entry {
    double rise_K;
    double conductivity_W_mK;
  };
  State m_cold;
  double m_absorptance;
  double m_start_C;
  double m_step_J_m3 = 0;
  std::vector<Entry> m_table;
};

/// Latent heat of melting, of the pure element: NASA TM-4513 (McBride, Gordon, Reno 1993). 0 for a metal of unknown family.
double latentHeat_J_kg(MetalFamily family);

}  // namespace bw

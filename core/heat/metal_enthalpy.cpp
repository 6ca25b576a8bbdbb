// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/metal_enthalpy.h"

#include "core/materials/curves.h"

#include <algorithm>

namespace bw {

namespace {

constexpr double coldest_C = -150, hottest_C = 3000, step_K = 1;

}  // namespace

double MetalHeat::conductivityAt_W_mK(double temperature_C) const {
  return bw::conductivity_W_mK(conductivityCurve, conductivity_W_mK, temperature_C);
}

double MetalHeat::heatCapacityAt_J_m3K(double temperature_C) const {
  return density_kg_m3 * bw::specificHeat_J_kgK(specificHeatCurve, specificHeat_J_kgK, temperature_C);
}

MetalEnthalpy::MetalEnthalpy(const MetalHeat& metal) : m_metal(metal) {
  // Even in temperature first, then read off evenly in enthalpy.
  std::vector<double> enthalpy, potential, temperature;
  double sum = -metal.conductivityAt_W_mK(coldest_C) * (20 - coldest_C);  // below 20 degrees k is that of 20 degrees
  for (double t = coldest_C; t <= hottest_C; t += step_K) {
    temperature.push_back(t);
    enthalpy.push_back(enthalpy_J_m3(t));
    potential.push_back(sum);
    sum += step_K * metal.conductivityAt_W_mK(t + step_K / 2);
    m_fastest = std::max(m_fastest, metal.conductivityAt_W_mK(t) / metal.heatCapacityAt_J_m3K(t));
  }
  const std::size_t steps = temperature.size();
  m_low = enthalpy.front();
  m_perStep = static_cast<double>(steps) / (enthalpy.back() - m_low);
  m_last = static_cast<double>(steps - 1);
  std::size_t above = 1;
  for (std::size_t i = 0; i <= steps; ++i) {
    const double h = m_low + static_cast<double>(i) / m_perStep;
    while (above + 1 < enthalpy.size() && enthalpy[above] < h) ++above;
    const double f = (h - enthalpy[above - 1]) / (enthalpy[above] - enthalpy[above - 1]);
    m_values.push_back({temperature[above - 1] + f * step_K, potential[above - 1] + f * (potential[above] - potential[above - 1])});
  }
}

double MetalEnthalpy::enthalpy_J_m3(double temperature_C) const {
  return m_metal.density_kg_m3 * enthalpy_J_kg(m_metal.specificHeatCurve, m_metal.specificHeat_J_kgK, temperature_C);
}

}  // namespace bw

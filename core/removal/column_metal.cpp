// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/column_metal.h"

#include "core/materials/curves.h"

namespace bw {

namespace {

constexpr int entries = 2048;
constexpr double highestRise_K = 3000;

}  // namespace

double latentHeat_J_kg(MetalFamily family) {
  switch (family) {
    case MetalFamily::Iron:
      return 247.2e3;
    case MetalFamily::Aluminium:
      return 396.6e3;
    case MetalFamily::Copper:
      return 206.8e3;
    case MetalFamily::Titanium:
      return 305.0e3;
    case MetalFamily::Magnesium:
      return 345.6e3;
    case MetalFamily::Unknown:
      break;
  }
  return 0;
}

ColumnMetal::ColumnMetal(const BareMetal& metal)
    : m_cold{0, 1 / metal.heatCapacity_J_m3K, metal.conductivity_W_mK}, m_absorptance(metal.absorptance), m_start_C(metal.start_C) {}

ColumnMetal::ColumnMetal(const Metal& metal, double start_C) : m_absorptance(metal.absorptance.likely), m_start_C(start_C) {
  const double density = metal.density_kg_m3.likely, melting_K = metal.melting_C.range.likely - start_C;
  const double latent = density * latentHeat_J_kg(metal.family);
  const auto sensible = [&](double rise_K) {
    return density * enthalpy_J_kg(metal.specificHeatCurve, metal.specificHeat_J_kgK.likely, start_C + rise_K);
  };
  const double cold = sensible(0);
  m_step_J_m3 = (sensible(highestRise_K) - cold + latent) / (entries - 1);

  double rise = 0;
  for (int i = 0; i < entries; ++i) {
    const double held = cold + i * m_step_J_m3;
    const auto holds = [&](double rise_K) { return sensible(rise_K) + (rise_K > melting_K ? latent : 0); };
    double low = rise, high = highestRise_K;
    for (int n = 0; n < 50; ++n) {
      const double middle = 0.5 * (low + high);
      (holds(middle) < held ? low : high) = middle;
    }
    rise = i > 0 ? low : 0;
    m_table.push_back({rise, bw::conductivity_W_mK(metal.conductivityCurve, metal.conductivity_W_mK.likely, start_C + rise)});
  }
  m_cold = {0, (m_table[1].rise_K - m_table[0].rise_K) / m_step_J_m3, m_table[0].conductivity_W_mK};
}

}  // namespace bw

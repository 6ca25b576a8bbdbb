// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/metal_warmth.h"

#include <algorithm>
#include <cmath>

namespace bw {

double MetalWarmth::rise_K() const {
  double sum = 0;
  for (std::size_t i = 0; i < m_count; ++i) sum += m_stores[i].energy_J_m2 / m_stores[i].length_m;
  return sum / m_heatCapacity_J_m3K;
}

double MetalWarmth::take(double heat_J_m2, double duration_s) {
  const double length = 0.5 * std::sqrt(m_growth_m2_s * duration_s);
  m_stores[m_count++] = {heat_J_m2, length};
  if (m_count > most) joinMostAlike();
  return heat_J_m2 / (length * m_heatCapacity_J_m3K);
}

double MetalWarmth::rest(double time_s) {
  const double grown = m_growth_m2_s * time_s;
  double sum = 0;
  for (std::size_t i = 0; i < m_count; ++i) {
    Store& store = m_stores[i];
    const double before = store.length_m;
    store.length_m = std::sqrt(before * before + grown);
    sum += store.energy_J_m2 * (store.length_m - before);
  }
  return 2 * sum / (grown * m_heatCapacity_J_m3K);
}

void MetalWarmth::joinMostAlike() {
  std::size_t at = 0;
  const auto ratio = [&](std::size_t i) { return m_stores[i].length_m / m_stores[i + 1].length_m; };
  for (std::size_t i = 1; i + 1 < m_count; ++i)
    if (ratio(i) < ratio(at)) at = i;
  Store& older = m_stores[at];
  const Store& newer = m_stores[at + 1];
  const double energy = older.energy_J_m2 + newer.energy_J_m2;
  older = {energy, older.length_m * std::pow(newer.length_m / older.length_m, newer.energy_J_m2 / energy)};
  std::move(m_stores.begin() + static_cast<std::ptrdiff_t>(at) + 2, m_stores.begin() + static_cast<std::ptrdiff_t>(m_count),
            m_stores.begin() + static_cast<std::ptrdiff_t>(at) + 1);
  --m_count;
}

}  // namespace bw

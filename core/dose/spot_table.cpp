// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/spot_table.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr double perRadius = 200;

void addBetween(float* sum, const float* low, const float* high, float share, int n) {
  for (int i = 0; i < n; ++i) sum[i] += low[i] + share * (high[i] - low[i]);
}

}  // namespace

SpotTable::SpotTable(double cell, double reach)
    : m_cell(cell), m_reach(reach), m_width((static_cast<int>(std::ceil(2 * reach / cell)) + 3) / 4 * 4),
      m_places(static_cast<int>(std::ceil(cell * perRadius))), m_table(0) {
  for (int place = 0; place <= m_places; ++place) {
    for (int i = 0; i < m_width; ++i) {
      const double u = (i + static_cast<double>(place) / m_places) * cell - reach, g = std::exp(-2 * u * u);
      m_table.value.push_back(static_cast<float>(g));
      m_table.slope.push_back(static_cast<float>(-4 * u * g));
      m_table.bend.push_back(static_cast<float>((8 * u * u - 2) * g));
    }
  }
}

void SpotTable::add(Sums& sums, std::size_t at, double first) const {
  const double place = std::min(std::max(0.0, (first + m_reach) / m_cell * m_places), m_places * (1 - 1e-12));
  const auto low = static_cast<std::size_t>(place) * static_cast<std::size_t>(m_width), high = low + static_cast<std::size_t>(m_width);
  const auto share = static_cast<float>(place - std::floor(place));
  addBetween(&sums.value[at], &m_table.value[low], &m_table.value[high], share, m_width);
  addBetween(&sums.slope[at], &m_table.slope[low], &m_table.slope[high], share, m_width);
  addBetween(&sums.bend[at], &m_table.bend[low], &m_table.bend[high], share, m_width);
}

}  // namespace bw

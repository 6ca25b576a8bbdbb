// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/spot_table.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr double perRadius = 300;

}  // namespace

SpotTable::SpotTable(double cell, double reach)
    : m_cell(cell),
      m_reach(reach),
      m_width((static_cast<int>(std::ceil(2 * reach / cell)) + 3) / 4 * 4),
      m_places(static_cast<int>(std::ceil(cell * perRadius))),
      m_table(0) {
  for (int place = 0; place <= m_places; ++place) {
    for (int i = 0; i < m_width; ++i) {
      const double u = (i + static_cast<double>(place) / m_places) * cell - reach, g = std::exp(-2 * u * u);
      m_table.value.push_back(static_cast<float>(g));
      m_table.slope.push_back(static_cast<float>(-4 * u * g));
      m_table.bend.push_back(static_cast<float>((8 * u * u - 2) * g));
    }
  }
}

SpotTable::Between SpotTable::between(double first) const {
  const double place = std::min(std::max(0.0, (first + m_reach) / m_cell * m_places), m_places * (1 - 1e-12));
  const auto whole = static_cast<std::size_t>(place), width = static_cast<std::size_t>(m_width);
  return {whole * width, (whole + 1) * width, static_cast<float>(place - static_cast<double>(whole))};
}

void SpotTable::fill(float* out, double first, double scale) const {
  const Between at = between(first);
  const float *low = &m_table.value[at.low], *high = &m_table.value[at.high];
  const auto factor = static_cast<float>(scale);
  for (int i = 0; i < m_width; ++i) out[i] = factor * (low[i] + at.share * (high[i] - low[i]));
}

void SpotTable::add(Sums& sums, std::size_t at, double first) const {
  const Between read = between(first);
  const auto addBetween = [&](std::vector<float>& sum, const std::vector<float>& table) {
    float* out = &sum[at];
    const float *low = &table[read.low], *high = &table[read.high];
    for (int i = 0; i < m_width; ++i) out[i] += low[i] + read.share * (high[i] - low[i]);
  };
  addBetween(sums.value, m_table.value);
  addBetween(sums.slope, m_table.slope);
  addBetween(sums.bend, m_table.bend);
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/column_heat.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

const double gamma = 1 - std::sqrt(0.5);
constexpr double stefanBoltzmann_W_m2K4 = 5.670374419e-8;
constexpr double zero_C = -273.15;

double link_W_m2K(double size, double conductivity, double sizeBelow, double conductivityBelow) {
  return 1 / (0.5 * size / conductivity + 0.5 * sizeBelow / conductivityBelow);
}

}  // namespace

ColumnHeat::ColumnHeat(const std::vector<ColumnCell>& cells, std::size_t coatCells, const ColumnMetal& metal, const ColumnAir& air)
    : m_metal(metal), m_air(air), m_coatCells(coatCells) {
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const ColumnCell& cell = cells[i];
    m_size.push_back(cell.size_m);
    m_perJoule.push_back(1 / cell.capacity_J_m2K);
    m_plateau.push_back(cell.plateau_J_m2);
    m_leaves.push_back(cell.leaves_J_m2);
    const ColumnCell* below = i + 1 < cells.size() ? &cells[i + 1] : nullptr;
    m_link.push_back(below ? link_W_m2K(cell.size_m, cell.conductivity_W_mK, below->size_m, below->conductivity_W_mK) : 0);
  }
  for (Values* values : {&m_held, &m_rise, &m_slope, &m_lower, &m_upper, &m_pivot, &m_first, &m_second, &m_next})
    values->resize(cells.size());
}

double ColumnHeat::rise_K(std::size_t i) const {
  return i < m_coatCells ? warming_J_m2(i, m_held[i]) * m_perJoule[i] : m_metal.at(m_held[i] / m_size[i]).rise_K;
}

void ColumnHeat::temperatures(const Values& held, std::size_t first) {
  const std::size_t n = held.size(), linear = m_metal.isConstant() ? n : m_coatCells;
  for (std::size_t i = first; i < linear; ++i) {
    m_rise[i] = warming_J_m2(i, held[i]) * m_perJoule[i];
    m_slope[i] = held[i] < m_plateau[i] || held[i] > m_leaves[i] ? m_perJoule[i] : 0;
  }
  double above = 0;
  for (std::size_t i = std::max(first, linear); i < n; ++i) {
    const ColumnMetal::State state = m_metal.at(held[i] / m_size[i]);
    m_rise[i] = state.rise_K;
    m_slope[i] = state.perJoule_Km3_J / m_size[i];
    if (i > m_coatCells) m_link[i - 1] = link_W_m2K(m_size[i - 1], above, m_size[i], state.conductivity_W_mK);
    above = state.conductivity_W_mK;
  }
}

double ColumnHeat::loss_W_m2(double rise_K) const {
  const double face = m_metal.start_C() + rise_K - zero_C, air = m_air.air_C - zero_C;
  return m_air.filmCoefficient_W_m2K * (face - air) +
         m_air.emissivity * stefanBoltzmann_W_m2K4 * (face * face * face * face - air * air * air * air);
}

double ColumnHeat::lossSlope_W_m2K(double rise_K) const {
  const double face = m_metal.start_C() + rise_K - zero_C;
  return m_air.filmCoefficient_W_m2K + 4 * m_air.emissivity * stefanBoltzmann_W_m2K4 * face * face * face;
}

void ColumnHeat::rates(std::size_t first, const Values& shares, double irradiance_W_m2, Values& out) const {
  const std::size_t n = m_held.size();
  double fromAbove = -loss_W_m2(m_rise[first]);
  for (std::size_t i = first; i + 1 < n; ++i) {
    const double toBelow = m_link[i] * (m_rise[i] - m_rise[i + 1]);
    out[i] = irradiance_W_m2 * shares[i] + fromAbove - toBelow;
    fromAbove = toBelow;
  }
  out[n - 1] = irradiance_W_m2 * shares[n - 1] + fromAbove;
}

/// 1 - implicit J of the links and slopes at hand, a tridiagonal matrix, eliminated from both ends towards the middle: two chains of half
/// the length are found at once. Its columns are diagonally dominant: no pivoting.
void ColumnHeat::factor(std::size_t first, double implicit_s) {
  const std::size_t n = m_held.size();
  double above = implicit_s * lossSlope_W_m2K(m_rise[first]);
  m_lower[first] = 0;
  for (std::size_t i = first; i + 1 < n; ++i) {
    const double below = implicit_s * m_link[i];
    m_pivot[i] = 1 + (above + below) * m_slope[i];
    m_upper[i] = -below * m_slope[i + 1];
    m_lower[i + 1] = -below * m_slope[i];
    above = below;
  }
  m_pivot[n - 1] = 1 + above * m_slope[n - 1];
  m_upper[n - 1] = 0;

  const std::size_t upper = (n - first) / 2, lower = n - first - 1 - upper, middle = first + upper;  // cells above and below the middle
  const auto down = [&](std::size_t i) {
    m_lower[i] *= m_pivot[i - 1];
    return m_lower[i] * m_upper[i - 1];
  };
  const auto up = [&](std::size_t i) {
    m_upper[i] *= m_pivot[i + 1];
    return m_upper[i] * m_lower[i + 1];
  };
  if (upper > 0) m_pivot[first] = 1 / m_pivot[first];
  if (lower > 0) m_pivot[n - 1] = 1 / m_pivot[n - 1];
  for (std::size_t k = 1; k < upper; ++k) {
    m_pivot[first + k] = 1 / (m_pivot[first + k] - down(first + k));
    if (k < lower) m_pivot[n - 1 - k] = 1 / (m_pivot[n - 1 - k] - up(n - 1 - k));
  }
  if (upper > 0) m_pivot[middle] -= down(middle);
  if (lower > 0) m_pivot[middle] -= up(middle);
  m_pivot[middle] = 1 / m_pivot[middle];
}

void ColumnHeat::solve(std::size_t first, Values& right) const {
  const std::size_t n = right.size(), upper = (n - first) / 2, lower = n - first - 1 - upper, middle = first + upper;
  for (std::size_t k = 1; k < upper; ++k) {
    right[first + k] -= m_lower[first + k] * right[first + k - 1];
    if (k < lower) right[n - 1 - k] -= m_upper[n - 1 - k] * right[n - k];
  }
  if (upper > 0) right[middle] -= m_lower[middle] * right[middle - 1];
  if (lower > 0) right[middle] -= m_upper[middle] * right[middle + 1];
  right[middle] *= m_pivot[middle];
  for (std::size_t k = 1; k <= upper; ++k) {
    right[middle - k] = (right[middle - k] - m_upper[middle - k] * right[middle - k + 1]) * m_pivot[middle - k];
    if (k <= lower) right[middle + k] = (right[middle + k] - m_lower[middle + k] * right[middle + k - 1]) * m_pivot[middle + k];
  }
}

double ColumnHeat::tryStep(std::size_t first, const Values& shares, double irradiance_W_m2, double dt_s) {
  const std::size_t n = m_held.size();
  const double implicit = gamma * dt_s;
  temperatures(m_held, first);
  rates(first, shares, irradiance_W_m2, m_first);
  factor(first, implicit);
  const double slope = lossSlope_W_m2K(m_rise[first]) * m_slope[first];
  double losing = loss_W_m2(m_rise[first]);
  solve(first, m_first);
  losing += implicit * slope * m_first[first];

  for (std::size_t i = first; i < n; ++i) m_next[i] = m_held[i] + dt_s * m_first[i];
  temperatures(m_next, first);
  rates(first, shares, irradiance_W_m2, m_second);
  for (std::size_t i = first; i < n; ++i) m_second[i] -= 2 * m_first[i];
  losing += loss_W_m2(m_rise[first]);
  solve(first, m_second);
  losing += implicit * slope * m_second[first];
  m_losing = 0.5 * dt_s * losing;

  double error = 0;
  for (std::size_t i = first; i < n; ++i) {
    const double half = 0.5 * dt_s * (m_first[i] + m_second[i]);
    error = std::max(error, std::abs(half) * m_perJoule[i]);
    m_next[i] += half;
  }
  return error;
}

void ColumnHeat::accept(std::size_t first) {
  std::copy(m_next.begin() + static_cast<std::ptrdiff_t>(first), m_next.end(), m_held.begin() + static_cast<std::ptrdiff_t>(first));
  m_lost += m_losing;
}

}  // namespace bw

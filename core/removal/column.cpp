// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/column.h"

#include "core/values/stopped.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace bw {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

}  // namespace

Column::Column(std::span<const CoatLayer> coat, const BareMetal& metal, double thickness_m, std::stop_token stop)
    : m_layers(coat.begin(), coat.end()), m_metalAbsorptance(metal.absorptance), m_stop(std::move(stop)) {
  addCoat(coat);
  m_coatCells = m_cells.size();
  addMetal(metal, thickness_m);
  m_source.resize(m_cells.size());
  m_conductance.resize(m_cells.size());
  m_diagonal.resize(m_cells.size());
  m_rise.resize(m_cells.size());
}

void Column::addCoat(std::span<const CoatLayer> coat) {
  const double whole =
      std::transform_reduce(coat.begin(), coat.end(), 0.0, std::plus<>(), [](const CoatLayer& l) { return l.thickness_m; });
  for (std::size_t i = 0; i < coat.size(); ++i) {
    const CoatLayer& layer = coat[i];
    const double finest = std::min(layer.opticalDepth_m / 6, whole / 30);
    const int count = static_cast<int>(std::clamp(std::ceil(layer.thickness_m / finest), 1.0, 60.0));
    Cell cell;
    cell.layer = i;
    cell.size_m = layer.thickness_m / count;
    cell.capacity_J_m2K = layer.heatCapacity_J_m3K * cell.size_m;
    cell.conductivity_W_mK = layer.heatCapacity_J_m3K * layer.diffusivity_m2_s;
    cell.leaves_J_m2 = layer.removalEnthalpy_J_m3 * cell.size_m;
    cell.plateau_J_m2 = std::min(cell.capacity_J_m2K * layer.removalRise_K, cell.leaves_J_m2);
    cell.opticalDepth_m = layer.opticalDepth_m;
    m_cells.insert(m_cells.end(), static_cast<std::size_t>(count), cell);
  }
}

/// Cells that grow by half from 4 um at the face.
void Column::addMetal(const BareMetal& metal, double thickness_m) {
  double size = 4e-6, left = thickness_m;
  while (left > 0) {
    Cell cell;
    cell.size_m = left < 2 * size ? left : size;
    cell.layer = m_layers.size();
    cell.capacity_J_m2K = metal.heatCapacity_J_m3K * cell.size_m;
    cell.conductivity_W_mK = metal.conductivity_W_mK;
    cell.plateau_J_m2 = cell.leaves_J_m2 = infinite;
    m_cells.push_back(cell);
    left -= cell.size_m;
    size *= 1.5;
  }
}

void Column::shine(double fluence_J_m2, double duration_s) {
  m_energy.delivered += fluence_J_m2;
  if (!isBare()) {
    advance(fluence_J_m2 / duration_s, duration_s);
    return;
  }
  const double taken = m_metalAbsorptance * fluence_J_m2;
  m_energy.deliveredBare += fluence_J_m2;
  m_energy.absorbed += taken;
  m_energy.intoPart += taken;
  m_energy.intoPartBare += taken;
}

void Column::advance(double irradiance_W_m2, double duration_s) {
  if (isBare()) return;
  double left = duration_s, dt = irradiance_W_m2 > 0 ? duration_s / 4 : std::min(duration_s, 5e-6);
  for (unsigned n = 1; left > 0; ++n) {
    if ((n & 0x3ff) == 0) throwIfStopped(m_stop);
    const double now = std::min({dt, left, longestStep_s()});
    step(irradiance_W_m2, now);
    left -= now;
    if (left < 1e-12 * duration_s) break;
    if (irradiance_W_m2 <= 0) dt *= 1.6;
  }
}

/// A cell that takes up its removal enthalpy at constant temperature must not be drained past its state in one step.
double Column::longestStep_s() const {
  double longest = infinite;
  for (std::size_t i = m_top; i < m_coatCells; ++i) {
    const Cell& cell = m_cells[i];
    if (cell.onPlateau()) longest = std::min(longest, 3 * cell.size_m * cell.capacity_J_m2K / cell.conductivity_W_mK);
  }
  return longest;
}

void Column::step(double irradiance_W_m2, double dt_s) {
  std::fill(m_source.begin(), m_source.end(), 0.0);
  const double before = metalHeld_J_m2();
  if (irradiance_W_m2 > 0) absorb(irradiance_W_m2 * dt_s);
  conduct(dt_s);
  shed();
  m_energy.intoPart += metalHeld_J_m2() - before;
}

void Column::absorb(double energy_J_m2) {
  double light = energy_J_m2 * (isBare() ? 1 : m_layers[m_cells[m_top].layer].absorptance);
  for (std::size_t i = m_top; i < m_coatCells; ++i) {
    const double passes = std::exp(-m_cells[i].size_m / m_cells[i].opticalDepth_m);
    m_source[i] = light * (1 - passes);
    m_energy.absorbed += m_source[i];
    light *= passes;
  }
  m_source[m_coatCells] = light * m_metalAbsorptance;  // what the metal sends back is lost
  m_energy.absorbed += m_source[m_coatCells];
}

/// Implicit Euler; cells on their plateau hold their temperature, and the flows in and out change what they hold.
void Column::conduct(double dt_s) {
  const std::size_t n = m_cells.size();
  for (std::size_t i = m_top; i + 1 < n; ++i) {
    m_conductance[i] = dt_s / (0.5 * m_cells[i].size_m / m_cells[i].conductivity_W_mK + 0.5 * m_cells[i + 1].size_m / m_cells[i + 1].conductivity_W_mK);
  }
  m_conductance[n - 1] = 0;
  double above = 0;  // conductance to the cell above, 0 at the surface
  double ratio = 0, carried = 0;
  for (std::size_t i = m_top; i < n; ++i) {  // Thomas elimination
    const Cell& cell = m_cells[i];
    const bool held = cell.onPlateau();
    const double diagonal = held ? 1 : cell.capacity_J_m2K + above + m_conductance[i];
    const double right = held ? cell.rise_K() : cell.capacity_J_m2K * cell.rise_K() + m_source[i];
    const double lower = held ? 0 : above, upper = held ? 0 : m_conductance[i];
    const double pivot = diagonal - lower * ratio;
    carried = (right + lower * carried) / pivot;
    ratio = upper / pivot;
    m_diagonal[i] = ratio;
    m_rise[i] = carried;
    above = m_conductance[i];
  }
  for (std::size_t i = n - 1; i-- > m_top;) m_rise[i] += m_diagonal[i] * m_rise[i + 1];
  for (std::size_t i = m_top; i < n; ++i) {
    const double fromAbove = i > m_top ? m_conductance[i - 1] * (m_rise[i - 1] - m_rise[i]) : 0;
    const double toBelow = i + 1 < n ? m_conductance[i] * (m_rise[i] - m_rise[i + 1]) : 0;
    m_cells[i].held_J_m2 += m_source[i] + fromAbove - toBelow;
  }
}

void Column::shed() {
  while (m_top < m_coatCells && m_cells[m_top].held_J_m2 >= m_cells[m_top].leaves_J_m2) {
    const double beyond = m_cells[m_top].held_J_m2 - m_cells[m_top].leaves_J_m2;
    m_energy.carriedOff += m_cells[m_top].leaves_J_m2;
    m_cells[++m_top].held_J_m2 += beyond;
  }
  if (isBare()) return;
  const std::size_t layer = m_cells[m_top].layer;
  if (left_m(layer) < m_layers[layer].filmLimit_m() && left_m(layer) < m_layers[layer].thickness_m) {
    std::size_t until = m_top;
    while (until < m_coatCells && m_cells[until].layer == layer) ++until;
    drop(until);
  }
  const bool last = !isBare() && m_cells[m_top].layer + 1 == m_layers.size();
  if (last && m_cells[m_coatCells].rise_K() >= m_layers.back().removalRise_K) drop(m_coatCells);
}

/// Cells that no longer hold: what they stored is left to the metal's face.
void Column::drop(std::size_t until) {
  for (; m_top < until; ++m_top) m_cells[m_coatCells].held_J_m2 += m_cells[m_top].held_J_m2;
}

double Column::depth_m() const {
  double sum = 0;
  for (std::size_t i = 0; i < m_top; ++i) sum += m_cells[i].size_m;
  return sum;
}

double Column::left_m(std::size_t layer) const {
  double sum = 0;
  for (std::size_t i = m_top; i < m_coatCells; ++i) sum += m_cells[i].layer == layer ? m_cells[i].size_m : 0;
  return sum;
}

double Column::stored_J_m2() const {
  double sum = 0;
  for (std::size_t i = m_top; i < m_coatCells; ++i) sum += m_cells[i].held_J_m2;
  return sum;
}

double Column::metalHeld_J_m2() const {
  double sum = 0;
  for (std::size_t i = m_coatCells; i < m_cells.size(); ++i) sum += m_cells[i].held_J_m2;
  return sum;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/column.h"

#include "core/values/stopped.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace bw {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double leastGap_s = 1e-9;  // a shorter one is rounding, and no darkness
constexpr double leastStep_s = 1e-13;

}  // namespace

Column::Column(std::span<const CoatLayer> coat, const ColumnMetal& metal, double thickness_m, std::stop_token stop,
               const ColumnSettings& settings)
    : m_layers(coat.begin(), coat.end()),
      m_settings(settings),
      m_metalAbsorptance(metal.absorptance()),
      m_cells(columnCells(coat, metal, thickness_m, settings.grain)),
      m_coatCells(static_cast<std::size_t>(std::ranges::count_if(m_cells, [&](const ColumnCell& c) { return c.layer < coat.size(); }))),
      m_heat(m_cells, m_coatCells, metal, settings.air),
      m_stop(std::move(stop)),
      m_beneath(coat.size()),
      m_residue(coat.size(), 0),
      m_shares(m_cells.size(), 0),
      m_foot(coat.empty() ? CoatLayer{} : coat.back()) {
  for (std::size_t i = 0; i < m_cells.size(); ++i) {
    if (i == 0 || m_cells[i].layer != m_cells[i - 1].layer) m_firstCell.push_back(i);
  }
  double beneath = 1 - m_metalAbsorptance;
  for (std::size_t i = coat.size(); i-- > 0;) {
    m_beneath[i] = beneath;
    const auto cells = std::span(m_cells).subspan(m_firstCell[i], m_firstCell[i + 1] - m_firstCell[i]);
    beneath = lightLayer(cells, coat[i].film(), beneath);
  }
  beginPass();
}

void Column::beginPass() {
  for (std::size_t i = 0; i < m_layers.size(); ++i)
    m_residue[i] = m_layers[i].behaviour == Behaviour::Softens ? m_layers[i].residueShare * remains_m(i) : 0;
}

void Column::relight(std::size_t layer, bool scorched) {
  const auto cells = std::span(m_cells).subspan(m_firstCell[layer], m_firstCell[layer + 1] - m_firstCell[layer]);
  lightLayer(cells, m_layers[layer].film(scorched), m_beneath[layer]);
  m_dim = true;
}

void Column::illuminate() {
  double light = 1;
  m_absorbs = 0;
  for (std::size_t i = m_top; i < m_coatCells; ++i) {
    m_shares[i] = light * m_cells[i].taken;
    m_absorbs += m_shares[i];
    light *= m_cells[i].passed;
  }
  m_shares[m_coatCells] = light * m_metalAbsorptance;
  m_absorbs += m_shares[m_coatCells];
  m_dim = false;
}

void Column::coolDown() {
  m_energy.intoPart += stored_J_m2();
  for (std::size_t i = m_top; i < m_cells.size(); ++i) m_heat.put(i, 0);
}

void Column::rest(double gap_s) {
  if (gap_s <= leastGap_s) return;
  if (m_lit) {  // no more light comes that what is ripe could take up before it is gone
    if (m_settings.resolved) eject();
    liftFlakes();
    m_lit = false;
    m_spell_J_m2 = m_spell_s = 0;
    m_step_s[0] = 2 * m_firstDark_s;
    m_firstDark_s = 0;
  }
  advance(0, gap_s);
}

void Column::shine(double fluence_J_m2, double duration_s) {
  m_lit = true;
  m_energy.delivered += fluence_J_m2;
  m_spell_J_m2 += fluence_J_m2;
  m_spell_s += duration_s;
  m_blowsOff = fluence_J_m2 >= blowsResidueOff_W_m2 * duration_s;
  advance(fluence_J_m2 / duration_s, duration_s);
}

void Column::follow(std::span<const LightPiece> light, double until_s) {
  double now = 0;
  for (const LightPiece& piece : light) {
    rest(piece.from_s - now);
    shine(piece.irradiance_W_m2 * piece.duration_s, piece.duration_s);
    now = piece.from_s + piece.duration_s;
  }
  rest(until_s - now);
}

void Column::advance(double irradiance_W_m2, double duration_s) {
  const double before = held_J_m2(m_coatCells, m_cells.size());
  double left = duration_s;
  while (left > 1e-12 * duration_s) {
    if (isBare() && !m_settings.resolved) {
      account(irradiance_W_m2, left);
      m_energy.intoPart += m_metalAbsorptance * irradiance_W_m2 * left;
      break;
    }
    if ((++m_steps & 0x3ff) == 0) throwIfStopped(m_stop);
    left -= step(irradiance_W_m2, left);
  }
  m_energy.intoPart += held_J_m2(m_coatCells, m_cells.size()) - before;
}

/// What falls on the column in a step, by where it goes.
void Column::account(double irradiance_W_m2, double dt_s) {
  if (irradiance_W_m2 <= 0) return;
  if (m_dim) illuminate();
  const double taken = m_absorbs * irradiance_W_m2 * dt_s;
  m_energy.absorbed += taken;
  if (!isBare()) return;
  m_energy.deliveredBare += irradiance_W_m2 * dt_s;
  m_energy.intoPartBare += taken;
}

/// One step of at most so long; returns how long it was.
double Column::step(double irradiance_W_m2, double atMost_s) {
  const bool lit = irradiance_W_m2 > 0;
  if (lit && m_dim) illuminate();
  double& next = m_step_s[lit];
  if (next <= 0) next = atMost_s;
  double dt = std::min({next, atMost_s, longestStep_s(irradiance_W_m2)});
  for (;;) {
    const double error = m_heat.tryStep(m_top, m_shares, irradiance_W_m2, dt);
    const double factor = std::clamp(0.9 * std::sqrt(m_settings.error_K / std::max(error, 1e-300)), 0.2, 4.0);
    if (error > m_settings.error_K && dt > leastStep_s) {
      next = dt *= factor;
      continue;
    }
    next = dt < next ? std::max(next, dt * factor) : dt * factor;
    break;
  }
  m_heat.accept(m_top);
  if (!lit && m_firstDark_s <= 0) m_firstDark_s = dt;
  account(irradiance_W_m2, dt);
  change(dt);
  return dt;
}

/// What a cell on its plateau gives to its neighbours, which are colder or as hot.
double Column::outflow_W_m2(std::size_t i) const {
  const auto to = [&](std::size_t other) {
    const double apart =
        0.5 * (m_cells[i].size_m / m_cells[i].conductivity_W_mK + m_cells[other].size_m / m_cells[other].conductivity_W_mK);
    return std::max(0.0, m_heat.rise_K(i) - m_heat.rise_K(other)) / apart;
  };
  return (i > m_top ? to(i - 1) : 0) + (i + 1 < m_cells.size() ? to(i + 1) : 0);
}

/// A cell that takes up its removal enthalpy at constant temperature must not be drained past its state in one step, and the moments when
/// matter ripens and leaves are to be met. A coarse column takes as long as the cell lasts at what it gives now, where that is longer.
double Column::longestStep_s(double irradiance_W_m2) const {
  double longest = infinite;
  for (std::size_t i = m_top; i < m_coatCells; ++i) {
    const ColumnCell& cell = m_cells[i];
    const double beyond = m_heat.held_J_m2(i) - cell.plateau_J_m2;
    if (beyond < 0 || m_heat.held_J_m2(i) > cell.leaves_J_m2) continue;
    double lasts = 3 * cell.size_m * cell.capacity_J_m2K / cell.conductivity_W_mK;
    if (!m_settings.resolved && lasts < longest) lasts = std::max(lasts, beyond / std::max(outflow_W_m2(i), 1e-300));
    longest = std::min(longest, lasts);
  }
  if (irradiance_W_m2 <= 0 || isBare() || !m_settings.resolved || residueStays()) return longest;
  const double ejection = m_layers[m_cells[m_top].layer].ejectionTime_s;
  if (isRipe()) return std::min(longest, std::max(ejection - m_ripe_s, leastStep_s));
  const double ripens = (m_cells[m_top].leaves_J_m2 - m_heat.held_J_m2(m_top)) / (irradiance_W_m2 * m_shares[m_top]);
  return std::min(longest, std::max(ripens, 0.1 * ejection));
}

bool Column::isRipe() const { return !isBare() && m_heat.held_J_m2(m_top) >= m_cells[m_top].leaves_J_m2; }

/// Whether the top cell belongs to what a softening layer leaves behind.
bool Column::residueStays() const {
  const std::size_t layer = m_cells[m_top].layer;
  return !m_blowsOff && remains_m(layer) - m_cells[m_top].size_m < m_residue[layer];
}

/// What a step may have brought about.
void Column::change(double dt_s) {
  if (isBare()) return;
  m_foot.follow(m_heat.rise_K(m_coatCells), dt_s);
  if (m_foot.letsGo()) return drop();
  if (m_lit) noteHotLayers();
  const std::size_t layer = m_cells[m_top].layer;
  if (m_layers[layer].behaviour == Behaviour::Scorches && !m_scorched && m_heat.held_J_m2(m_top) >= m_cells[m_top].plateau_J_m2) {
    m_scorched = true;
    relight(layer, true);
  }
  if (!isRipe()) {
    m_ripe_s = 0;
  } else {
    m_ripe_s += dt_s;
    if (!m_settings.resolved || !m_lit || m_ripe_s >= m_layers[layer].ejectionTime_s - leastStep_s) eject();
  }
  thinOut();
}

/// What is ripe at the top leaves with all it holds; without ejection time, what it holds too much is left to the next cell. A residue
/// stays, and its surplus goes.
void Column::eject() {
  m_ripe_s = 0;
  while (isRipe()) {
    const double leaves = m_cells[m_top].leaves_J_m2, surplus = m_heat.held_J_m2(m_top) - leaves;
    if (residueStays()) {
      m_heat.put(m_top, leaves);
      m_energy.carriedOff += surplus;
      return;
    }
    m_energy.carriedOff += leaves;
    if (m_settings.resolved) {
      m_energy.carriedOff += surplus;
      uncover(m_top + 1);
    } else if (!m_lit || m_cells[m_top + 1].layer == m_cells[m_top].layer) {
      uncover(m_top + 1);
      m_heat.put(m_top, m_heat.held_J_m2(m_top) + surplus);
    } else {
      uncoverLayer(surplus);
    }
  }
}

/// The last cell of a layer has gone some time ago: the light it has taken up since has fallen on the next layer, which may be paler.
void Column::uncoverLayer(double surplus_J_m2) {
  if (m_dim) illuminate();
  const std::vector<double> before = m_shares;
  const double light = surplus_J_m2 / before[m_top];
  const std::size_t above = m_top;
  uncover(m_top + 1);
  illuminate();
  m_energy.absorbed -= surplus_J_m2;
  for (std::size_t i = above + 1; i <= m_coatCells; ++i) {
    const double more = (m_shares[i] - before[i]) * light;
    m_heat.put(i, m_heat.held_J_m2(i) + more);
    m_energy.absorbed += more;
  }
}

/// A remnant goes; its heat stays with what lies beneath.
void Column::thinOut() {
  while (!isBare()) {
    const std::size_t layer = m_cells[m_top].layer, next = m_firstCell[layer + 1];
    if (!m_layers[layer].isRemnant(remains_m(layer), next == m_coatCells)) return;
    if (next == m_coatCells) return drop();
    const double heat = held_J_m2(m_top, next);
    uncover(next);
    m_heat.put(next, m_heat.held_J_m2(next) + heat);
  }
}

/// Nothing holds the coat to the metal any more. Its heat stays with the metal near its face.
void Column::drop() {
  constexpr double near_m = 4e-6;
  const double heat = held_J_m2(m_top, m_coatCells);
  uncover(m_coatCells);
  std::size_t end = m_top;
  double size = 0;
  for (; end < m_cells.size() && size < near_m; ++end) size += m_cells[end].size_m;
  for (std::size_t i = m_top; i < end; ++i) m_heat.put(i, m_heat.held_J_m2(i) + heat * m_cells[i].size_m / size);
}

void Column::uncover(std::size_t top) {
  const bool sameLayer = m_cells[top].layer == m_cells[m_top].layer;
  std::fill(m_shares.begin() + static_cast<std::ptrdiff_t>(m_top), m_shares.begin() + static_cast<std::ptrdiff_t>(top), 0.0);
  m_top = top;
  m_dim = true;
  if (sameLayer) return;
  m_holding = 1;
  m_scorched = false;
}

/// The deepest face that is too hot under what lies on it: the metal's, or that of a buried layer.
void Column::noteHotLayers() {
  if (m_heat.rise_K(m_coatCells) >= m_layers.back().removalRise_K) m_hottest = m_layers.size();
  for (std::size_t layer = m_layers.size(); layer-- > std::max(m_cells[m_top].layer, m_hottest) + 1;) {
    if (isFaceHot(layer)) m_hottest = layer;
  }
}

/// Whether the skin of a buried layer holds as much as at its removal temperature.
bool Column::isFaceHot(std::size_t layer) const {
  double over = 0, size = 0;
  for (std::size_t i = m_firstCell[layer]; i < m_firstCell[layer + 1] && size < coatSkin_m * (1 - 1e-9); ++i) {
    over += m_heat.held_J_m2(i) - m_cells[i].plateau_J_m2;
    size += m_cells[i].size_m;
  }
  return over >= 0;
}

/// What this spell of light has brought to a face beneath by itself, of what makes it too hot.
double Column::broughtTo(std::size_t layer) {
  if (m_dim) illuminate();
  if (layer == m_layers.size()) {
    const ColumnCell& face = m_cells[m_coatCells];
    const double capacity = face.capacity_J_m2K / face.size_m;
    const double length = 0.5 * std::sqrt(std::numbers::pi * face.conductivity_W_mK / capacity * m_spell_s);
    return m_shares[m_coatCells] * m_spell_J_m2 / (length * capacity * m_layers.back().removalRise_K);
  }
  const ColumnCell& face = m_cells[m_firstCell[layer]];
  return m_shares[m_firstCell[layer]] * m_spell_J_m2 / face.plateau_J_m2;
}

/// At the end of a spell of light: what lies over a face that was too hot comes off by the top layer's chance, as the ledger tells.
void Column::liftFlakes() {
  const std::size_t hot = m_hottest;
  m_hottest = 0;
  if (isBare() || hot <= m_cells[m_top].layer) return;
  m_holding *= std::pow(1 - m_layers[m_cells[m_top].layer].liftChance, std::min(1.0, broughtTo(hot)));
  if (m_holding > 0.5) return;
  m_energy.carriedOff += held_J_m2(m_top, m_firstCell[hot]);
  uncover(m_firstCell[hot]);
}

double Column::depth_m() const {
  double sum = 0;
  for (std::size_t i = 0; i < m_top; ++i) sum += m_cells[i].size_m;
  return sum;
}

double Column::progress_m() const { return depth_m() + (isBare() ? 0 : (1 - m_holding) * remains_m(m_cells[m_top].layer)); }

double Column::left_m(std::size_t layer) const {
  const double remains = remains_m(layer);
  const bool gone = remains < m_layers[layer].filmLimit_m() && m_top > m_firstCell[layer];
  return gone ? 0 : remains;
}

double Column::remains_m(std::size_t layer) const {
  const std::size_t from = std::max(m_top, m_firstCell[layer]), until = m_firstCell[layer + 1];
  return from < until ? static_cast<double>(until - from) * m_cells[from].size_m : 0;
}

double Column::held_J_m2(std::size_t from, std::size_t until) const {
  double sum = 0;
  for (std::size_t i = from; i < until; ++i) sum += m_heat.held_J_m2(i);
  return sum;
}

}  // namespace bw

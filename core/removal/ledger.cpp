// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/ledger.h"

#include "core/removal/threshold.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

constexpr double pi = std::numbers::pi;
const double rootPi = std::sqrt(pi);

/// Spread of a store of length l as the square root of a dimensionless time, and back.
double spreadOf(double length, double depth) { return std::max(0.0, length / (depth * rootPi) - depth / (length * rootPi)); }
double lengthOf(double spread, double depth) { return depth * (rootPi / 2) * (spread + std::sqrt(spread * spread + 4 / pi)); }

/// 1/e length L of a profile cut off at r whose store is as long as l: l = L (1 - exp(-r/L)). Newton's method in r/L, from above.
double decayLength(double length, double rest) {
  const double ratio = length / rest;
  if (ratio < 0.1) return length;
  if (ratio > 0.999) return rest / 0.002;
  double y = 1 / ratio;
  for (int i = 0; i < 8; ++i) y -= (1 - std::exp(-y) - ratio * y) / (std::exp(-y) - ratio);
  return rest / y;
}

}  // namespace

Ledger::Ledger(const CoatedMetal& part)
    : m_coat(part.coat), m_light(part.light), m_metal(part.metal), m_residue(part.coat.size(), 0), m_stores(part.coat.size()) {
  for (const CoatLayer& layer : m_coat) m_left.push_back(layer.thickness_m);
  beginPass();
}

void Ledger::beginPass() {
  for (std::size_t i = m_top; i < m_coat.size(); ++i)
    m_residue[i] = m_coat[i].behaviour == Behaviour::Softens ? m_coat[i].residueShare * m_left[i] : 0;
}

double Ledger::coatLeft_m(std::size_t from) const {
  double sum = 0;
  for (std::size_t i = from; i < m_left.size(); ++i) sum += m_left[i];
  return sum;
}

double Ledger::stored_J_m2() const {
  double sum = 0;
  for (std::size_t i = m_top; i < m_stores.size(); ++i) sum += m_stores[i].energy_J_m2();
  return sum;
}

double Ledger::depth_m() const {
  double sum = 0;
  for (std::size_t i = 0; i < m_left.size(); ++i) sum += m_coat[i].thickness_m - m_left[i];
  return sum;
}

double Ledger::left_m(std::size_t layer) const {
  const bool gone = m_left[layer] < m_coat[layer].filmLimit_m() && m_left[layer] < m_coat[layer].thickness_m;
  return gone ? 0 : m_left[layer];
}

double Ledger::progress_m() const { return depth_m() + (isBare() ? 0 : (1 - m_holding) * m_left[m_top]); }

/// How light meets the top layer, reckoned anew where it has changed by a hundredth of what matters. A thick layer stays as it was.
const CoatLight::Film& Ledger::topFilm() {
  const double left = m_left[m_top], depth = m_coat[m_top].opticalDepth_m;
  const bool thick = m_filmLeft > 8 * depth && left > 8 * depth;
  if (m_filmLeft < 0 || (!thick && std::abs(left - m_filmLeft) > 0.01 * std::min(left, depth))) {
    m_film = m_light.film(m_top, left, m_scorched);
    m_filmLeft = left;
  }
  return m_film;
}

void Ledger::rest(double gap_s) {
  if (isBare() || gap_s <= 0) return;
  for (std::size_t i = m_top + 1; i < m_warmed; ++i) {
    const CoatLight::Film& whole = m_light.whole(i);
    if (m_stores[i].enthalpy_J_m3 > 0) spread(m_stores[i], i, whole.taken / whole.density_1_m, gap_s);
  }
  if (top().enthalpy_J_m3 <= 0) return;
  const CoatLight::Film& film = topFilm();
  spread(top(), m_top, film.taken / film.density_1_m, gap_s - hold(gap_s));
}

void Ledger::spread(Store& store, std::size_t layer, double fresh_m, double gap_s) {
  if (gap_s <= 0) return;
  const double d = fresh_m, alpha = m_coat[layer].diffusivity_m2_s;
  const double coat = coatLeft_m(layer), longest = 2 * coat / pi;
  const double x0 = spreadOf(store.length_m, d), xEnd = spreadOf(longest, d);
  const double growing = std::max(0.0, (xEnd * xEnd - x0 * x0) * d * d / alpha);

  const double stored = store.energy_J_m2();
  if (store.length_m < longest) {
    const double x = std::sqrt(x0 * x0 + alpha * std::min(gap_s, growing) / (d * d));
    store.length_m = std::min(lengthOf(x, d), longest);
    store.enthalpy_J_m3 = stored / store.length_m;
  }
  if (gap_s <= growing) return;
  store.enthalpy_J_m3 *= std::exp(-pi * pi * alpha * (gap_s - growing) / (4 * coat * coat));
  m_energy.intoPart += stored - store.energy_J_m2();
}

/// The part of a gap during which the surface cannot cool because its surplus above the sensible enthalpy is still draining.
double Ledger::hold(double gap_s) {
  const CoatLayer& layer = m_coat[m_top];
  const double sensible = layer.sensibleEnthalpy_J_m3(), h = top().enthalpy_J_m3, l = top().length_m;
  if (sensible <= 0 || h <= sensible) {
    m_drained = 0;
    return 0;
  }
  const double surplus = l * (h - sensible - sensible * std::log(h / sensible));
  const double flux = layer.diffusivity_m2_s * sensible / l;
  const double held = std::min(gap_s, std::max(0.0, (surplus - m_drained) / flux));
  m_drained += held * flux;
  return held;
}

void Ledger::pulse(double fluence_J_m2, double duration_s) {
  m_energy.delivered += fluence_J_m2;
  if (isBare()) {
    m_energy.deliveredBare += fluence_J_m2;
    m_energy.intoPartBare += m_metal.absorptance * fluence_J_m2;
    return hitMetal(fluence_J_m2, duration_s);
  }
  const bool blowsOff = fluence_J_m2 >= blowsResidueOff_W_m2 * duration_s;
  const double parts = std::clamp(std::ceil(duration_s / m_coat[m_top].ejectionTime_s), 1.0, 64.0);
  setPulse(duration_s / parts);
  for (int i = 0; i < static_cast<int>(parts); ++i) {
    rest(duration_s / parts);
    if (isBare())
      hitMetal(fluence_J_m2 / parts, duration_s / parts);
    else
      absorb(fluence_J_m2 / parts, blowsOff);
  }
}

void Ledger::setPulse(double duration_s) {
  if (duration_s == m_pulse_s) return;
  m_pulse_s = duration_s;
  m_inPulse.clear();
  for (const CoatLayer& layer : m_coat) {
    const double s = layer.diffusivity_m2_s * duration_s / (layer.opticalDepth_m * layer.opticalDepth_m), deeper = heatedDepths(s);
    m_inPulse.push_back({deeper, std::max(1.0, rootPi / 2 * std::sqrt(s)) / deeper});
  }
}

void Ledger::hitMetal(double fluence_J_m2, double duration_s) {
  const double taken = m_metal.absorptance * fluence_J_m2;
  m_energy.absorbed += taken;
  m_energy.intoPart += taken;
  m_etch += m_metal.etchPerPulse_m(fluence_J_m2, duration_s);
}

void Ledger::absorb(double fluence_J_m2, bool blowsOff) {
  const CoatLayer& layer = m_coat[m_top];
  const CoatLight::Film& film = topFilm();
  const double stored = top().energy_J_m2() + film.taken * fluence_J_m2;
  m_energy.absorbed += film.taken * fluence_J_m2;
  top().enthalpy_J_m3 += film.density_1_m * fluence_J_m2 / m_inPulse[m_top].deeper;
  top().length_m = top().enthalpy_J_m3 > 0 ? stored / top().enthalpy_J_m3 : 0;
  const double toMetal = m_metal.absorptance * warmBuried(film.passed * fluence_J_m2);
  m_metalRise_K = m_metal.flashRise_K(toMetal / m_pulse_s, m_pulse_s);
  m_energy.absorbed += toMetal;
  m_energy.intoPart += toMetal;

  if (layer.behaviour == Behaviour::Scorches && !m_scorched && top().enthalpy_J_m3 >= layer.sensibleEnthalpy_J_m3()) {
    m_scorched = true;
    m_filmLeft = -1;
  }
  if (top().enthalpy_J_m3 > layer.leavesAt_J_m3()) return recede(blowsOff);
  liftFlakes();
}

/// Light that has passed the top layer warms those beneath; what arrives at the metal is returned.
double Ledger::warmBuried(double light_J_m2) {
  constexpr double faint = 1e-5;  // of the removal enthalpy over the depth: left to the metal
  for (std::size_t i = m_top + 1; i < m_coat.size(); ++i) {
    const CoatLight::Film& film = m_light.whole(i);
    if (film.density_1_m * light_J_m2 < faint * m_coat[i].removalEnthalpy_J_m3 && m_warmed <= i) {
      m_energy.absorbed += film.taken * light_J_m2;
      m_energy.intoPart += film.taken * light_J_m2;
    } else {
      Store& store = m_stores[i];
      const double stored = store.energy_J_m2() + film.taken * light_J_m2;
      store.enthalpy_J_m3 += film.density_1_m * light_J_m2 / m_inPulse[i].deeper;
      store.length_m = stored / store.enthalpy_J_m3;
      m_energy.absorbed += film.taken * light_J_m2;
      m_warmed = std::max(m_warmed, i + 1);
    }
    light_J_m2 *= film.passed;
  }
  return light_J_m2;
}

/// Whether a buried layer's face is at its removal temperature, or the metal's at that of the layer on it. A layer's heat spreads to both sides as far as there is matter above it; the
/// top layer's own heat reaches down to it.
bool Ledger::facesHot(std::size_t layer) const {
  if (layer == m_coat.size()) return m_metalRise_K >= m_coat.back().removalRise_K;
  const Store& store = m_stores[layer];
  const CoatLayer& buried = m_coat[layer];
  if (store.enthalpy_J_m3 <= 0) return false;
  const CoatLight::Film& whole = m_light.whole(layer);
  const double above = coatLeft_m(m_top) - coatLeft_m(layer),
               spreadBy = 1 - std::min(1.0, whole.taken / whole.density_1_m / store.length_m);
  const double share = 1 - 0.5 * spreadBy * std::tanh(above / store.length_m);
  const Store& over = m_stores[m_top];
  const double sensible = std::min(over.enthalpy_J_m3, m_coat[m_top].sensibleEnthalpy_J_m3());
  const double fromAbove = over.length_m > 0 ? sensible / m_coat[m_top].heatCapacity_J_m3K * std::exp(-above / over.length_m) : 0;
  return share * store.enthalpy_J_m3 / buried.heatCapacity_J_m3K + fromAbove >= buried.removalRise_K;
}

void Ledger::liftFlakes() {
  for (std::size_t hot = m_coat.size(); hot > m_top; --hot) {
    if (!facesHot(hot)) continue;
    m_holding *= 1 - m_coat[m_top].liftChance;
    if (m_holding > 0.5) return;
    while (m_top < hot) {
      m_energy.carriedOff += top().energy_J_m2();
      dropTop();
    }
    return;
  }
}

void Ledger::dropTop() {
  top() = {};
  m_left[m_top] = 0;
  m_drained = 0;
  m_holding = 1;
  m_scorched = false;
  m_filmLeft = -1;
  ++m_top;
}

void Ledger::recede(bool blowsOff) {
  const CoatLayer& layer = m_coat[m_top];
  const double H = layer.leavesAt_J_m3(), h = top().enthalpy_J_m3, left = m_left[m_top];
  const double decay = decayLength(top().length_m, left) * std::min(1.0, m_inPulse[m_top].decay);
  const double wanted = decay * std::log(h / H), least = blowsOff ? 0 : std::min(left, m_residue[m_top]);
  const double gone = std::min(wanted, left - least), before = top().energy_J_m2();
  m_left[m_top] = gone < left ? left - gone : 0;
  // What leaves takes its heat; where residue stays, what it holds beyond H goes as well.
  const double stays = gone < wanted ? H * decay * -std::expm1(-m_left[m_top] / decay) : before - decay * (h - H);
  top() = {H, stays / H};
  m_drained *= std::exp(-gone / decay);  // the hold begins anew where the surface has moved on
  m_energy.carriedOff += before - stays;
  const bool last = m_top + 1 == m_coat.size();
  if (last ? left_m(m_top) > 0 : m_left[m_top] > 0) return;
  uncover();
  if (!isBare() && top().enthalpy_J_m3 > m_coat[m_top].leavesAt_J_m3()) recede(blowsOff);  // the light reached further
}

/// The top layer is gone; the heat that had spread from it stays with the next layer, or with the part.
void Ledger::uncover() {
  const Store last = top();
  dropTop();
  if (isBare()) {
    m_energy.intoPart += last.energy_J_m2();
    return;
  }
  const double energy = last.energy_J_m2() + top().energy_J_m2();
  if (energy <= 0) return;
  const double length = std::max({last.length_m, top().length_m, m_light.whole(m_top).taken / m_light.whole(m_top).density_1_m});
  top() = {energy / length, length};
  m_warmed = std::max(m_warmed, m_top + 1);
}

}  // namespace bw

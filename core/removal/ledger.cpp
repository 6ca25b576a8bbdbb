// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/ledger.h"

#include "core/removal/threshold.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

using std::numbers::pi;
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

/// Depth at which a exp(-z/la) + b exp(-z/lb) falls to H. Newton's method on its logarithm, which is convex and falling: from 0 upwards,
/// never beyond.
double depthOf(double H, double a, double la, double b, double lb) {
  if (b <= 0) return la * std::log(a / H);
  double z = 0;
  for (int i = 0; i < 12; ++i) {
    const double atA = a * std::exp(-z / la), atB = b * std::exp(-z / lb), sum = atA + atB;
    const double step = std::log(sum / H) * sum / (atA / la + atB / lb);
    z += step;
    if (step < 1e-9 * (la + lb)) break;
  }
  return z;
}

}  // namespace

Ledger::Ledger(const CoatedMetal& part)
    : m_coat(part.coat),
      m_light(part.light),
      m_metal(part.metal),
      m_residue(part.coat.size(), 0),
      m_heat(part.coat.size()),
      m_warmth(part.metal),
      m_foot(part.coat.empty() ? CoatLayer{} : part.coat.back()) {
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
  for (std::size_t i = m_top; i < m_heat.size(); ++i) sum += m_heat[i].energy_J_m2();
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
  heatFromBeneath(gap_s);
  for (std::size_t i = m_top + 1; i < m_warmed; ++i) spread(i, m_light.whole(i).length_m(), gap_s);
  if (top().isWarm()) spread(m_top, topFilm().length_m(), gap_s - hold(gap_s));
  if (!m_warmth.isCold()) coolMetal(gap_s);
}

/// What a buried layer holds beyond what matter leaves at makes it hotter than the film over it, and flows there: from one half space to
/// another (Carslaw and Jaeger 2nd ed. section 2.4). The film is heated from its foot: its face stays as it is while its store grows
/// longer.
void Ledger::heatFromBeneath(double gap_s) {
  const std::size_t beneath = m_top + 1;
  if (beneath >= m_coat.size() || !m_heat[beneath].isWarm()) return;
  const Store under = m_heat[beneath].whole();
  const CoatLayer& layer = m_coat[beneath];
  const double excess = under.enthalpy_J_m3 - layer.leavesAt_J_m3();
  if (excess <= 0) return;
  const double fresh = m_light.whole(beneath).length_m(), before = fresh * spreadOf(under.length_m, fresh);
  const double further = std::sqrt(before * before + layer.diffusivity_m2_s * gap_s) - before;
  const double flows = excess * std::min(0.5 * under.length_m, further / rootPi);
  const double stays = 1 - flows / under.energy_J_m2();
  m_heat[beneath].fresh.enthalpy_J_m3 *= stays;
  m_heat[beneath].old.enthalpy_J_m3 *= stays;
  Store& store = top().old.energy_J_m2() > 0 ? top().old : top().fresh;
  const double energy = store.energy_J_m2() + flows, left = m_left[m_top];
  store.length_m = store.enthalpy_J_m3 > 0 ? std::max(store.length_m, std::min(left, energy / store.enthalpy_J_m3)) : left;
  store.enthalpy_J_m3 = energy / store.length_m;
}

/// The metal's face cools, and the coat's foot feels it: most about half its lateness after a flash. Only what light has brought to the
/// metal heats the foot from there; what has leaked through the coat has left it no hotter than the coat.
void Ledger::coolMetal(double gap_s) {
  const double soon = std::min(gap_s, 0.5 * m_foot.late_s());
  for (const double part_s : {soon, gap_s - soon}) {
    if (part_s <= 0) continue;
    m_foot.follow(m_warmth.rest(part_s), part_s);
    if (m_foot.letsGo()) return letGo();
  }
}

/// Nothing holds the coat to the metal any more. What it stores stays with the metal.
void Ledger::letGo() {
  while (!isBare()) {
    m_energy.intoPart += top().energy_J_m2();
    dropTop();
  }
}

void Ledger::spread(std::size_t layer, double fresh_m, double gap_s) {
  if (m_heat[layer].fresh.enthalpy_J_m3 > 0) spread(m_heat[layer].fresh, layer, fresh_m, gap_s);
  if (m_heat[layer].old.enthalpy_J_m3 > 0) spread(m_heat[layer].old, layer, fresh_m, gap_s);
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
  const double sensible = layer.sensibleEnthalpy_J_m3(), h = top().whole().enthalpy_J_m3, l = top().whole().length_m;
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
    m_work += 0.15;
    return hitMetal(fluence_J_m2, duration_s);
  }
  const bool blowsOff = fluence_J_m2 >= blowsResidueOff_W_m2 * duration_s;
  constexpr double mostPieces = 64;
  const double piece_s = std::min(duration_s, std::max(m_coat[m_top].ejectionTime_s, duration_s / mostPieces));
  m_work += std::ceil(duration_s / piece_s) * 0.5 * static_cast<double>(1 + std::max(m_warmed, m_top) - m_top);
  m_toMetal = 0;
  for (Heat& heat : m_heat) heat.justNow_J_m3 = 0;
  for (double left_s = duration_s; left_s > 1e-9 * duration_s; left_s -= piece_s) {
    const double now_s = std::min(piece_s, left_s), share = now_s / duration_s;
    setPulse(now_s, now_s < piece_s);
    rest(now_s);
    if (isBare())
      hitMetal(fluence_J_m2 * share, now_s);
    else
      absorb(fluence_J_m2 * share, blowsOff);
  }
  if (isBare()) return;
  liftFlakes(m_toMetal > 0 ? m_warmth.take(m_toMetal, duration_s) : 0);
  recede(blowsOff);  // what flakes have laid bare
}

void Ledger::setPulse(double duration_s, bool rest) {
  m_piece = rest ? 1 : 0;
  auto& [known_s, inPulse] = m_inPulses[m_piece];
  if (duration_s == known_s) return;
  known_s = duration_s;
  inPulse.clear();
  for (const CoatLayer& layer : m_coat) {
    const double s = layer.diffusivity_m2_s * duration_s / (layer.opticalDepth_m * layer.opticalDepth_m), deeper = heatedDepths(s);
    inPulse.push_back({deeper, std::max(1.0, rootPi / 2 * std::sqrt(s)) / deeper});
  }
}

void Ledger::hitMetal(double fluence_J_m2, double duration_s) {
  const double taken = m_metal.absorptance * fluence_J_m2;
  m_energy.absorbed += taken;
  m_energy.intoPart += taken;
  m_energy.deliveredBare += fluence_J_m2;
  m_energy.intoPartBare += taken;
  if (duration_s != m_boils_s) {
    m_boils_s = duration_s;
    m_boils_J_m2 = m_metal.boilFluence_J_m2(duration_s);
  }
  if (fluence_J_m2 > m_boils_J_m2) m_etch += m_metal.etchPerPulse_m(fluence_J_m2, duration_s);
}

Ledger::Store Ledger::Heat::whole() const {
  const double h = fresh.enthalpy_J_m3 + old.enthalpy_J_m3;
  return {h, h > 0 ? energy_J_m2() / h : 0};
}

/// Light taken up in a layer.
void Ledger::warm(std::size_t layer, const CoatLight::Film& film, double light_J_m2) {
  Heat& heat = m_heat[layer];
  const double deeper = m_inPulses[m_piece].second[layer].deeper;
  if (heat.fresh.length_m > oldFrom * film.length_m() * deeper) heat = {{}, heat.whole(), heat.justNow_J_m3};
  const double stored = heat.fresh.energy_J_m2() + film.taken * light_J_m2;
  m_energy.absorbed += film.taken * light_J_m2;
  heat.fresh.enthalpy_J_m3 += film.density_1_m * light_J_m2 / deeper;
  heat.fresh.length_m = heat.fresh.enthalpy_J_m3 > 0 ? stored / heat.fresh.enthalpy_J_m3 : 0;
  heat.justNow_J_m3 += film.density_1_m * light_J_m2 / deeper;
}

void Ledger::absorb(double fluence_J_m2, bool blowsOff) {
  const CoatLayer& layer = m_coat[m_top];
  const CoatLight::Film& film = topFilm();
  warm(m_top, film, fluence_J_m2);
  const double toMetal = m_metal.absorptance * warmBuried(film.passed * fluence_J_m2);
  m_toMetal += toMetal;
  m_energy.absorbed += toMetal;
  m_energy.intoPart += toMetal;

  if (layer.behaviour == Behaviour::Scorches && !m_scorched && top().whole().enthalpy_J_m3 >= layer.sensibleEnthalpy_J_m3()) {
    m_scorched = true;
    m_filmLeft = -1;
  }
  recede(blowsOff);
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
      warm(i, film, light_J_m2);
      m_warmed = std::max(m_warmed, i + 1);
    }
    light_J_m2 *= film.passed;
  }
  return light_J_m2;
}

/// Of the heat at a buried layer's face, what has not gone into the matter above it. Of older heat, where there is enough matter, two half
/// spaces share it by their effusivities, a half each where they are alike (Carslaw and Jaeger 2nd ed. section 2.15); nothing has gone of
/// what this pulse has brought.
double Ledger::shareBelow(std::size_t layer) const {
  const Store heat = m_heat[layer].whole();
  if (heat.enthalpy_J_m3 <= 0) return 1;
  const double above = coatLeft_m(m_top) - coatLeft_m(layer);
  const double older = 1 - std::min(1.0, m_heat[layer].justNow_J_m3 / heat.enthalpy_J_m3);
  const double own = m_coat[layer].effusivity_J_m2Ks05(), over = m_coat[layer - 1].effusivity_J_m2Ks05();
  return 1 - over / (over + own) * older * std::tanh(above / heat.length_m);
}

/// Rise of the matter over a buried layer's face, by the heat in it that reaches so far.
double Ledger::riseOver_K(std::size_t layer) const {
  double rise = 0, below = 0;
  for (std::size_t i = layer; i-- > m_top;) {
    below += m_left[i];
    const Store heat = m_heat[i].whole();
    if (heat.length_m > 0)
      rise += std::min(heat.enthalpy_J_m3, m_coat[i].sensibleEnthalpy_J_m3()) / m_coat[i].heatCapacity_J_m3K * std::exp(-below / heat.length_m);
  }
  return rise;
}

/// Whether the skin of a buried layer is at its removal temperature: between its own heat and that of what lies over it, whose cold has
/// come some way into what is older.
bool Ledger::facesHot(std::size_t layer) const {
  if (!m_heat[layer].isWarm()) return false;
  const Store heat = m_heat[layer].whole();
  const double length = m_light.whole(layer).length_m();
  const double reached = coatSkin_m / std::max(2 * length * spreadOf(heat.length_m, length), 1e-9);
  const double cooled = (1 - shareBelow(layer)) * (std::erfc(reached) - std::expm1(-reached * reached) / (reached * rootPi));
  const double own =
      heat.enthalpy_J_m3 / m_coat[layer].heatCapacity_J_m3K * heat.length_m / coatSkin_m * -std::expm1(-coatSkin_m / heat.length_m);
  return (1 - cooled) * own + cooled * riseOver_K(layer) >= m_coat[layer].removalRise_K;
}

void Ledger::liftFlakes(double flash_K) {
  std::size_t hot = m_warmth.rise_K() >= m_coat.back().removalRise_K ? m_coat.size() : std::min(m_warmed, m_coat.size() - 1);
  while (hot > m_top && hot < m_coat.size() && !facesHot(hot)) --hot;
  if (hot <= m_top) return;
  const double brought =
      hot < m_coat.size() ? m_heat[hot].justNow_J_m3 / m_coat[hot].sensibleEnthalpy_J_m3() : flash_K / m_coat.back().removalRise_K;
  m_holding *= std::pow(1 - m_coat[m_top].liftChance, std::min(1.0, brought));
  if (m_holding > 0.5) return;
  if (hot < m_coat.size()) {  // the flakes keep what has spread into them
    const double stays = shareBelow(hot);
    m_energy.carriedOff += (1 - stays) * m_heat[hot].energy_J_m2();
    m_heat[hot].fresh.enthalpy_J_m3 *= stays;
    m_heat[hot].old.enthalpy_J_m3 *= stays;
  }
  while (m_top < hot) {
    m_energy.carriedOff += top().energy_J_m2();
    dropTop();
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

/// Layers leave from the top down to where the heat falls to what they leave at.
void Ledger::recede(bool blowsOff) {
  while (!isBare() && top().whole().enthalpy_J_m3 > m_coat[m_top].leavesAt_J_m3()) {
    wear(blowsOff);
    if (m_left[m_top] > 0 && !m_coat[m_top].isRemnant(m_left[m_top], m_top + 1 == m_coat.size())) return;
    uncover();
  }
}

void Ledger::wear(bool blowsOff) {
  const double H = m_coat[m_top].leavesAt_J_m3(), left = m_left[m_top];
  Store &fresh = top().fresh, &old = top().old;
  const double freshDecay =
      fresh.enthalpy_J_m3 > 0 ? decayLength(fresh.length_m, left) * std::min(1.0, m_inPulses[m_piece].second[m_top].decay) : left;
  const double oldDecay = old.enthalpy_J_m3 > 0 ? decayLength(old.length_m, left) : freshDecay;
  const double wanted = depthOf(H, fresh.enthalpy_J_m3, freshDecay, old.enthalpy_J_m3, oldDecay);
  const double least = blowsOff ? 0 : std::min(left, m_residue[m_top]), gone = std::min(wanted, left - least);
  const Store before = top().whole();
  m_left[m_top] = gone < left ? left - gone : 0;
  // What leaves takes its heat; where residue stays, what it holds beyond H goes as well.
  const double cooled = gone < wanted ? H / before.enthalpy_J_m3 : 0;
  const auto take = [&](Store& store, double decay) {
    if (store.enthalpy_J_m3 <= 0) return;
    const double h = cooled > 0 ? store.enthalpy_J_m3 * cooled : store.enthalpy_J_m3 * std::exp(-gone / decay);
    const double stays = cooled > 0 ? h * decay * -std::expm1(-m_left[m_top] / decay) : store.energy_J_m2() - decay * (store.enthalpy_J_m3 - h);
    store = h > 1e-9 * H && stays > 0 ? Store{h, stays / h} : Store{};
  };
  take(fresh, freshDecay);
  take(old, oldDecay);
  m_drained *= std::exp(-gone / before.length_m);  // the hold begins anew where the surface has moved on
  m_energy.carriedOff += before.energy_J_m2() - top().energy_J_m2();
}

/// The top layer is gone, or a remnant of it goes; the heat that had spread from it stays with the next layer, or with the part.
void Ledger::uncover() {
  const Store last = top().whole();
  dropTop();
  if (isBare()) {
    m_energy.intoPart += last.energy_J_m2();
    return;
  }
  const Store own = top().old;
  const double energy = last.energy_J_m2() + own.energy_J_m2();
  if (energy <= 0) return;
  const double length = std::max({last.length_m, own.length_m, m_light.whole(m_top).length_m()});
  top().old = {energy / length, length};
  m_warmed = std::max(m_warmed, m_top + 1);
}

}  // namespace bw

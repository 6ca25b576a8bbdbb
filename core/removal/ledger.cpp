// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/ledger.h"

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

double LedgerLayer::filmLimit_m() const { return std::max(2e-6, 0.1 * opticalDepth_m); }

Ledger::Ledger(std::span<const LedgerLayer> coat, const BareMetal& metal) : m_coat(coat), m_metal(metal) {
  for (const LedgerLayer& layer : coat) m_left.push_back(layer.thickness_m);
}

double Ledger::coatLeft_m() const {
  double sum = 0;
  for (std::size_t i = m_top; i < m_left.size(); ++i) sum += m_left[i];
  return sum;
}

double Ledger::storageDepth_m() const {
  const double d = m_coat[m_top].opticalDepth_m;
  return -d * std::expm1(-m_left[m_top] / d);
}

/// Share of the light leaving the top layer downwards that arrives at the metal.
double Ledger::lightToMetal() const {
  double depths = 0;
  for (std::size_t i = m_top + 1; i < m_left.size(); ++i) depths += m_left[i] / m_coat[i].opticalDepth_m;
  return std::exp(-depths);
}

double Ledger::depth_m() const {
  double sum = 0;
  for (std::size_t i = 0; i < m_left.size(); ++i) sum += m_coat[i].thickness_m - m_left[i];
  return sum;
}

void Ledger::rest(double gap_s) {
  if (isBare() || m_enthalpy <= 0) return;
  gap_s -= hold(gap_s);
  if (gap_s <= 0) return;
  const double d = m_coat[m_top].opticalDepth_m, alpha = m_coat[m_top].diffusivity_m2_s;
  const double coat = coatLeft_m(), longest = 2 * coat / pi;
  const double fresh = storageDepth_m();
  const double x0 = spreadOf(m_length, fresh), xEnd = spreadOf(longest, fresh);
  const double growing = std::max(0.0, (xEnd * xEnd - x0 * x0) * d * d / alpha);

  const double stored = stored_J_m2();
  if (m_length < longest) {
    const double x = std::sqrt(x0 * x0 + alpha * std::min(gap_s, growing) / (d * d));
    m_length = std::min(lengthOf(x, fresh), longest);
    m_enthalpy = stored / m_length;
  }
  if (gap_s <= growing) return;
  m_enthalpy *= std::exp(-pi * pi * alpha * (gap_s - growing) / (4 * coat * coat));
  m_energy.intoPart += stored - stored_J_m2();
}

/// The part of a gap during which the surface cannot cool because its surplus above the sensible enthalpy is still draining.
double Ledger::hold(double gap_s) {
  const LedgerLayer& layer = m_coat[m_top];
  const double sensible = layer.sensibleEnthalpy_J_m3();
  if (sensible <= 0 || m_enthalpy <= sensible) {
    m_drained = 0;
    return 0;
  }
  const double surplus = m_length * (m_enthalpy - sensible - sensible * std::log(m_enthalpy / sensible));
  const double flux = layer.diffusivity_m2_s * sensible / m_length;
  const double held = std::min(std::max(0.0, gap_s), std::max(0.0, (surplus - m_drained) / flux));
  m_drained += held * flux;
  return held;
}

void Ledger::pulse(double fluence_J_m2, double duration_s) {
  m_energy.delivered += fluence_J_m2;
  if (isBare()) {
    const double taken = m_metal.absorptance * fluence_J_m2;
    m_energy.deliveredBare += fluence_J_m2;
    m_energy.absorbed += taken;
    m_energy.intoPart += taken;
    m_energy.intoPartBare += taken;
    m_etch += m_metal.etchPerPulse_m(fluence_J_m2, duration_s);
    return;
  }
  const double parts = std::clamp(std::ceil(duration_s / m_coat[m_top].ejectionTime_s), 1.0, 64.0);
  for (int i = 0; i < static_cast<int>(parts); ++i) {
    absorb(fluence_J_m2 / parts);
    rest(duration_s / parts);
  }
}

void Ledger::absorb(double fluence_J_m2) {
  if (isBare()) {  // laid bare by an earlier part of this pulse
    m_energy.absorbed += m_metal.absorptance * fluence_J_m2;
    m_energy.intoPart += m_metal.absorptance * fluence_J_m2;
    return;
  }
  const LedgerLayer& layer = m_coat[m_top];
  const double enters = layer.absorptance * fluence_J_m2;
  const double passesOn = enters * std::exp(-m_left[m_top] / layer.opticalDepth_m);
  const double backOut = passesOn * lightToMetal() * (1 - m_metal.absorptance);  // what the metal sends back is lost
  m_energy.absorbed += enters - backOut;
  m_energy.intoPart += passesOn - backOut;
  const double stored = stored_J_m2() + enters - passesOn;
  m_enthalpy += enters / layer.opticalDepth_m;
  m_length = m_enthalpy > 0 ? stored / m_enthalpy : 0;
  if (m_enthalpy > layer.removalEnthalpy_J_m3) recede();
}

void Ledger::recede() {
  const LedgerLayer& layer = m_coat[m_top];
  const double H = layer.removalEnthalpy_J_m3, decay = decayLength(m_length, m_left[m_top]);
  const double gone = std::min(decay * std::log(m_enthalpy / H), m_left[m_top]);
  const double before = stored_J_m2();
  m_left[m_top] -= gone;
  m_enthalpy = H;
  m_length = decay * -std::expm1(-m_left[m_top] / decay);
  m_drained *= std::exp(-gone / decay);  // the hold begins anew where the surface has moved on
  m_energy.carriedOff += before - stored_J_m2();
  if (m_left[m_top] < layer.filmLimit_m()) uncover();
}

/// The top layer is gone; what it still held is left to the part, and the next layer starts cold.
void Ledger::uncover() {
  m_energy.intoPart += stored_J_m2();
  m_enthalpy = 0;
  m_length = 0;
  m_drained = 0;
  m_left[m_top] = 0;
  ++m_top;
}

}  // namespace bw

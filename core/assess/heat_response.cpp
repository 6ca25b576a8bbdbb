// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/heat_response.h"

#include "core/heat/limits.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <future>

namespace bw {

namespace {

constexpr double coarseCells = 400;

/// `spot`: what the frame's own hottest spot stands above, by the beam's last passages; the hottest point of the whole tour would jump from
/// one swath to another with every change.
struct Rises {
  double spot = 0, front = 0, back = 0;
};

Rises risesOf(const Work& work, const HeatInput& input) {
  const auto bare = bareHeat(work, input, coarseCells, HeatWanted::Peaks);
  if (!bare) return {};
  const double start = input.sheet.start_C;
  return {bare->spots.front().point_K_W, bare->hot.patch.front_C - start, bare->hot.patch.back_C - start};
}

/// One quantity and what changing it by a fifth means for the heat.
struct Change {
  double Drawn::*factor;
  std::function<void(HeatInput&, double)> apply;
};

std::vector<Change> changes() {
  return {{&Drawn::pace, [](HeatInput& in, double by) { in.tour.travelSpeed_m_s *= by; }},
          {&Drawn::thickness, [](HeatInput& in, double by) { in.sheet.thickness_m *= by; }},
          {&Drawn::conductivity, [](HeatInput& in, double by) { in.sheet.metal.conductivity_W_mK *= by; }},
          {&Drawn::heatCapacity, [](HeatInput& in, double by) { in.sheet.metal.specificHeat_J_kgK *= by; }},
          {&Drawn::cooling, [](HeatInput& in, double by) {
             in.sheet.filmCoefficient_W_m2K *= by;
             in.sheet.emissivity *= by;
           }}};
}

double power(double changed, double before, double by) { return changed > 0 && before > 0 ? std::log(changed / before) / std::log(by) : 0; }

}  // namespace

HeatResponse::HeatResponse(const Work& work, const ThermalResult& thermal)
    : m_start(work.project.part.startTemperature_C),
      m_boiling(thermal.boiling_C),
      m_fullShare(std::max(1e-6, work.metal.absorptance.high)) {
  m_assessed = {*thermal.nearBare_C,
                *thermal.frontBare_C,
                *thermal.backBare_C,
                thermal.tintEquivalent_C.value_or(m_start),
                *thermal.flash_C,
                m_start,
                m_start};
  for (const LimitResult& limit : thermal.limits) {
    if (limit.felt == Felt::TintUnderBeam) m_assessed.tintUnderBeam_C = limit.predicted_C;
    if (limit.felt == Felt::Scorch) m_assessed.scorchEquivalent_C = limit.predicted_C;
  }
  m_flashRise = thermal.flashRise_K;
  m_strippingFront = thermal.frontStripping_C.value_or(m_start) - m_start;
  m_strippingBack = thermal.backStripping_C.value_or(m_start) - m_start;
  m_strippingShare = work.strippingShare;

  constexpr double by = 1.2;
  const double watts = work.bare->input.power_W;
  const HeatInput likely = heatInput(work, work.bare->input.spotRadius_m, watts);
  const Rises before = risesOf(work, likely);
  for (const Change& change : changes()) {
    HeatInput changed = likely;
    change.apply(changed, by);
    const Rises after = risesOf(work, changed);
    m_variables.push_back(
        {change.factor, {power(after.spot, before.spot, by), power(after.front, before.front, by), power(after.back, before.back, by)}});
  }
}

HeatPeaks HeatResponse::peaks(const Drawn& drawn, double strippingShare) const {
  const double bare = drawn.metalAbsorptance / m_fullShare;
  const double coat = m_strippingShare > 0 ? strippingShare / m_strippingShare : 0;
  double spot = 1, front = 1, back = 1;
  for (const Variable& variable : m_variables) {
    const double factor = drawn.*variable.factor;
    spot *= std::pow(factor, variable.powers.spot);
    front *= std::pow(factor, variable.powers.front);
    back *= std::pow(factor, variable.powers.back);
  }
  const auto risen = [&](double assessed_C, double by) { return m_start + by * (assessed_C - m_start); };
  HeatPeaks peaks;
  peaks.front_C = std::max(risen(m_assessed.front_C, bare * front), m_start + coat * front * m_strippingFront);
  peaks.back_C = std::max(risen(m_assessed.back_C, bare * back), m_start + coat * back * m_strippingBack);
  const double above_K = std::max(0.0, m_assessed.near_C - m_assessed.front_C);
  peaks.near_C = std::max(risen(m_assessed.front_C, bare * front) + bare * spot * above_K, peaks.front_C);
  peaks.tintEquivalent_C = risen(m_assessed.tintEquivalent_C, bare * front);
  peaks.tintUnderBeam_C = risen(m_assessed.tintUnderBeam_C, bare * front);
  peaks.scorchEquivalent_C = risen(m_assessed.scorchEquivalent_C, std::max(bare, coat) * back);
  peaks.flash_C = peaks.near_C + m_flashRise * bare * drawn.pulseShape;
  for (double* peak : {&peaks.near_C, &peaks.front_C, &peaks.back_C, &peaks.flash_C}) *peak = std::min(*peak, m_boiling);
  return peaks;
}

}  // namespace bw

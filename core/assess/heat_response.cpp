// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/heat_response.h"

#include "core/assess/hand_spread.h"
#include "core/beam/delivery.h"
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

/// Heat by the table of the likely metal, which turns it into temperatures again.
Rises risesOf(const Work& work, const HeatInput& input, const MetalEnthalpy& metal) {
  const auto bare = bareHeat(work, input, coarseCells, HeatWanted::Peaks);
  if (!bare) return {};
  const double start = metal.enthalpy_J_m3(input.sheet.start_C);
  return {bare->spots.front().point_K_W, metal.enthalpy_J_m3(bare->hot.patch.front_C) - start,
          metal.enthalpy_J_m3(bare->hot.patch.back_C) - start};
}

/// One quantity and what changing it by a fifth means for the heat.
struct Change {
  std::function<double(const Drawn&)> factor;
  std::function<void(HeatInput&, double)> apply;
  double by = 1.2;
};

/// Of the spot, for a head out of its place.
std::function<double(const Drawn&)> spotRadiusOf(const Work& work) {
  return [machine = work.machine, settings = work.settings(), likely_m = work.scan->beam.spotDiameter_m](const Drawn& drawn) {
    if (drawn.offFocus_m == 0) return 1.0;
    Settings off = settings;
    off.focusOffset_m += drawn.offFocus_m;
    return deliver(machine, off).spotDiameter_m / likely_m;
  };
}

/// A number above one, or one below: a spot grows or shrinks by much, and heats by other powers each way.
std::function<double(const Drawn&)> oneWay(std::function<double(const Drawn&)> factor, bool up) {
  return [=](const Drawn& drawn) { return up ? std::max(1.0, factor(drawn)) : std::min(1.0, factor(drawn)); };
}

/// Whether a hand's stand-off makes of the spot what heat feels.
bool spotVaries(const Work& work, const std::function<double(const Drawn&)>& spotRadius) {
  constexpr double felt = 0.03;
  const double standOff_m = handSpread(work.plan.hand).standOff_m;
  const auto off = [&](double by_m) {
    Drawn drawn;
    drawn.offFocus_m = by_m;
    return std::abs(spotRadius(drawn) - 1);
  };
  return std::max(off(standOff_m), off(-standOff_m)) > felt;
}

std::vector<Change> changes(const std::function<double(const Drawn&)>& spotRadius, bool spotVaries) {
  const auto widen = [](HeatInput& in, double by) { in.spotRadius_m *= by; };
  const auto factor = [](double Drawn::*value) { return [value](const Drawn& drawn) { return drawn.*value; }; };
  std::vector<Change> all = {{factor(&Drawn::pace), [](HeatInput& in, double by) { in.tour.travelSpeed_m_s *= by; }},
                             {factor(&Drawn::thickness), [](HeatInput& in, double by) { in.sheet.thickness_m *= by; }},
                             {factor(&Drawn::conductivity), [](HeatInput& in, double by) { in.sheet.metal.conductivity_W_mK *= by; }},
                             {factor(&Drawn::heatCapacity), [](HeatInput& in, double by) { in.sheet.metal.specificHeat_J_kgK *= by; }},
                             {factor(&Drawn::cooling), [](HeatInput& in, double by) {
                                in.sheet.filmCoefficient_W_m2K *= by;
                                in.sheet.emissivity *= by;
                              }}};
  if (spotVaries) {
    all.push_back({oneWay(spotRadius, true), widen});
    all.push_back({oneWay(spotRadius, false), widen, 1 / 1.2});
  }
  return all;
}

double power(double changed, double before, double by) { return changed > 0 && before > 0 ? std::log(changed / before) / std::log(by) : 0; }

}  // namespace

double PassHeat::most_J_m3(const std::vector<double>& shares, double above_J_m3) const {
  double most = 0, sum = 0;
  for (std::size_t pass = 0; pass < shares.size(); ++pass) {
    const double before = before_J_m3[std::min(pass, before_J_m3.size() - 1)], mean = pass > 0 ? sum / static_cast<double>(pass) : 0;
    most = std::max(most, shares[pass] * (own_J_m3 + above_J_m3) + mean * before);
    sum += shares[pass];
  }
  return most;
}

std::vector<double> HeatResponse::ofFull(std::vector<double> passShares) const {
  for (double& share : passShares) share /= m_fullShare;
  return passShares;
}

HeatResponse::Stripping HeatResponse::stripping(const std::vector<double>& passStart_s, const FaceHistory& trace,
                                                const std::vector<double>& face_C, double hottest_C, double hottest_s,
                                                std::optional<double> assessed_C, const std::vector<double>& shares) const {
  Stripping out;
  std::size_t last = 0;
  for (std::size_t pass = 0; pass < passStart_s.size(); ++pass) {
    const auto at = std::ranges::lower_bound(trace.time_s, passStart_s[pass]) - trace.time_s.begin();
    const auto i = std::min(static_cast<std::size_t>(at), face_C.size() - 1);
    out.heat.before_J_m3.push_back(pass > 0 ? std::max(0.0, held_J_m3(face_C[i])) : 0);
    if (passStart_s[pass] <= hottest_s) last = pass;
  }
  out.heat.own_J_m3 = std::max(0.0, held_J_m3(hottest_C) - out.heat.before_J_m3[last]);
  const double likely = out.heat.most_J_m3(shares);
  if (assessed_C && likely > 0) out.scale = held_J_m3(*assessed_C) / likely;
  return out;
}

HeatResponse::HeatResponse(const Work& work, const Assessment& assessed)
    : m_start(work.project.part.startTemperature_C),
      m_metal(work.bare->input.sheet.metal),
      m_startHeat(m_metal.enthalpy_J_m3(m_start)),
      m_boiling(assessed.thermal.boiling_C),
      m_fullShare(std::max(1e-6, work.metal.absorptance.high)),
      m_spotRadius(spotRadiusOf(work)) {
  const ThermalResult& thermal = assessed.thermal;
  const BareHeat& bare = *work.bare;
  m_assessed = {std::max(*thermal.nearBare_C, bare.hot.point_C),  // beyond boiling, so that a colder draw may be below it
                std::max(*thermal.frontBare_C, bare.hot.patch.front_C),
                std::max(*thermal.backBare_C, bare.hot.patch.back_C),
                thermal.tintEquivalent_C.value_or(m_start),
                *thermal.flash_C,
                m_start,
                m_start};
  for (const LimitResult& limit : thermal.limits) {
    if (limit.felt == Felt::TintUnderBeam) m_assessed.tintUnderBeam_C = limit.predicted_C;
    if (limit.felt == Felt::Scorch) m_assessed.scorchEquivalent_C = limit.predicted_C;
  }
  if (*thermal.back_C > m_start) m_scorch = (m_assessed.scorchEquivalent_C - m_start) / (*thermal.back_C - m_start);
  m_flashRise = thermal.flashRise_K;
  const std::vector<double>& passStart_s = bare.tour->tour().passStart_s;
  const std::vector<double> shares = ofFull(assessed.removal.heatIntoPartByPass);
  m_strippingFront =
      stripping(passStart_s, bare.trace, bare.trace.front_C, m_assessed.front_C, bare.hot.front.time_s, thermal.frontStripping_C, shares);
  m_strippingBack = stripping(passStart_s, bare.backTrace, bare.backTrace.back_C, m_assessed.back_C, bare.hot.back.time_s,
                              thermal.backStripping_C, shares);

  const HeatInput likely = heatInput(work, bare.input.spotRadius_m, bare.input.power_W);
  const Rises before = risesOf(work, likely, m_metal);
  const std::vector<Change> all = changes(m_spotRadius, spotVaries(work, m_spotRadius));
  m_variables.resize(all.size());
  work.crew.share(all.size(), [&](std::size_t i) {
    const Change& change = all[i];
    HeatInput changed = likely;
    change.apply(changed, change.by);
    const Rises after = risesOf(work, changed, m_metal);
    const auto of = [&](double Rises::*rise) { return power(after.*rise, before.*rise, change.by); };
    m_variables[i] = {change.factor, {of(&Rises::spot), of(&Rises::front), of(&Rises::back)}};
  });
}

HeatPeaks HeatResponse::peaks(const Drawn& drawn, const std::vector<double>& passShares) const {
  const double bare = drawn.metalAbsorptance / m_fullShare;
  const std::vector<double> shares = ofFull(passShares);
  double spot = 1, front = 1, back = 1;
  for (const Variable& variable : m_variables) {
    const double factor = variable.factor(drawn);
    spot *= std::pow(factor, variable.powers.spot);
    front *= std::pow(factor, variable.powers.front);
    back *= std::pow(factor, variable.powers.back);
  }
  const auto risen = [&](double assessed_C, double by) { return temperature_C(by * held_J_m3(assessed_C)); };
  HeatPeaks peaks;
  peaks.front_C = std::max(risen(m_assessed.front_C, bare * front), temperature_C(front * m_strippingFront.most_J_m3(shares)));
  peaks.back_C = std::max(risen(m_assessed.back_C, bare * back), temperature_C(back * m_strippingBack.most_J_m3(shares)));
  const double onFront = held_J_m3(m_assessed.front_C), above = spot * std::max(0.0, held_J_m3(m_assessed.near_C) - onFront);
  peaks.near_C = std::max({temperature_C(bare * (front * onFront + above)),
                           temperature_C(front * m_strippingFront.most_J_m3(shares, above / front)), peaks.front_C});
  peaks.tintEquivalent_C = risen(m_assessed.tintEquivalent_C, bare * front);
  peaks.tintUnderBeam_C = risen(m_assessed.tintUnderBeam_C, bare * front);
  peaks.scorchEquivalent_C = m_start + m_scorch * (peaks.back_C - m_start);
  const double radius = m_spotRadius(drawn);
  peaks.flash_C = peaks.near_C + m_flashRise * bare * drawn.pulseShape / (radius * radius);
  for (double* peak : {&peaks.near_C, &peaks.front_C, &peaks.back_C, &peaks.flash_C}) *peak = std::min(*peak, m_boiling);
  return peaks;
}

}  // namespace bw

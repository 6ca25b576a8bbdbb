// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/heat_work.h"
#include "core/assess/unknowns.h"
#include "core/heat/limits.h"

#include <functional>

namespace bw {

/// The heat of one place pass after pass, over that at the start, by linear superposition: what a pass brings by itself, and what those
/// before it have left when it begins.
struct PassHeat {
  double own_J_m3 = 0;
  std::vector<double> before_J_m3;  // of each pass

  /// The most, where each pass brings such a share of it, and of what a point stands above the patch.
  double most_J_m3(const std::vector<double>& shares, double above_J_m3 = 0) const;
};

/// How the temperatures answer to what is not known: the heat held over that at the start as a product of powers of the uncertain
/// quantities, the powers found by reckoning the plan again with one of them changed. Heat is in proportion to the metal's share of the
/// beam, and temperatures, in steel that takes up more the hotter it is, are not; while the coat comes off, to the shares of the passes.
class HeatResponse {
 public:
  HeatResponse(const Work& work, const Assessment& assessed);

  /// The peaks of one draw; `passShares` of the beam's energy reach the metal in each pass, none where there is no coat.
  HeatPeaks peaks(const Drawn& drawn, const std::vector<double>& passShares) const;

 private:
  /// Powers of one place's heat.
  struct Powers {
    double spot = 0, front = 0, back = 0;
  };
  struct Variable {
    std::function<double(const Drawn&)> factor;
    Powers powers;
  };
  /// As the coat comes off.
  struct Stripping {
    PassHeat heat;
    double scale = 0;  // to what was assessed

    double most_J_m3(const std::vector<double>& shares, double above_J_m3 = 0) const { return scale * heat.most_J_m3(shares, above_J_m3); }
  };

  Stripping stripping(const std::vector<double>& passStart_s, const FaceHistory& trace, const std::vector<double>& face_C, double hottest_C,
                      double hottest_s, std::optional<double> assessed_C, const std::vector<double>& shares) const;
  std::vector<double> ofFull(std::vector<double> passShares) const;
  double held_J_m3(double temperature_C) const { return m_metal.enthalpy_J_m3(temperature_C) - m_startHeat; }
  double temperature_C(double held_J_m3) const { return m_metal.temperature_C(m_startHeat + held_J_m3); }

  double m_start;
  MetalEnthalpy m_metal;
  double m_startHeat;
  double m_boiling;
  double m_fullShare;  // that the assessed temperatures are reckoned with
  double m_flashRise = 0;
  double m_scorch = 1;  // rise of the equivalent temperature over the back's
  Stripping m_strippingFront, m_strippingBack;
  HeatPeaks m_assessed;
  std::function<double(const Drawn&)> m_spotRadius;  // over the assessed
  std::vector<Variable> m_variables;
};

}  // namespace bw

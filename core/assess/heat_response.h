// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/heat_work.h"
#include "core/assess/unknowns.h"
#include "core/heat/limits.h"

#include <functional>

namespace bw {

/// The rise of one place pass after pass, by linear superposition: what a pass brings by itself, and what those before it have left when it
/// begins.
struct PassRises {
  double own_K = 0;
  std::vector<double> before_K;  // of each pass

  /// The highest, where each pass brings such a share of it, and of what a point stands above the patch.
  double highest_K(const std::vector<double>& shares, double above_K = 0) const;
};

/// How the temperatures answer to what is not known: each rise over the start as a product of powers of the uncertain quantities, the
/// powers found by reckoning the plan again with one of them changed. Rises are in proportion to the metal's share of the beam; while the
/// coat comes off, to the shares of the passes.
class HeatResponse {
 public:
  HeatResponse(const Work& work, const Assessment& assessed);

  /// The peaks of one draw; `passShares` of the beam's energy reach the metal in each pass, none where there is no coat.
  HeatPeaks peaks(const Drawn& drawn, const std::vector<double>& passShares) const;

 private:
  /// Powers of one rise.
  struct Powers {
    double spot = 0, front = 0, back = 0;
  };
  struct Variable {
    std::function<double(const Drawn&)> factor;
    Powers powers;
  };
  /// As the coat comes off.
  struct Stripping {
    PassRises rises;
    double scale = 0;  // to what was assessed

    double rise_K(const std::vector<double>& shares, double above_K = 0) const { return scale * rises.highest_K(shares, above_K); }
  };

  Stripping stripping(const FaceHistory& trace, const std::vector<double>& face_C, double hottest_C, double hottest_s,
                      std::optional<double> assessed_C, const std::vector<double>& shares) const;
  std::vector<double> ofFull(std::vector<double> passShares) const;

  double m_start;
  double m_boiling;
  double m_fullShare;  // that the assessed temperatures are reckoned with
  double m_flashRise = 0;
  double m_scorch = 1;  // rise of the equivalent temperature over the back's
  std::vector<double> m_passStart_s;
  Stripping m_strippingFront, m_strippingBack;
  HeatPeaks m_assessed;
  std::function<double(const Drawn&)> m_spotRadius;  // over the assessed
  std::vector<Variable> m_variables;
};

}  // namespace bw

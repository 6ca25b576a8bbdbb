// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/heat_work.h"
#include "core/assess/unknowns.h"
#include "core/heat/limits.h"

namespace bw {

/// How the temperatures answer to what is not known: each rise over the start as a product of powers of the uncertain quantities, the
/// powers found by reckoning the plan again with one of them changed. Rises are in proportion to the metal's share of the beam.
class HeatResponse {
 public:
  HeatResponse(const Work& work, const ThermalResult& thermal);

  /// The peaks of one draw; `strippingShare` of the beam's energy reaches the metal through the coat.
  HeatPeaks peaks(const Drawn& drawn, double strippingShare) const;

 private:
  /// Powers of one rise.
  struct Powers {
    double spot = 0, front = 0, back = 0;
  };
  struct Variable {
    double Drawn::*factor;
    Powers powers;
  };
  double m_start;
  double m_boiling;
  double m_fullShare;  // that the assessed temperatures are reckoned with
  double m_flashRise = 0;
  double m_strippingFront = 0;  // rises as the coat comes off, and the share they go with
  double m_strippingBack = 0;
  double m_strippingShare = 0;
  HeatPeaks m_assessed;
  std::vector<Variable> m_variables;
};

}  // namespace bw

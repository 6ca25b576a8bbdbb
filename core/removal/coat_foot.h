// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/removal/coat_layer.h"

namespace bw {

/// The skin of a coat that sits on the metal, the bottom of its last layer. It takes up heat from the metal's face as late as heat
/// takes through the skin, delta^2/alpha (some 30 us in paint), rises to the removal temperature, stays there and goes on taking up heat;
/// once it holds what its layer leaves at, nothing holds the coat to the metal any more. So a short pulse's flash, which is over before the
/// skin has felt it, does not loosen a film; a continuous beam that keeps the metal hot for as long as it passes does. The rule is that of
/// all matter of the coat, heated from beneath.
class CoatFoot {
 public:
  explicit CoatFoot(const CoatLayer& last);

  double late_s() const { return m_late_s; }

  /// The metal's face has been so much above the start for so long.
  void follow(double faceRise_K, double time_s);
  bool letsGo() const { return m_held_K >= m_leaves_K; }

 private:
  void approach(double faceRise_K, double time_s);

  double m_removal_K;  // rise at which it stays
  double m_leaves_K;   // held when it goes, over its heat capacity
  double m_late_s;
  double m_held_K = 0;
};

}  // namespace bw

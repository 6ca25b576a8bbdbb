// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/coat_foot.h"

#include <algorithm>
#include <cmath>

namespace bw {

CoatFoot::CoatFoot(const CoatLayer& last)
    : m_removal_K(last.removalRise_K), m_leaves_K(std::max(last.removalRise_K, last.leavesAt_J_m3() / last.heatCapacity_J_m3K)) {
  const double skin = std::min(coatSkin_m, last.thickness_m / 2);
  m_late_s = skin * skin / last.diffusivity_m2_s;
}

/// Below the removal temperature.
void CoatFoot::approach(double faceRise_K, double time_s) { m_held_K += (faceRise_K - m_held_K) * -std::expm1(-time_s / m_late_s); }

void CoatFoot::follow(double faceRise_K, double time_s) {
  const double beyond = faceRise_K - m_removal_K;
  if (m_held_K < m_removal_K) {
    const double reaches_s = beyond > 0 ? m_late_s * std::log((faceRise_K - m_held_K) / beyond) : time_s;
    if (time_s <= reaches_s) return approach(faceRise_K, time_s);
    m_held_K = m_removal_K + beyond * (time_s - reaches_s) / m_late_s;
    return;
  }
  const double held = m_held_K + beyond * time_s / m_late_s;
  if (held >= m_removal_K) {
    m_held_K = held;
    return;
  }
  const double stays_s = (m_held_K - m_removal_K) * m_late_s / -beyond;
  m_held_K = m_removal_K;
  approach(faceRise_K, time_s - stays_s);
}

}  // namespace bw

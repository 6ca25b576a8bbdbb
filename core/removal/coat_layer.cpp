// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/coat_layer.h"

#include <algorithm>

namespace bw {

double CoatLayer::leavesAt_J_m3() const {
  return behaviour == Behaviour::Spalls ? std::min(removalEnthalpy_J_m3, sensibleEnthalpy_J_m3()) : removalEnthalpy_J_m3;
}

double CoatLayer::filmLimit_m() const { return std::min(std::max(coatSkin_m, 0.1 * opticalDepth_m), thickness_m / 2); }

bool CoatLayer::isRemnant(double left_m, bool onMetal) const {
  return left_m < (onMetal ? filmLimit_m() : std::min(coatSkin_m, thickness_m / 2));
}

KubelkaMunk CoatLayer::film(bool scorched) const {
  KubelkaMunk film = kubelkaMunkFrom(absorptance, opticalDepth_m);
  const double after = std::min(0.99, absorptanceAfterHeating);
  if (scorched && after > absorptance) film.absorption_1_m = film.scattering_1_m * after * after / (2 * (1 - after));
  return film;
}

}  // namespace bw

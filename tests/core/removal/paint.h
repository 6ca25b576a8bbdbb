// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/removal/coat_layer.h"

namespace bw::test {

/// A layer of paint as most tests want it.
inline CoatLayer paint(double thickness_m, double depth_m = 10e-6, double absorptance = 0.9) {
  CoatLayer layer;
  layer.thickness_m = thickness_m;
  layer.absorptance = absorptance;
  layer.opticalDepth_m = depth_m;
  layer.removalEnthalpy_J_m3 = 1.5e9;
  layer.ejectionTime_s = 200e-9;
  layer.diffusivity_m2_s = 1.5e-7;
  layer.heatCapacity_J_m3K = 2e6;
  layer.removalRise_K = 330;
  return layer;
}

}  // namespace bw::test

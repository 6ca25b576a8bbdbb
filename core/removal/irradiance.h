// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/removal/hit.h"

#include <vector>

namespace bw {

/// Light of constant irradiance for a while.
struct LightPiece {
  double from_s = 0;
  double duration_s = 0;
  double irradiance_W_m2 = 0;
};

/// What a place's hits are, in the order of time. Pulses take up `pulseDuration_s`; pieces of a continuous beam have their own.
std::vector<LightPiece> irradianceOf(const std::vector<Hit>& hits, double pulseDuration_s);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/removal/bare_metal.h"

namespace bw {

/// Round figures of a mild steel, for tests of the models; none of them is a check value.
inline BareMetal steel() {
  BareMetal metal;
  metal.absorptance = 0.5;
  metal.conductivity_W_mK = 50;
  metal.heatCapacity_J_m3K = 3.6e6;
  metal.melting_C = 1500;
  metal.boiling_C = 2860;
  metal.vaporisation_J_m3 = 67e9;
  return metal;
}

}  // namespace bw

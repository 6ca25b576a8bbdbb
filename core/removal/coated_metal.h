// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/removal/bare_metal.h"
#include "core/removal/coat_light.h"

#include <utility>

namespace bw {

/// A coat on metal as the models of removal see it: single values, and how light divides among them.
struct CoatedMetal {
  std::vector<CoatLayer> coat;  // top layer first
  BareMetal metal;
  CoatLight light;

  CoatedMetal(std::vector<CoatLayer> layers, const BareMetal& bare) : coat(std::move(layers)), metal(bare), light(coat, bare.absorptance) {}
};

}  // namespace bw

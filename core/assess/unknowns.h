// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/work.h"

#include <functional>
#include <string>
#include <vector>

namespace bw {

/// Everything uncertain at one draw.
struct Drawn {
  std::vector<LayerMaterial> coat;
  double metalAbsorptance = 0;
  double pace = 1;        // of the hand, over the plan's travel
  double offFocus_m = 0;  // of the head, from where it should be
  double etchFactor = 1;
  double thickness = 1;  // of the metal and what follows, over the likely
  double conductivity = 1;
  double heatCapacity = 1;
  double cooling = 1;     // by air and glow
  double pulseShape = 1;  // of the rise within a pulse
};

/// One thing that varies, and how to know it better.
struct Unknown {
  std::string what;
  std::string how;
  std::function<void(Drawn&, double score)> draw;
  bool movesPasses = true;
};

/// All that varies in a plan.
std::vector<Unknown> unknownsOf(const Work& work);

}  // namespace bw

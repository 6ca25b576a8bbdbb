// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/project.h"

namespace bw {

/// How many of the inputs that widen a prediction were measured: thickness of the metal and of each layer, power of the machine.
struct MeasuredCount {
  int measured = 0;
  int all = 0;
};

MeasuredCount countMeasured(const Project& project, const Machine* machine);

}  // namespace bw

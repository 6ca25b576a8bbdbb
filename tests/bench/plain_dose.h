// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/dose/repeat_cell.h"

#include <vector>

namespace bw {

/// The steady dose map of Gaussian spots as one would write it first: for every dab every cell within three spot radii, one
/// exponential each. What the program's own sum is measured against.
std::vector<double> plainSteadyMap(const std::vector<Dab>& dabs, double spotRadius_m, const RepeatCell& cell, Grid grid);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/dose/gaussian_canvas.h"

#include <vector>

namespace bw {

/// What a careful programmer writes who takes pulses one by one: every pulse stamped on the cells within three spot radii, floats, one
/// thread, all the compiler can do (-O3 -march=native -ffast-math: eight to sixteen exponentials at once). What the program's sum over
/// whole rows is measured against. The grid is not periodic.

/// One exponential a cell.
void stampEach(const CanvasGrid& grid, double spotRadius_m, const std::vector<DabRow>& rows, std::vector<float>& cells);

/// The tougher one: one exponential for every column and every row of the stamp, and their products.
void stampProducts(const CanvasGrid& grid, double spotRadius_m, const std::vector<DabRow>& rows, std::vector<float>& cells);

}  // namespace bw

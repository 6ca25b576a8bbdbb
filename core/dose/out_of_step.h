// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/dose/dose_result.h"
#include "core/dose/repeat_cell.h"

#include <cstdint>

namespace bw {

/// What becomes of the evenness when swaths do not start in step: fifteen draws of every swath's phase along the travel (spread evenly over
/// one advance; the seed fixes them), and swaths travelled back and forth in phase. Lowest, middle and highest are the 5, 50 and 95 %
/// places. `rows` of one frame, `backRows` of the same with the hand going the other way. Points at most half a spot radius apart.
/// Precondition: an advance of at least half a spot radius; below, the phase does not show.
OutOfStep outOfStep(const std::vector<DabRow>& rows, const std::vector<DabRow>& backRows, const SpotProfile& profile, const Footprint& spot,
                    const LitBounds& lit, const RepeatCell& cell, std::uint32_t seed, std::stop_token stop = {});

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assess.h"

#include <memory>
#include <vector>

/// A whole, plausible assessment made by hand, so that widgets can be tested and looked at without running the model.
/// The invented carriage side panel: 1.2 mm steel under five layers of paint. Dose figures come from a rough separable map and
/// agree with each other; removal and heat are drawn curves, not predictions.
namespace bw::fake {

Project panel();

/// Burning turnarounds, too wide a step-over, no waiting: fails in two places.
std::shared_ptr<const Assessment> firstGuess();

/// Beam off in the turns, swaths that overlap, a wait between passes.
std::shared_ptr<const Assessment> mended();

/// A continuous machine on the same panel: fields that only pulses have are empty, places and trace are few.
std::shared_ptr<const Assessment> continuous();

std::vector<Remedy> remedies();

}  // namespace bw::fake

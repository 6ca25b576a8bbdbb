// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <memory>

namespace bw::fake {

/// An assessment with everything that is found in depth, made by hand from what it holds: a map of what remains that follows the dose,
/// spreads of a fixed width about each single number, two influences, a still hand. Not a prediction.
Assessment deepened(const Assessment& first);

/// Three layers of 10, 20 and 30 um, the last kept; two by two points that lose 0, 5, 30 and 60 um with the first pass and all the rest
/// but the kept layer with the second. Rows of the verdict bear the names of the core.
Assessment threeLayers();

std::shared_ptr<const Assessment> shared(Assessment assessment);

}  // namespace bw::fake

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "core/library/recipe.h"

namespace bw {

/// The headline numbers of an assessment with their ranges, as a recipe keeps them; time and cost are those of the passes the work needs.
/// Without the look in depth they have no ranges.
Prediction predictionOf(const Assessment& assessment);

}  // namespace bw

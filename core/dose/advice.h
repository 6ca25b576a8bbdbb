// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <optional>

namespace bw {

/// Step-over of least ripple for this swath, between half its lit extent and the whole, in hundredths of it; of those within a twentieth
/// of the least ripple the widest. Swaths identical in direction and phase. Nothing for a swath narrower than five cells of its profile.
std::optional<double> evenStepOver(const SwathProfile& profile);

/// (max - min)/(max + min) of the swath summed with its neighbours at that step-over.
double rippleAt(const SwathProfile& profile, double stepOver_m);

}  // namespace bw

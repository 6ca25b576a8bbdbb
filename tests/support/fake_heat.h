// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "core/heat/part_map.h"

namespace bw::fake {

/// Adds to a drawn trace what the quick look tells of heat: curves bare and as the coat comes off, one frame in fine time, when each limit
/// is met, the flatness terms. Not a prediction.
void fillHeat(ThermalResult& thermal);

/// Adds what is found in depth: the still hand with its moments, a map of a part of 0.6 x 0.4 m over the whole job, ranges of the limits.
void deepenHeat(ThermalResult& thermal);

/// Three by two cells of 10 mm at three moments: 20 C all over; 20 to 70 C in steps of ten, the hand at (25, 15) mm; cooled to 30 C.
PartMap smallPart();

}  // namespace bw::fake

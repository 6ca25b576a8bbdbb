// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/part_map.h"

namespace bw {

/// The map of a part whose cells have heat of all ages: in cells of its first window, half the part's own. Throws Stopped.
PartMap windowMap(const WorkHeat& heat, int times, const std::stop_token& stop);

}  // namespace bw

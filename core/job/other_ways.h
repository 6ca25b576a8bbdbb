// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/job/job_result.h"
#include "core/materials/resolve.h"

#include <optional>
#include <vector>

namespace bw {

/// Other processes that would take this coat off and leave what shall stay, the least working time first; none where nothing is to come
/// off. Times per area and coat are common practice, no source: good for telling which way is worth asking about, not for a quote.
/// An hour of work is taken as dear as an hour of the machine, `hourlyCost`; waiting is not paid.
std::vector<OtherWay> otherWays(const std::vector<LayerMaterial>& coat, const Part& part, double area_m2, std::optional<double> hourlyCost);

}  // namespace bw

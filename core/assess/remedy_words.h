// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <string>
#include <vector>

namespace bw {

/// "+6 min", "-40 s", "no more time"; empty where it is not known.
std::string timeChange(const Assessment& before, const Assessment& after);

/// What a change brings to these checks, and what it costs: "ripple 60 % to 12 %, back face 183 to 146 °C, +6 min".
std::string effectOf(const std::vector<std::string>& checks, const Assessment& before, const Assessment& after);

}  // namespace bw

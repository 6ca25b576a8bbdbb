// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/work.h"

namespace bw {

/// How each row of the verdict came about: the formula in words, what was put in, and its source. Keyed by the row's check.
std::vector<Working> workingsOf(const Work& work, const Assessment& assessment);

}  // namespace bw

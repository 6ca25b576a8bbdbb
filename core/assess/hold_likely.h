// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

namespace bw {

/// Ranges hold the likely outcome, which is one of those that can be: the draws may lie all to one side of it, and few places stand for
/// all in them.
void holdLikely(const Assessment& likely, Ranges& ranges);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace bw {

/// Where a value comes from. Shown beside it as: don't know, typical, yours, measured, measured (patch).
enum class KnownFrom { Unknown, Typical, Guess, Gauge, Patch };

}  // namespace bw

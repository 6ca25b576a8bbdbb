// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace bw {

/// Lowest, middle and highest of several outcomes; of a sampled one what 5, 50 and 95 % of the samples stay below.
struct Spread {
  double low = 0;
  double middle = 0;
  double high = 0;
};

}  // namespace bw

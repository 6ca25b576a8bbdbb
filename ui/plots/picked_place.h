// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace bw {

/// A place in the repeat cell of the dose map.
struct PickedPlace {
  double across_m = 0;
  double along_m = 0;
};

}  // namespace bw

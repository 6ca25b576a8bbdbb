// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

namespace bw {

/// One pulse as a place on the part feels it.
struct Hit {
  double time_s = 0;  // from the beginning of the pass
  double fluence_J_m2 = 0;
  double duration_s = 0;  // of a piece of a continuous beam; 0 for a pulse
};

inline double doseOf(const std::vector<Hit>& hits) {
  double dose = 0;
  for (const Hit& hit : hits) dose += hit.fluence_J_m2;
  return dose;
}

}  // namespace bw

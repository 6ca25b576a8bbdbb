// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/irradiance.h"

namespace bw {

std::vector<LightPiece> irradianceOf(const std::vector<Hit>& hits, double pulseDuration_s) {
  std::vector<LightPiece> pieces;
  for (const Hit& hit : hits) {
    const double duration = hit.duration_s > 0 ? hit.duration_s : pulseDuration_s;
    pieces.push_back({hit.time_s, duration, hit.fluence_J_m2 / duration});
  }
  return pieces;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/work_heat.h"

namespace bw {

FacesRise patchMean(const PathHeat& near, const Point& place, double end_s, int samples) {
  const double patch = near.spotRadius_m() * near.spotRadius_m() / 4;
  FacesRise mean;
  for (int i = 0; i < samples; ++i) {
    const FacesRise rise = near.rise_K_W({place, end_s - patchTime_s * (i + 0.5) / samples, 0, patch});
    mean.front_K += rise.front_K / samples;
    mean.back_K += rise.back_K / samples;
  }
  return mean;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/work_heat.h"

#include <cmath>

namespace bw {

Faces WorkHeat::at(const HeatQuery& query) const {
  const Faces faces = with(query.place, query.time_s, m_near.rise_K_W(query));
  HeatQuery again = query;
  again.spreading = m_metal.diffusivity_m2_s(0.5 * (part_C(query.place, query.time_s) + faces.front_C)) / m_near.plate().diffusivity_m2_s();
  return std::abs(again.spreading - 1) < 0.01 ? faces : with(query.place, query.time_s, m_near.rise_K_W(again));
}

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

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/work_heat.h"

namespace bw {

/// What the part's cells have without near heat, which a part with windows has too.
double WorkHeat::handedOver_J_m3(const Point& place, double time_s, double spreading) const {
  const double all = m_part.at(place, time_s);
  if (!m_part.ofAllAges) return all;
  HeatQuery query{place, time_s};
  query.spreading = spreading;
  return all - m_power * m_near.plate().heatCapacity_J_m3K * m_near.evenRise_K_W(query);
}

double WorkHeat::spreading(const Point& place, double time_s) const {
  const double patch = m_near.spotRadius_m() * m_near.spotRadius_m();
  const Faces faces = with(place, time_s, m_near.rise_K_W({place, time_s, 0, patch, Smear::Frames}));
  return m_metal.diffusivity_m2_s(0.5 * (part_C(place, time_s) + faces.front_C)) / m_near.plate().diffusivity_m2_s();
}

Faces WorkHeat::at(const HeatQuery& query) const {
  HeatQuery warm = query;
  warm.spreading = spreading(query.place, query.time_s);
  return with(query.place, query.time_s, m_near.rise_K_W(warm));
}

Faces WorkHeat::patchAt(const Point& place, double end_s, const FrameShift& frames) const {
  return with(place, end_s, patchMean(m_near, place, end_s, spreading(place, end_s), frames));
}

FacesRise patchMean(const PathHeat& near, const Point& place, double end_s, double spreading, const FrameShift& frames) {
  HeatQuery query{place, end_s, 0, near.spotRadius_m() * near.spotRadius_m() / 4};
  query.window_s = patchTime_s;
  query.spreading = spreading;
  query.frames = frames;
  return near.rise_K_W(query);
}

}  // namespace bw

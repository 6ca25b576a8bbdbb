// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/part_heat.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

/// Share of a source spread evenly over [centre - width/2, centre + width/2] and then blurred with variance s^2 that arrives per metre at 0.
double blurredStrip(double centre, double width, double variance) {
  const double away = std::abs(centre) - width / 2;
  if (away > 0 && away * away > 50 * variance) return 0;
  const double root = std::sqrt(2 * variance);
  return 0.5 * (std::erf((centre + width / 2) / root) - std::erf((centre - width / 2) / root)) / width;
}

/// The same between insulated ends, `below` and `above` metres from 0, by images; a source blurred over the whole length is even.
double betweenEnds(double centre, double width, double variance, double below, double above) {
  const double length = below + above;
  if (variance > length * length) return 1 / length;
  double sum = 0;
  for (int image = -1; image <= 1; ++image) {
    const double shift = 2 * image * length;
    sum += blurredStrip(centre + shift, width, variance) + blurredStrip(2 * above - centre + shift, width, variance);
  }
  return sum;
}

constexpr int mostStrips = 400;  // neighbours taken one by one; beyond, the swaths are so narrow that groups of them do
constexpr int mostOlder = 200;   // older passes taken one by one; beyond, the oldest go with the last of them

}  // namespace

PartHeat::PartHeat(const Plate& plate, const Tour& tour) : m_plate(plate), m_tour(tour) {}

double PartHeat::rise_K_W(double time_s) const {
  const int pass = passAt(time_s);
  double sum = underBeam_K_W(time_s, pass) + neighbours_K_W(time_s, pass);
  if (pass > 0) sum += neighbours_K_W(time_s, pass - 1) + swaths_K_W(0, 1, time_s - m_tour.crossing_s(pass - 1));
  return sum + older_K_W(time_s, pass - 1);
}

double PartHeat::bump_K_W(double time_s) const { return underBeam_K_W(time_s, passAt(time_s)); }

double PartHeat::bumpWidth_m(double age_s) const {
  return std::hypot(m_tour.frameAcross_m, 2.355 * std::sqrt(2 * m_plate.diffusivity_m2_s() * age_s));
}

int PartHeat::passAt(double time_s) const {
  return std::clamp(static_cast<int>(std::floor(time_s / m_tour.passTime_s())), 0, m_tour.passes - 1);
}

/// Integral over the stroke's past, evenly in the logarithm of age: the moving rectangle seen from the middle of the stroke.
double PartHeat::underBeam_K_W(double time_s, int pass) const {
  const double crossing = m_tour.crossing_s(pass), half = m_tour.strokeTime_s() / 2;
  const double youngest = std::max({m_plate.mixingAge_s(), time_s - crossing - half, 1e-6});
  const double oldest = time_s - crossing + half;
  if (oldest <= youngest) return 0;
  const double alpha = m_plate.diffusivity_m2_s(), v = m_tour.travelSpeed_m_s;
  const double across = std::max(m_tour.frameAcross_m, 1e-4), along = std::max(m_tour.frameAlong_m, 1e-4);
  constexpr int steps = 96;
  const double dLog = std::log(oldest / youngest) / steps;
  double sum = 0;
  for (int i = 0; i < steps; ++i) {
    const double age = youngest * std::exp((i + 0.5) * dLog);
    const double variance = 2 * alpha * age, away = v * (time_s - age - crossing);
    sum += age * dLog * acrossShare_1_m(0, across, variance) * alongShare_1_m(away, along, variance) * std::exp(-m_plate.lossRate_1_s() * age);
  }
  return sum / (m_plate.heatCapacity_J_m3K * m_plate.thickness_m);
}

double PartHeat::acrossShare_1_m(double centre_m, double width_m, double variance_m2) const {
  const double worked = m_tour.swaths * m_tour.stepOver_m, part = std::max(m_tour.partAcross_m, worked);
  const double toEdge = (part - worked) / 2 + m_tour.stepOver_m / 2;  // from the last swath's middle
  return betweenEnds(centre_m, width_m, variance_m2, part - toEdge, toEdge);
}

double PartHeat::alongShare_1_m(double centre_m, double length_m, double variance_m2) const {
  const double half = std::max(m_tour.partAlong_m, m_tour.strokeLength_m) / 2;
  return betweenEnds(centre_m, length_m, variance_m2, half, half);
}

/// Whole swaths of an earlier time, side by side, as a rectangle laid down at once; `nearest` swaths from the last one.
double PartHeat::swaths_K_W(int nearest, int count, double age_s) const {
  if (age_s <= 0) return 0;
  const double variance = 2 * m_plate.diffusivity_m2_s() * age_s, width = count * m_tour.stepOver_m;
  const double centre = -nearest * m_tour.stepOver_m - (width - m_tour.stepOver_m) / 2;
  return count * m_tour.strokeTime_s() / (m_plate.heatCapacity_J_m3K * m_plate.thickness_m) * std::exp(-m_plate.lossRate_1_s() * age_s) *
         acrossShare_1_m(centre, width, variance) * alongShare_1_m(0, m_tour.strokeLength_m, variance);
}

double PartHeat::neighbours_K_W(double time_s, int pass) const {
  const int neighbours = m_tour.swaths - 1, group = neighbours / mostStrips + 1;
  double sum = 0;
  for (int k = 1; k <= neighbours; k += group) {
    const int members = std::min(group, neighbours - k + 1);
    const int middle = k + (members - 1) / 2;
    sum += swaths_K_W(k, members, time_s - m_tour.crossing_s(pass) + middle * m_tour.strokeTime_s());
  }
  return sum;
}

/// Passes 0 .. before-1, each laid down at once over the worked area.
double PartHeat::older_K_W(double time_s, int before) const {
  const double lit = m_tour.swaths * m_tour.strokeTime_s();
  const int taken = std::min(before, mostOlder);
  double sum = 0;
  for (int back = 1; back <= taken; ++back) {
    const int alike = back == taken ? before - taken + 1 : 1;
    sum += alike * swaths_K_W(0, m_tour.swaths, time_s - (before - back) * m_tour.passTime_s() - lit / 2);
  }
  return sum;
}

}  // namespace bw

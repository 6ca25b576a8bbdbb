// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/part_heat.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

/// Share of a source spread evenly over [centre - width/2, centre + width/2] and then blurred with variance s^2 that arrives per metre at 0.
double blurredStrip(double centre, double width, double variance) {
  const double root = std::sqrt(2 * variance);
  return 0.5 * (std::erf((centre + width / 2) / root) - std::erf((centre - width / 2) / root)) / width;
}

constexpr int mostStrips = 400;  // neighbours taken one by one; beyond, the swaths are so narrow that groups of them do

}  // namespace

PartHeat::PartHeat(const Plate& plate, const Tour& tour) : m_plate(plate), m_tour(tour) {}

double PartHeat::rise_K_W(double time_s) const {
  const int pass = passAt(time_s);
  return underBeam_K_W(time_s, pass) + neighbours_K_W(time_s, pass) + (pass > 0 ? neighbours_K_W(time_s, pass - 1) : 0) +
         (pass > 0 ? strip_K_W(0, time_s - m_tour.crossing_s(pass - 1)) : 0) + older_K_W(time_s, pass - 1);
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
    sum += age * dLog * blurredStrip(0, across, variance) * blurredStrip(away, along, variance) * std::exp(-m_plate.lossRate_1_s() * age);
  }
  return sum / (m_plate.heatCapacity_J_m3K * m_plate.thickness_m);
}

/// A whole swath of an earlier stroke as a strip laid down at once, with its images in the part's edges.
double PartHeat::strip_K_W(int swathsAway, double age_s) const {
  if (age_s <= 0) return 0;
  const double width = m_tour.stepOver_m, part = std::max(m_tour.partAcross_m, m_tour.swaths * width);
  const double perWatt = 1 / (m_plate.heatCapacity_J_m3K * m_plate.thickness_m * m_tour.travelSpeed_m_s);  // K m per W, spread over width
  const double fading = perWatt * std::exp(-m_plate.lossRate_1_s() * age_s);
  const double variance = 2 * m_plate.diffusivity_m2_s() * age_s;
  if (variance > part * part) return fading / part;
  const double toEdge = (part - m_tour.swaths * width) / 2 + width / 2;  // from this swath's middle to the near edge
  double sum = 0;
  for (int image = -1; image <= 1; ++image) {
    const double away = swathsAway * width + 2 * image * part;
    sum += blurredStrip(away, width, variance) + blurredStrip(away + 2 * toEdge, width, variance);
  }
  return fading * sum;
}

double PartHeat::neighbours_K_W(double time_s, int pass) const {
  const int neighbours = m_tour.swaths - 1, group = neighbours / mostStrips + 1;
  double sum = 0;
  for (int k = 1; k <= neighbours; k += group) {
    const int members = std::min(group, neighbours - k + 1);
    const int middle = k + (members - 1) / 2;
    sum += members * strip_K_W(middle, time_s - m_tour.crossing_s(pass) + middle * m_tour.strokeTime_s());
  }
  return sum;
}

/// Passes 0 .. before-1 spread over the whole part, as a geometric series in the loss between passes.
double PartHeat::older_K_W(double time_s, int before) const {
  if (before <= 0) return 0;
  const double lit = m_tour.swaths * m_tour.strokeTime_s();
  const double capacity = m_plate.heatCapacity_J_m3K * m_plate.thickness_m * m_tour.partAcross_m * m_tour.partAlong_m;
  const double loss = m_plate.lossRate_1_s(), period = m_tour.passTime_s();
  const double newestAge = time_s - (before - 1) * period - lit / 2;
  const double q = std::exp(-loss * period);
  const double series = 1 - q > 1e-12 ? (1 - std::pow(q, before)) / (1 - q) : before;
  return lit / capacity * std::exp(-loss * newestAge) * series;
}

}  // namespace bw

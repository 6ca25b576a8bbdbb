// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/path_heat.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double pieceLength = 0.7;  // of the blurred spot
constexpr double pieceGrowth = 0.1;  // of its variance, while a piece ages
constexpr double firstPiece = 0.15;  // of a full one; then as long as the age, up to a full one
constexpr double mergedFrom = 4;     // pulse periods: younger pulses are taken one by one

double topSpeed(const Frame& frame, double travel_m_s) {
  double speed = 0;
  for (const Stretch& stretch : frame.stretches()) speed = std::max(speed, stretch.topSpeed_m_s());
  return speed + travel_m_s;
}

}  // namespace

PathHeat::PathHeat(const Frame& frame, const Travel& travel, const Emission& emission, double spotRadius_m, const Plate& plate, double oldest_s)
    : m_frame(frame), m_travel(travel), m_period(emission.pulsed ? 1 / emission.rate_Hz : 0), m_radius(spotRadius_m), m_plate(plate),
      m_oldest(std::min(oldest_s, plate.mixingAge_s())), m_speed(topSpeed(frame, travel.speed_m_s())) {}

/// Walks into the past piece by piece and hands over (age, integral of 1/sqrt(age), squared distance from the place).
template <class Visit>
void PathHeat::eachPiece(const HeatQuery& query, Visit visit) const {
  const double framePeriod = m_frame.period_s();
  double age = std::max(query.youngest_s - m_period / 2, 0.0);
  const Stretch* stretch = nullptr;
  while (age < m_oldest) {
    const double longest = longestPiece_s(age, query.patchVariance_m2);
    const bool single = m_period > 0 && (age < mergedFrom * m_period || longest < 2 * m_period);
    const double length = single ? m_period : m_period > 0 ? m_period * std::floor(longest / m_period) : longest;
    const double next = std::min(age + length, m_oldest);
    const double root = std::sqrt(age), nextRoot = std::sqrt(next);
    const double middle = single ? age + m_period / 2 : 0.25 * (root + nextRoot) * (root + nextRoot);
    const double then = query.time_s - middle;
    const double inFrame = then - framePeriod * std::floor(then / framePeriod);
    if (!stretch || inFrame < stretch->begin_s || inFrame >= stretch->begin_s + stretch->duration_s) stretch = &m_frame.stretchAt(inFrame);
    if (stretch->lit) {
      const Point beam = m_travel.onPart(stretch->at(inFrame - stretch->begin_s), then);
      visit(middle, single ? m_period / std::sqrt(middle) : 2 * (nextRoot - root), (beam - query.place).squaredNorm());
    }
    age = next;
  }
}

double PathHeat::longestPiece_s(double age_s, double patchVariance_m2) const {
  const double alpha = m_plate.diffusivity_m2_s(), L = m_plate.thickness_m;
  const double variance = m_radius * m_radius / 4 + patchVariance_m2 + 2 * alpha * age_s;
  const double full = std::min(pieceLength * std::sqrt(variance) / m_speed, pieceGrowth * std::min(variance, L * L / 2) / (2 * alpha));
  return std::min(full, std::max(firstPiece * full, age_s));
}

double PathHeat::images(double age_s, double depth_m) const {
  const double spread = 4 * m_plate.diffusivity_m2_s() * age_s, L = m_plate.thickness_m;
  double sum = 0;
  for (int m = -3; m <= 3; ++m) {
    const double z = depth_m - 2 * m * L;
    if (z == 0) sum += 1;
    else if (z * z < 40 * spread) sum += std::exp(-z * z / spread);
  }
  return sum;
}

FacesRise PathHeat::rise_K_W(const HeatQuery& query) const {
  const double alpha = m_plate.diffusivity_m2_s(), start = m_radius * m_radius / 4 + query.patchVariance_m2;
  const double scale = 2 / (m_plate.heatCapacity_J_m3K * std::sqrt(4 * pi * alpha));
  FacesRise rise;
  eachPiece(query, [&](double age, double weight, double distance2) {
    const double variance = start + 2 * alpha * age;
    if (distance2 > 40 * variance) return;
    const double flat = scale * weight * std::exp(-distance2 / (2 * variance)) / (2 * pi * variance);
    rise.front_K += flat * images(age, 0);
    rise.back_K += flat * images(age, m_plate.thickness_m);
  });
  return rise;
}

double PathHeat::riseAtDepth_K_W(const HeatQuery& query, double depth_m) const {
  const double alpha = m_plate.diffusivity_m2_s(), start = m_radius * m_radius / 4 + query.patchVariance_m2;
  const double scale = 2 / (m_plate.heatCapacity_J_m3K * std::sqrt(4 * pi * alpha));
  double rise = 0;
  eachPiece(query, [&](double age, double weight, double distance2) {
    const double variance = start + 2 * alpha * age;
    rise += scale * weight * std::exp(-distance2 / (2 * variance)) / (2 * pi * variance) * images(age, depth_m);
  });
  return rise;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scan/path.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace bw {

namespace {

double pieceCount(const Stretch& stretch, const Travel& travel, double longest_m) {
  return std::max(1.0, std::ceil((stretch.topSpeed_m_s() + travel.speed_m_s()) * stretch.duration_s / longest_m));
}

std::vector<Dab> pulsesOf(const Frame& frame, const Travel& travel, const Emission& emission) {
  std::vector<Dab> dabs;
  dabs.reserve(static_cast<std::size_t>(frame.period_s() * frame.litFraction() * emission.rate_Hz) + 16);
  const double energy = emission.meanPower_W / emission.rate_Hz;
  std::int64_t k = 0;
  for (const Stretch& stretch : frame.stretches()) {
    const double end = stretch.begin_s + stretch.duration_s;
    // The tolerance keeps a pulse that falls on a boundary from being fired twice or lost to rounding.
    for (double t = static_cast<double>(k) / emission.rate_Hz; t < end * (1 - 1e-13); t = static_cast<double>(++k) / emission.rate_Hz) {
      if (stretch.lit) dabs.push_back({travel.onPart(stretch.at(t - stretch.begin_s), t), t, energy});
    }
  }
  return dabs;
}

std::vector<Dab> piecesOf(const Frame& frame, const Travel& travel, const Emission& emission, double longest_m) {
  std::vector<Dab> dabs;
  for (const Stretch& stretch : frame.stretches()) {
    if (!stretch.lit) continue;
    const auto count = static_cast<int>(pieceCount(stretch, travel, longest_m));
    const double dt = stretch.duration_s / count;
    for (int i = 0; i < count; ++i) {
      const double t = (i + 0.5) * dt;
      dabs.push_back({travel.onPart(stretch.at(t), stretch.begin_s + t), stretch.begin_s + t, emission.meanPower_W * dt});
    }
  }
  return dabs;
}

}  // namespace

Travel::Travel(double speed_m_s, double angle_rad)
    : m_speed(speed_m_s), m_across(std::sin(angle_rad), -std::cos(angle_rad)), m_along(std::cos(angle_rad), std::sin(angle_rad)) {}

double dabCount(const Frame& frame, const Travel& travel, const Emission& emission, double spotRadius_m) {
  if (emission.pulsed) return frame.period_s() * emission.rate_Hz;
  double count = 0;
  for (const Stretch& stretch : frame.stretches()) count += stretch.lit ? pieceCount(stretch, travel, spotRadius_m / 2) : 0;
  return count;
}

std::vector<Dab> dabsOf(const Frame& frame, const Travel& travel, const Emission& emission, double spotRadius_m) {
  return emission.pulsed ? pulsesOf(frame, travel, emission) : piecesOf(frame, travel, emission, spotRadius_m / 2);
}

LitBounds litBounds(const Frame& frame, const Travel& travel) {
  LitBounds bounds{Point::Constant(std::numeric_limits<double>::infinity()), Point::Constant(-std::numeric_limits<double>::infinity())};
  constexpr int samples = 8;  // even: the summit of a turn is one of them
  for (const Stretch& stretch : frame.stretches()) {
    for (int i = 0; i <= samples && stretch.lit; ++i) {
      const Point place = travel.onPart(stretch.at(stretch.duration_s * i / samples), 0);
      bounds.low = bounds.low.cwiseMin(place);
      bounds.high = bounds.high.cwiseMax(place);
    }
  }
  return bounds;
}

}  // namespace bw

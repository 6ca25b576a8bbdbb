// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/part_field.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace bw {

namespace {

/// Weights of the four neighbours of a point a share f beyond the second (Catmull-Rom).
std::array<double, 4> cubic(double f) {
  const double f2 = f * f, f3 = f2 * f;
  return {-0.5 * f3 + f2 - 0.5 * f, 1.5 * f3 - 2.5 * f2 + 1, -1.5 * f3 + 2 * f2 + 0.5 * f, 0.5 * f3 - 0.5 * f2};
}

int mirrored(int i, int count) {
  if (i < 0) i = -1 - i;
  if (i >= count) i = 2 * count - 1 - i;
  return std::clamp(i, 0, count - 1);
}

}  // namespace

double PartField::inField(std::size_t step, const Point& place) const {
  const double x = place.x() / cell_m.x() - 0.5, y = place.y() / cell_m.y() - 0.5;
  const int i = static_cast<int>(std::floor(x)), j = static_cast<int>(std::floor(y));
  const auto wx = cubic(x - i), wy = cubic(y - j);
  const std::vector<float>& field = enthalpy_J_m3[step];
  double sum = 0;
  for (int b = 0; b < 4; ++b) {
    const auto row = static_cast<std::size_t>(mirrored(j - 1 + b, along)) * static_cast<std::size_t>(across);
    double line = 0;
    for (int a = 0; a < 4; ++a)
      line += wx[static_cast<std::size_t>(a)] * static_cast<double>(field[row + static_cast<std::size_t>(mirrored(i - 1 + a, across))]);
    sum += wy[static_cast<std::size_t>(b)] * line;
  }
  return sum;
}

double PartField::at(const Point& place, double time) const {
  const Point inside = place.cwiseMax(Point::Zero()).cwiseMin(Point(across * cell_m.x(), along * cell_m.y()));
  const auto after = static_cast<std::size_t>(std::ranges::upper_bound(time_s, time) - time_s.begin());
  if (after == 0) return inField(0, inside);
  if (after == time_s.size()) return inField(after - 1, inside);
  const std::size_t b = after, a = after - 1;
  const double span = time_s[b] - time_s[a], f = (time - time_s[a]) / span;
  const double ha = inField(a, inside), hb = inField(b, inside);
  const double straight = (hb - ha) / span;
  // Slopes right for a parabola through unevenly spaced times, but never so steep that the curve would swing beyond its ends (Fritsch and
  // Carlson, SIAM J. Numer. Anal. 17 (1980) 238): heat that begins to come must not dip first.
  const auto slope = [&](std::size_t at, double near, std::size_t other, double far) {
    const double away = std::abs(time_s[other] - time_s[at]), outer = (near - far) / (time_s[at] - time_s[other]);
    if (outer * straight <= 0) return 0.0;
    const double most = 3 * std::min(std::abs(outer), std::abs(straight));
    return std::clamp((straight * away + outer * span) / (away + span), -most, most);
  };
  const double sa = a > 0 ? slope(a, ha, a - 1, inField(a - 1, inside)) : straight;
  const double sb = b + 1 < time_s.size() ? slope(b, hb, b + 1, inField(b + 1, inside)) : straight;
  const double f2 = f * f, f3 = f2 * f;
  return (2 * f3 - 3 * f2 + 1) * ha + (f3 - 2 * f2 + f) * span * sa + (3 * f2 - 2 * f3) * hb + (f3 - f2) * span * sb;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/part_field.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace bw {

namespace {

/// Weights of six cells' means for a point a share f beyond the third's middle: the means give what the points at the middles are (to
/// fourth order), and these a Catmull-Rom curve.
std::array<double, 6> weights(double f) {
  const double f2 = f * f, f3 = f2 * f;
  const std::array<double, 4> points{-0.5 * f3 + f2 - 0.5 * f, 1.5 * f3 - 2.5 * f2 + 1, -1.5 * f3 + 2 * f2 + 0.5 * f, 0.5 * f3 - 0.5 * f2};
  std::array<double, 6> cells{};
  for (std::size_t i = 0; i < 4; ++i) {
    cells[i] -= points[i] / 24;
    cells[i + 1] += points[i] * 26 / 24;
    cells[i + 2] -= points[i] / 24;
  }
  return cells;
}

/// The six cells around a place on one axis; at a window's border, where heat has spread over many of them, the nearest two.
struct Six {
  std::array<int, 6> cell{};
  std::array<double, 6> weight{};
  bool inside = true;

  Six(double place, double cell_m, int part, int first, int count) {
    const double x = place / cell_m - 0.5;
    const int i = static_cast<int>(std::floor(x));
    const auto at = [&](int neighbour) { return mirrored(i + neighbour, part) - first; };
    const auto has = [&](int neighbour) { return at(neighbour) >= 0 && at(neighbour) < count; };
    inside = has(0) && has(1);
    if (!inside) return;
    const bool six = has(-2) && has(-1) && has(2) && has(3);
    if (six)
      weight = weights(x - i);
    else
      weight = {0, 0, 1 - (x - i), x - i, 0, 0};
    for (int a = 0; a < 6; ++a) cell[static_cast<std::size_t>(a)] = std::clamp(at(a - 2), 0, count - 1);
  }
};

std::optional<double> valueIn(const std::vector<float>& cells, const CellRange& range, const CellRange& part, const Point& cell_m,
                              const Point& place) {
  const Six x(place.x(), cell_m.x(), part.across, range.firstAcross, range.across);
  const Six y(place.y(), cell_m.y(), part.along, range.firstAlong, range.along);
  if (!x.inside || !y.inside) return std::nullopt;
  double sum = 0;
  for (std::size_t b = 0; b < 6; ++b) {
    const float* line = cells.data() + static_cast<std::size_t>(y.cell[b]) * static_cast<std::size_t>(range.across);
    double there = 0;
    for (std::size_t a = 0; a < 6; ++a) there += x.weight[a] * static_cast<double>(line[x.cell[a]]);
    sum += y.weight[b] * there;
  }
  return sum;
}

/// Between two of a row of times; `value(i)` may have nothing beside these two.
template <class Value>
double between(const std::vector<double>& time_s, std::size_t a, double ha, double hb, double time, Value value) {
  const std::size_t b = a + 1;
  const double span = time_s[b] - time_s[a], f = (time - time_s[a]) / span, straight = (hb - ha) / span;
  // Slopes right for a parabola through unevenly spaced times, but never so steep that the curve would swing beyond its ends (Fritsch and
  // Carlson, SIAM J. Numer. Anal. 17 (1980) 238): heat that begins to come must not dip first.
  const auto slope = [&](std::size_t at, double near, std::size_t other, const std::optional<double>& far) {
    if (!far) return straight;
    const double away = std::abs(time_s[other] - time_s[at]), outer = (near - *far) / (time_s[at] - time_s[other]);
    if (outer * straight <= 0) return 0.0;
    const double most = 3 * std::min(std::abs(outer), std::abs(straight));
    return std::clamp((straight * away + outer * span) / (away + span), -most, most);
  };
  const double sa = a > 0 ? slope(a, ha, a - 1, value(a - 1)) : straight;
  const double sb = b + 1 < time_s.size() ? slope(b, hb, b + 1, value(b + 1)) : straight;
  const double f2 = f * f, f3 = f2 * f;
  return (2 * f3 - 3 * f2 + 1) * ha + (f3 - 2 * f2 + f) * span * sa + (3 * f2 - 2 * f3) * hb + (f3 - f2) * span * sb;
}

std::optional<double> inWindow(const PartField::Window& window, const Point& place, double time) {
  const auto& times = window.time_s;
  const auto after = static_cast<std::size_t>(std::ranges::upper_bound(times, time) - times.begin());
  if (after == 0) return std::nullopt;
  const auto value = [&](std::size_t i) {
    return valueIn(window.moments[i].enthalpy_J_m3, window.moments[i].cells, window.part, window.cell_m, place);
  };
  if (time == times[after - 1]) return value(after - 1);
  if (after == times.size() || !window.moments[after].follows) return std::nullopt;
  const std::optional<double> a = value(after - 1), b = value(after);
  if (!a || !b) return std::nullopt;
  return between(times, after - 1, *a, *b, time, [&](std::size_t i) {
    const bool joined = i > after ? window.moments[i].follows : window.moments[after - 1].follows;
    return joined ? value(i) : std::nullopt;
  });
}

}  // namespace

double PartField::at(const Point& place, double time) const {
  const Point inside = place.cwiseMax(Point::Zero()).cwiseMin(Point(across * cell_m.x(), along * cell_m.y()));
  for (auto window = windows.rbegin(); window != windows.rend(); ++window)
    if (const auto found = inWindow(*window, inside, time)) return *found;
  const CellRange part{0, 0, across, along};
  const auto value = [&](std::size_t step) { return valueIn(enthalpy_J_m3[step], part, part, cell_m, inside); };
  const auto after = static_cast<std::size_t>(std::ranges::upper_bound(time_s, time) - time_s.begin());
  if (after == 0) return value(0).value_or(0);
  if (after == time_s.size()) return value(after - 1).value_or(0);
  return between(time_s, after - 1, value(after - 1).value_or(0), value(after).value_or(0), time, value);
}

}  // namespace bw

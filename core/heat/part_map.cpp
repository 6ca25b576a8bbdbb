// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/part_map.h"

#include "core/heat/window_map.h"
#include "core/heat/work_heat.h"
#include "core/values/stopped.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

/// The stroke under way at a time, or nothing.
const TourStroke* strokeAt(const HandTour& tour, double time_s) {
  auto after = std::ranges::upper_bound(tour.strokes, time_s, {}, &TourStroke::begin_s);
  if (after == tour.strokes.begin()) return nullptr;
  const TourStroke& stroke = *--after;
  return time_s <= stroke.end_s ? &stroke : nullptr;
}

/// How many swaths go over one cell, side by side.
double swathsInCell(const HandTour& tour, double cell_m) {
  if (tour.strokes.size() < 2) return 1;
  const double apart = std::abs(tour.strokes[1].start.x() - tour.strokes[0].start.x());
  return apart > 0 ? std::max(1.0, cell_m / apart) : 1;
}

/// Times between two steps of the grid, so many that the hand moves by no more than a cell, or that one of the swaths that go over a cell
/// is met over it. The heat of passes builds up, or falls as the coat goes: those between the first few and the last are not looked at so
/// closely.
int momentsIn(const HandTour& tour, double from_s, double to_s, double cell_m) {
  constexpr int passesLooked = 3;  // at the beginning and at the end
  const TourStroke* stroke = strokeAt(tour, to_s);
  if (stroke && stroke->pass >= passesLooked && stroke->pass <= tour.strokes.back().pass - passesLooked) return 1;
  const double way = stroke ? std::abs(stroke->speed_m_s) * (to_s - from_s) : 0;
  return std::clamp(static_cast<int>(std::ceil(way / (cell_m * swathsInCell(tour, cell_m)))), 1, 64);
}

class MapMaker {
 public:
  explicit MapMaker(const WorkHeat& heat) : m_heat(heat), m_part(heat.part()) {
    m_map.columns = m_part.across;
    m_map.rows = m_part.along;
    m_map.cellX_m = m_part.cell_m.x();
    m_map.cellY_m = m_part.cell_m.y();
    m_map.highest_C.assign(m_part.enthalpy_J_m3.front().size(), -1e30F);
    m_map.highestAt_s.assign(m_map.highest_C.size(), 0);
  }

  PartMap make(int times, const std::stop_token& stop) {
    const std::size_t steps = m_part.time_s.size();
    const double every = std::max(1.0, static_cast<double>(steps - 1) / std::max(1, times - 1));
    double next = 0;
    for (std::size_t step = 0; step < steps; ++step) {
      throwIfStopped(stop);
      const double now = m_part.time_s[step], before = step > 0 ? m_part.time_s[step - 1] : now;
      const int moments = momentsIn(m_heat.near().tour(), before, now, m_part.cell_m.minCoeff());
      for (int i = 1; i <= moments; ++i) raise(step, std::lerp(before, now, static_cast<double>(i) / moments));
      if (static_cast<double>(step) + 1e-6 < next && step + 1 < steps) continue;
      keep(now);
      next += every;
    }
    return std::move(m_map);
  }

 private:
  /// m_now becomes the map at a time up to a step; the grid straight between its steps, so that near heat joins it without a gap.
  void raise(std::size_t step, double time_s) {
    const auto cells = m_map.highest_C.size();
    m_rise.assign(cells, 0);
    m_heat.near().addMeans_K_W(time_s, m_part.across, m_part.along, m_part.cell_m, m_rise);
    m_now.resize(cells);
    const std::vector<float>&after = m_part.enthalpy_J_m3[step], &before = m_part.enthalpy_J_m3[step > 0 ? step - 1 : 0];
    const double span = step > 0 ? m_part.time_s[step] - m_part.time_s[step - 1] : 1;
    const double share = step > 0 ? (time_s - m_part.time_s[step - 1]) / span : 1;
    for (std::size_t k = 0; k < cells; ++k) {
      const double under = std::lerp(static_cast<double>(before[k]), static_cast<double>(after[k]), share);
      m_now[k] = static_cast<float>(m_heat.withEnthalpy_C(under, m_rise[k]));
      if (m_now[k] <= m_map.highest_C[k]) continue;
      m_map.highest_C[k] = m_now[k];
      m_map.highestAt_s[k] = static_cast<float>(time_s);
    }
  }

  void keep(double time_s) {
    m_map.time_s.push_back(time_s);
    m_map.temperature_C.push_back(m_now);
    m_map.hand_m.push_back(handAt(m_heat.near().tour(), time_s));
  }

  const WorkHeat& m_heat;
  const PartField& m_part;
  PartMap m_map;
  std::vector<double> m_rise;
  std::vector<float> m_now;
};

/// Where the tour's axes point in the part's.
struct Turn {
  bool alongY;
  bool forth;  // along +y, or +x
};

Turn turnOf(double angle_rad) {
  const double s = std::sin(angle_rad), c = std::cos(angle_rad);
  const bool alongY = std::abs(s) >= std::abs(c);
  return {alongY, alongY ? s > 0 : c > 0};
}

}  // namespace

std::optional<std::array<double, 2>> handAt(const HandTour& tour, double time_s) {
  const TourStroke* stroke = strokeAt(tour, time_s);
  if (!stroke) return std::nullopt;
  const Point hand = stroke->middleAt(time_s);
  return std::array{hand.x(), hand.y()};
}

PartMap partMap(const WorkHeat& heat, int times, const std::stop_token& stop) {
  return heat.part().ofAllAges ? windowMap(heat, times, stop) : MapMaker(heat).make(times, stop);
}

std::array<double, 2> inPartAxes(const std::array<double, 2>& at, const std::array<double, 2>& size, double angle_rad) {
  const Turn turn = turnOf(angle_rad);
  if (turn.alongY) return turn.forth ? at : std::array{size[0] - at[0], size[1] - at[1]};
  return turn.forth ? std::array{at[1], size[1] - at[0]} : std::array{size[0] - at[1], at[0]};
}

PartMap inPartAxes(const PartMap& map, double angle_rad) {
  const Turn turn = turnOf(angle_rad);
  if (turn.alongY && turn.forth) return map;
  PartMap out = map;
  if (!turn.alongY) {
    std::swap(out.columns, out.rows);
    std::swap(out.cellX_m, out.cellY_m);
  }
  const auto turned = [&](const std::vector<float>& field) {
    std::vector<float> result(field.size());
    for (int row = 0; row < map.rows; ++row) {
      for (int column = 0; column < map.columns; ++column) {
        int x = turn.alongY ? map.columns - 1 - column : turn.forth ? row : map.rows - 1 - row;
        int y = turn.alongY ? map.rows - 1 - row : turn.forth ? map.columns - 1 - column : column;
        result[static_cast<std::size_t>(y) * static_cast<std::size_t>(out.columns) + static_cast<std::size_t>(x)] =
            field[static_cast<std::size_t>(row) * static_cast<std::size_t>(map.columns) + static_cast<std::size_t>(column)];
      }
    }
    return result;
  };
  for (auto& field : out.temperature_C) field = turned(field);
  out.highest_C = turned(map.highest_C);
  out.highestAt_s = turned(map.highestAt_s);
  const std::array size{out.columns * out.cellX_m, out.rows * out.cellY_m};
  for (auto& hand : out.hand_m)
    if (hand) hand = inPartAxes(*hand, size, angle_rad);
  return out;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/radial_canvas.h"

#include <algorithm>
#include <cmath>

namespace bw {

RadialTables::RadialTables(const SpotProfile& profile)
    : m_reach(std::pow(GaussianCanvas::cut, 2 / profile.exponent())), m_peak(profile.peakPerWatt_1_m2(1)) {
  for (int i = 0; i <= entries + 1; ++i) m_value.push_back(profile.relative(m_reach * std::sqrt(static_cast<double>(i) / entries)));
  const double step = 2 * m_reach / lines;
  for (int j = 0; j <= lines + 1; ++j) {
    const double v = m_reach * j / lines;
    double sum = 0;
    for (int i = 0; i <= lines + 1; ++i) {
      m_summed.push_back(sum);
      constexpr int pieces = 4;  // midpoint rule in each
      for (int n = 0; n < pieces; ++n) {
        const double u = -m_reach + (i + (n + 0.5) / pieces) * step;
        sum += at(v * v + u * u) * step / pieces;
      }
    }
  }
}

double RadialTables::at(double squared) const {
  const double place = squared / (m_reach * m_reach) * entries;
  if (place >= entries) return 0;
  const auto i = static_cast<std::size_t>(place);
  return m_value[i] + (place - static_cast<double>(i)) * (m_value[i + 1] - m_value[i]);
}

double RadialTables::upTo(double v, double u) const {
  const double row = std::abs(v) / m_reach * lines, column = std::clamp((u + m_reach) / (2 * m_reach), 0.0, 1.0) * lines;
  if (row >= lines) return 0;
  const auto j = static_cast<std::size_t>(row), i = static_cast<std::size_t>(column);
  const double down = row - static_cast<double>(j), right = column - static_cast<double>(i);
  const double* at = &m_summed[j * (lines + 2) + i];
  return std::lerp(std::lerp(at[0], at[1], right), std::lerp(at[lines + 2], at[lines + 3], right), down);
}

RadialCanvas::RadialCanvas(const CanvasGrid& grid, const Footprint& spot, const RadialTables& tables, std::span<float> cells, int firstRow,
                           int endRow)
    : m_grid(grid),
      m_spot(spot),
      m_tables(tables),
      m_cells(cells),
      m_firstRow(firstRow),
      m_endRow(endRow),
      m_cell(grid.step.x() / spot.across_m, grid.step.y() / spot.along_m) {}

void RadialCanvas::add(const DabRow& row) {
  const auto scaled = [&](const Point& p) { return Point(p.x() / m_spot.across_m, p.y() / m_spot.along_m); };
  const Point first = scaled(row.first - m_grid.origin), step = scaled(row.step);
  const double peak = row.energy_J * m_tables.peakPerWatt_1_m2(m_spot), pitch = step.norm();
  if (row.smeared && pitch > 1e-6) return addSmeared(first - step / 2, step / pitch, pitch * static_cast<double>(row.count), peak / pitch);
  for (std::int64_t k = 0; k < row.count; ++k) addSpot(first + step * static_cast<double>(k), peak);
}

/// Adds value(point) to every cell of the band from low to high, and again for each period.
template <class Value>
void RadialCanvas::addCells(const Point& low, const Point& high, Value value) {
  const auto from = [](double x, double cell) { return static_cast<int>(std::ceil(x / cell - 0.5)); };
  int left = from(low.x(), m_cell.x()), right = from(high.x(), m_cell.x());
  int bottom = from(low.y(), m_cell.y()), top = from(high.y(), m_cell.y());
  if (!m_grid.periodic) {
    left = std::max(left, 0);
    right = std::min(right, m_grid.columns);
    bottom = std::max(bottom, m_firstRow);
    top = std::min(top, m_endRow);
  }
  const auto wrapped = [](int index, int count) { return (index % count + count) % count; };
  for (int j = bottom; j < top; ++j) {
    const int row = wrapped(j, m_grid.rows);
    if (row < m_firstRow || row >= m_endRow) continue;
    float* cells = m_cells.data() + static_cast<std::size_t>(row) * static_cast<std::size_t>(m_grid.columns);
    int column = wrapped(left, m_grid.columns);
    for (int i = left; i < right; ++i) {
      cells[column] += static_cast<float>(value(Point((i + 0.5) * m_cell.x(), (j + 0.5) * m_cell.y())));
      if (++column == m_grid.columns) column = 0;
    }
  }
}

void RadialCanvas::addSpot(const Point& place, double peak_J_m2) {
  const Point reach = Point::Constant(m_tables.reach());
  addCells(place - reach, place + reach, [&](const Point& at) { return peak_J_m2 * m_tables.at((at - place).squaredNorm()); });
}

void RadialCanvas::addSmeared(const Point& begin, const Point& along, double length, double density_J_m2) {
  const Point reach = Point::Constant(m_tables.reach()), end = begin + along * length;
  addCells(begin.cwiseMin(end) - reach, begin.cwiseMax(end) + reach, [&](const Point& at) {
    const Point off = at - begin;
    const double u = off.dot(along), v = off.y() * along.x() - off.x() * along.y();
    return density_J_m2 * (m_tables.upTo(v, u) - m_tables.upTo(v, u - length));
  });
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/gaussian_canvas.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace bw {

namespace {

constexpr double cut = GaussianCanvas::cut;
/// A wide row's slope against the grid. The Taylor series' next term, (slope v)^3 exp(-2 v^2) g'''(u)/6:
/// 0.27 slope^3 of a spot's peak at most.
constexpr double mostTilt = 0.05;
constexpr double mostSeen = 100;  // cells of a grid row that a steep row may reach; with more, a running product is as fast

int wrapped(int index, int count) {
  index %= count;
  return index < 0 ? index + count : index;
}

/// As std::ceil, for numbers that fit an int.
int ceiling(double x) {
  const int whole = static_cast<int>(x);
  return whole + (x > whole ? 1 : 0);
}

double wrapped(double value, double period) { return value - period * std::floor(value / period); }

/// Where low <= at + slope t <= high.
struct Interval {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();

  static Interval where(double at, double slope, double low, double high) {
    if (low > high) return {1, 0};
    if (std::abs(slope) < 1e-12) return at >= low && at <= high ? Interval{} : Interval{1, 0};
    const double a = (low - at) / slope, b = (high - at) / slope;
    return {std::min(a, b), std::max(a, b)};
  }
  Interval with(const Interval& other) const { return {std::max(low, other.low), std::min(high, other.high)}; }
  bool empty() const { return !(low <= high); }
};

/// What a half-endless row of spots a step p apart gives at u from its beginning (half a step before the first spot), over what it gives
/// far inside: (1 + erf(sqrt(2) u))/2 and the Euler-Maclaurin terms of the midpoint rule. p = 0: a continuous beam. Read from a table.
class RowEnd {
 public:
  explicit RowEnd(double step) {
    const double p2 = step * step;
    const std::array<double, 4> terms = {-p2 / 24, 7 * p2 * p2 / 5760, -31 * p2 * p2 * p2 / 967680, 127 * p2 * p2 * p2 * p2 / 154828800};
    const auto& basis = derivatives();
    for (std::size_t i = 0; i < m_value.size(); ++i) {
      m_value[i] = basis[i][0];
      for (std::size_t n = 0; n < terms.size(); ++n) m_value[i] += terms[n] * basis[i][n + 1];
    }
  }
  double operator()(double u) const {
    if (u >= cut) return 1;
    const double place = (u + cut) * perUnit;
    if (place <= 0) return 0;
    const auto i = static_cast<std::size_t>(place);
    return m_value[i] + (place - static_cast<double>(i)) * (m_value[i + 1] - m_value[i]);
  }

 private:
  static constexpr std::size_t perSide = 700;
  static constexpr double perUnit = static_cast<double>(perSide) / cut;
  static constexpr std::size_t size = 2 * perSide + 2;

  /// The error function and the first, third, fifth and seventh derivative of exp(-2 u^2), all over sqrt(pi/2).
  static const std::array<std::array<double, 5>, size>& derivatives() {
    static const auto table = [] {
      std::array<std::array<double, 5>, size> values;
      for (std::size_t i = 0; i < size; ++i) {
        const double u = static_cast<double>(i) / perUnit - cut, s = 2 * u;  // exp(-2 u^2) = exp(-s^2/2): Hermite polynomials of s
        const double g = std::exp(-s * s / 2) / std::sqrt(std::numbers::pi / 2), s2 = s * s;
        values[i] = {(1 + std::erf(std::numbers::sqrt2 * u)) / 2, -2 * s * g, -8 * s * (s2 - 3) * g, -32 * s * (s2 * (s2 - 10) + 15) * g,
                     -128 * s * (s2 * (s2 * (s2 - 21) + 105) - 105) * g};
      }
      return values;
    }();
    return table;
  }
  std::array<double, size> m_value;
};

}  // namespace

GaussianCanvas::GaussianCanvas(const CanvasGrid& grid, const Footprint& spot, std::span<float> cells, int firstRow, int endRow)
    : m_grid(grid),
      m_spot(spot),
      m_cells(cells),
      m_firstRow(firstRow),
      m_endRow(endRow),
      m_cell(grid.step.x() / spot.across_m, grid.step.y() / spot.along_m),
      m_perCell(m_cell.cwiseInverse()),
      m_peakPerJoule(2 / (std::numbers::pi * spot.across_m * spot.along_m)),
      m_acrossTable(m_cell.x(), cut),
      m_alongTable(m_cell.y(), cut),
      m_tables(8, SpotTable(1, cut)),
      m_across(static_cast<std::size_t>(m_acrossTable.width())),
      m_along(static_cast<std::size_t>(m_alongTable.width())) {}

void GaussianCanvas::add(const DabRow& row) {
  const auto scaled = [&](const Point& p) { return Point(p.x() / m_spot.across_m, p.y() / m_spot.along_m); };
  const Point first = scaled(row.first - m_grid.origin), step = scaled(row.step);
  const double pitch = step.norm();
  const bool spread = row.smeared || (row.count > 1 && pitch <= closeStep);
  Line line{first, Point::UnitX(), pitch, static_cast<double>(row.count), row.energy_J * m_peakPerJoule};
  if (pitch > 0) line.along = step / pitch;
  if (misses(first - step, line.end())) return;
  if (spread && line.length() > 1e-6) {
    line.begin -= step / 2;
    const bool steep = std::abs(line.along.y()) * m_cell.x() * mostSeen > 2 * cut;
    return steep ? addSteep(line, row.smeared) : addClose(line, row.smeared);
  }
  if (spread) return addSpot(first, line.peak_J_m2 * line.count);
  const bool level = std::abs(line.along.y()) <= mostTilt;
  if (row.count > 3 && level) return addWide(line);
  for (std::int64_t k = 0; k < row.count; ++k) addSpot(first + step * static_cast<double>(k), line.peak_J_m2);
}

/// Whether nothing of a row from a to b can fall on the grid.
bool GaussianCanvas::misses(const Point& a, const Point& b) const {
  if (m_grid.periodic) return false;
  const double reach = cut + 1;
  const double right = m_grid.columns * m_cell.x(), bottom = m_firstRow * m_cell.y(), top = m_endRow * m_cell.y();
  return std::max(a.x(), b.x()) < -reach || std::min(a.x(), b.x()) > right + reach || std::max(a.y(), b.y()) < bottom - reach ||
         std::min(a.y(), b.y()) > top + reach;
}

/// Calls paint(j, y, cells) for each grid row of this band whose points lie from low to high, and again for each period.
template <class Paint>
void GaussianCanvas::forRows(double low, double high, Paint paint) {
  int first = rowFrom(low), last = rowFrom(high) - 1;
  if (!m_grid.periodic) {
    first = std::max(first, m_firstRow);
    last = std::min(last, m_endRow - 1);
  }
  const auto width = static_cast<std::size_t>(m_grid.columns);
  int row = wrapped(first, m_grid.rows);
  for (int j = first; j <= last; ++j) {
    if (row >= m_firstRow && row < m_endRow) paint(j, (j + 0.5) * m_cell.y(), m_cells.data() + width * static_cast<std::size_t>(row));
    if (++row == m_grid.rows) row = 0;
  }
}

/// Calls paint(first, count, column) for the runs of columns that [first, end) falls on.
template <class Paint>
void GaussianCanvas::forColumns(int first, int end, Paint paint) const {
  if (!m_grid.periodic) {
    first = std::max(first, 0);
    end = std::min(end, m_grid.columns);
    if (first < end) paint(first, end - first, first);
    return;
  }
  for (int column = wrapped(first, m_grid.columns); first < end; column = 0) {
    const int count = std::min(end - first, m_grid.columns - column);
    paint(first, count, column);
    first += count;
  }
}

int GaussianCanvas::columnFrom(double x) const { return ceiling(x * m_perCell.x() - 0.5); }
int GaussianCanvas::rowFrom(double y) const { return ceiling(y * m_perCell.y() - 0.5); }

void GaussianCanvas::addSpot(Point place, double peak_J_m2) {
  if (m_grid.periodic) place = {wrapped(place.x(), m_grid.columns * m_cell.x()), wrapped(place.y(), m_grid.rows * m_cell.y())};
  const int left = columnFrom(place.x() - cut), width = m_acrossTable.width();
  const int low = rowFrom(place.y() - cut), high = low + m_alongTable.width();
  const bool whole = low >= 0 && high <= m_grid.rows && left >= 0 && left + width <= m_grid.columns;
  if (whole && (high <= m_firstRow || low >= m_endRow)) return;
  m_acrossTable.fill(m_across.data(), (left + 0.5) * m_cell.x() - place.x(), 1);
  m_alongTable.fill(m_along.data(), (low + 0.5) * m_cell.y() - place.y(), peak_J_m2);
  if (whole) {
    const int from = std::max(low, m_firstRow), to = std::min(high, m_endRow);
    float* cells = m_cells.data() + static_cast<std::size_t>(from) * static_cast<std::size_t>(m_grid.columns) + left;
    return addOuterProduct(cells, m_grid.columns, to - from, m_along.data() + (from - low), width, m_across.data());
  }
  forRows((low + 0.25) * m_cell.y(), (high - 0.25) * m_cell.y(), [&](int j, double, float* cells) {
    forColumns(left, left + width, [&](int i, int count, int column) {
      addOuterProduct(cells + column, 0, 1, m_along.data() + (j - low), count, m_across.data() + (i - left));
    });
  });
}

/// A close row so steep that few cells of a grid row see it: their Gaussian beside it from a table.
void GaussianCanvas::addSteep(const Line& line, bool smeared) {
  const double c = line.along.x(), s = line.along.y(), length = line.length(), perColumn = std::abs(s) * m_cell.x();
  const SpotTable& table = tableFor(perColumn);
  m_across.resize(std::max(m_across.size(), static_cast<std::size_t>(table.width())));
  const RowEnd end(smeared ? 0 : line.step);
  const double scale = line.peak_J_m2 * std::sqrt(std::numbers::pi / 2) / line.step;
  const double low = std::min(line.begin.y(), line.end().y()), high = std::max(line.begin.y(), line.end().y());
  forRows(low - cut, high + cut, [&](int, double y, float* cells) {
    const double dy = y - line.begin.y(), middle = line.begin.x() + c / s * dy;
    const int left = columnFrom(middle - cut / std::abs(s)), width = table.width();
    const double first = (left + 0.5) * m_cell.x(), u = s * dy + c * (first - line.begin.x());
    const auto [least, most] = std::minmax({u, u + c * m_cell.x() * (width - 1)});  // by value
    if (most < -cut || least > length + cut) return;
    table.fill(m_across.data(), std::abs(s) * (first - middle), scale);
    for (int i = 0; i < width && (least < cut || most > length - cut); ++i) {
      const double place = u + c * m_cell.x() * i;
      m_across[static_cast<std::size_t>(i)] *= static_cast<float>(end(place) - end(place - length));
    }
    constexpr float once = 1;
    forColumns(left, left + width,
               [&](int i, int count, int column) { addOuterProduct(cells + column, 0, 1, &once, count, m_across.data() + (i - left)); });
  });
}

/// To seven digits, so that lines of one slope share a table, whichever came first.
const SpotTable& GaussianCanvas::tableFor(double exact) {
  const auto cell = static_cast<double>(static_cast<float>(exact));
  for (const SpotTable& table : m_tables)
    if (table.cell() == cell) return table;
  m_nextTable = (m_nextTable + 1) % m_tables.size();
  return m_tables[m_nextTable] = SpotTable(cell, cut);
}

void GaussianCanvas::addClose(const Line& line, bool smeared) {
  const double c = line.along.x(), s = line.along.y(), length = line.length();
  const RowEnd end(smeared ? 0 : line.step);
  const GaussianRun run(-s * m_cell.x());
  const double scale = line.peak_J_m2 * std::sqrt(std::numbers::pi / 2) / line.step;
  const double low = std::min(line.begin.y(), line.end().y()), high = std::max(line.begin.y(), line.end().y());
  forRows(low - cut, high + cut, [&](int, double y, float* cells) {
    const double dy = y - line.begin.y();  // at t across from the beginning: v = c dy - s t, u = s dy + c t
    const Interval reach = Interval::where(c * dy, -s, -cut, cut).with(Interval::where(s * dy, c, -cut, length + cut));
    if (reach.empty()) return;
    Interval inside = reach.with(Interval::where(s * dy, c, cut, length - cut));
    const int from = columnFrom(line.begin.x() + reach.low), to = columnFrom(line.begin.x() + reach.high);
    const int plainFrom = inside.empty() ? to : columnFrom(line.begin.x() + inside.low);
    const int plainTo = inside.empty() ? to : std::max(plainFrom, columnFrom(line.begin.x() + inside.high));
    const auto beside = [&](int i) { return c * dy - s * ((i + 0.5) * m_cell.x() - line.begin.x()); };
    const auto paintEnd = [&](int i, int count, int column) {
      m_shape.resize(static_cast<std::size_t>(count));
      for (int n = 0; n < count; ++n) {
        const double u = s * dy + c * ((i + n + 0.5) * m_cell.x() - line.begin.x());
        m_shape[static_cast<std::size_t>(n)] = static_cast<float>(end(u) - end(u - length));
      }
      run.addShaped(cells + column, count, beside(i), scale, m_shape.data());
    };
    forColumns(from, plainFrom, paintEnd);
    forColumns(plainFrom, plainTo, [&](int i, int count, int column) { run.add(cells + column, count, beside(i), scale); });
    forColumns(plainTo, to, paintEnd);
  });
}

/// A row whose spots stand apart, nearly along the grid: the sum along its middle line with its first two derivatives, once for all grid
/// rows. At t across from the beginning u = (t + s v)/c: the series goes from the middle line, so that it holds however long the row.
void GaussianCanvas::addWide(Line line) {
  const double last = line.step * (line.count - 1);
  if (line.along.x() < 0) {
    line.begin += line.along * last;
    line.along = -line.along;
  }
  const double c = line.along.x(), s = line.along.y();
  int from = columnFrom(line.begin.x() - cut), to = columnFrom(line.begin.x() + c * last + cut);
  if (!m_grid.periodic) {
    from = std::max(from, 0);
    to = std::min(to, m_grid.columns);
    if (from >= to) return;
  }
  const SpotTable& table = tableFor(m_cell.x() / c);
  const int rim = table.width();
  SpotTable::Sums sums(static_cast<std::size_t>(to - from + 2 * rim));
  for (double k = 0; k < line.count; ++k) {
    const double x = line.begin.x() + c * line.step * k;
    const int left = columnFrom(x - c * cut), at = left - from + rim;
    if (at >= 0 && at <= to - from + rim) table.add(sums, static_cast<std::size_t>(at), ((left + 0.5) * m_cell.x() - x) / c);
  }
  const GaussianRun beside(-s * m_cell.x());
  const double low = std::min(line.begin.y(), line.begin.y() + s * last), high = std::max(line.begin.y(), line.begin.y() + s * last);
  m_shape.resize(sums.value.size());
  forRows(low - cut, high + cut, [&](int, double y, float* cells) {
    const double dy = y - line.begin.y();
    const Interval reach =
        Interval::where(c * dy, -s, -cut, cut).with({(from + 0.25) * m_cell.x() - line.begin.x(), to * m_cell.x() - line.begin.x()});
    if (reach.empty()) return;
    const int first = columnFrom(line.begin.x() + reach.low), end = columnFrom(line.begin.x() + reach.high);
    const auto besideAt = [&](int i) { return c * dy - s * ((i + 0.5) * m_cell.x() - line.begin.x()); };
    const auto shift = static_cast<float>(s / c * besideAt(first)), change = static_cast<float>(-s * s / c * m_cell.x());
    for (int n = 0; n < end - first; ++n) {
      const auto i = static_cast<std::size_t>(first - from + rim + n);
      const float off = shift + change * static_cast<float>(n);
      m_shape[i] = sums.value[i] + off * (sums.slope[i] + off * sums.bend[i]);
    }
    forColumns(first, end, [&](int i, int count, int column) {
      beside.addShaped(cells + column, count, besideAt(i), line.peak_J_m2, m_shape.data() + (i - from + rim));
    });
  });
}

}  // namespace bw

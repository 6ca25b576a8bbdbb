// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/repeat_cell.h"

#include "core/assess/assess.h"

#include <algorithm>
#include <cmath>
#include <future>
#include <limits>
#include <span>

namespace bw {

namespace {

constexpr double cut = 2.75;  // spot radii; 3e-7 of the energy lies beyond

double wrap(double value, double period) { return value - period * std::floor(value / period); }

/// A Gaussian exp(-2 x^2/w^2) sampled on one axis of the periodic grid, from `first` on (to be taken modulo the grid).
struct AxisSpot {
  int first = 0;
  int count = 0;
  std::vector<float> value;
};

/// Samples spots along one axis. On an axis shorter than the spot its images are summed; one far shorter than the spot sees the mean.
class AxisSampler {
 public:
  AxisSampler(double period_m, int cells, double radius_m)
      : m_period(period_m), m_cells(cells), m_step(period_m / cells), m_radius(radius_m) {
    const double window = 2 * std::ceil(cut * radius_m / m_step) + 2;
    m_folded = window >= cells;
    m_spot.count = m_folded ? cells : static_cast<int>(window);
    m_spot.value.resize(static_cast<std::size_t>(m_spot.count));
  }

  int windowCells() const { return m_spot.count; }

  const AxisSpot& at(double position_m) {
    const double x = wrap(position_m, m_period);
    return m_folded ? foldedAt(x) : windowAt(x);
  }

 private:
  // Neighbouring samples differ by a factor that itself changes by a constant factor, so three exponentials serve the whole window.
  const AxisSpot& windowAt(double x) {
    m_spot.first = static_cast<int>(std::floor((x - cut * m_radius) / m_step));
    const double a = 2 / (m_radius * m_radius), from = (m_spot.first + 0.5) * m_step - x;
    double value = std::exp(-a * from * from), ratio = std::exp(-a * m_step * (2 * from + m_step));
    const double change = std::exp(-2 * a * m_step * m_step);
    for (float& out : m_spot.value) {
      out = static_cast<float>(value);
      value *= ratio;
      ratio *= change;
    }
    return m_spot;
  }

  const AxisSpot& foldedAt(double x) {
    const double a = 2 / (m_radius * m_radius);
    const double images = std::ceil(cut * m_radius / m_period) + 1;
    const double mean = m_radius * std::sqrt(std::acos(-1.0) / 2) / m_period;
    for (int i = 0; i < m_cells; ++i) {
      double sum = 0;
      const double from = (i + 0.5) * m_step - x;
      if (images > 8) sum = mean;  // ripple below exp(-pi^2 w^2/(2 period^2)), nothing at this length
      else for (double k = -images; k <= images; ++k) sum += std::exp(-a * (from + k * m_period) * (from + k * m_period));
      m_spot.value[static_cast<std::size_t>(i)] = static_cast<float>(sum);
    }
    return m_spot;
  }

  double m_period;
  int m_cells;
  double m_step;
  double m_radius;
  bool m_folded;
  AxisSpot m_spot;
};

/// Adds spots to a periodic grid. Rows carry spare columns at their end, so that a spot over the seam is one run; they are folded back
/// at last.
class Canvas {
 public:
  Canvas(Grid grid, int spare)
      : m_grid(grid), m_width(static_cast<std::size_t>(grid.columns + spare)),
        m_sum(m_width * static_cast<std::size_t>(grid.rows), 0.0F) {}

  float* row(int index) { return &m_sum[m_width * static_cast<std::size_t>(wrapped(index, m_grid.rows))]; }
  int column(int index) const { return wrapped(index, m_grid.columns); }
  void add(const AxisSpot& across, const AxisSpot& along, float peak);

  void add(const Canvas& other) {
    for (std::size_t i = 0; i < m_sum.size(); ++i) m_sum[i] += other.m_sum[i];
  }

  std::vector<float> folded() const {
    const auto columns = static_cast<std::size_t>(m_grid.columns), rows = static_cast<std::size_t>(m_grid.rows);
    std::vector<float> out(columns * rows);
    for (std::size_t r = 0; r < rows; ++r) {
      const float* from = &m_sum[r * m_width];
      std::copy(from, from + columns, &out[r * columns]);
      for (std::size_t c = columns; c < m_width; ++c) out[r * columns + c - columns] += from[c];
    }
    return out;
  }

 private:
  static int wrapped(int index, int count) {
    index %= count;
    return index < 0 ? index + count : index;
  }

  Grid m_grid;
  std::size_t m_width;
  std::vector<float> m_sum;
};

void checkEvery(std::size_t index, const std::stop_token& stop) {
  if ((index & 0xfff) == 0 && stop.stop_requested()) throw Stopped();
}

#if defined(__x86_64__) && defined(__GNUC__) && !defined(__SANITIZE_ADDRESS__)
#define BW_WIDE_VECTORS __attribute__((target_clones("avx2", "default")))  // picked when the program starts
#else
#define BW_WIDE_VECTORS
#endif

BW_WIDE_VECTORS void addOuterProduct(float* __restrict first, std::size_t width, int rows, const float* __restrict across,
                                     int columns, const float* __restrict along, float scale) {
  for (int j = 0; j < rows; ++j, first += width) {
    const float rowScale = scale * along[j];
    for (int i = 0; i < columns; ++i) first[i] += rowScale * across[i];
  }
}

void Canvas::add(const AxisSpot& across, const AxisSpot& along, float peak) {
  const int left = column(across.first);
  for (int done = 0; done < along.count;) {  // in runs of rows up to the seam
    const int top = wrapped(along.first + done, m_grid.rows);
    const int run = std::min(along.count - done, m_grid.rows - top);
    addOuterProduct(row(top) + left, m_width, run, across.value.data(), across.count, &along.value[static_cast<std::size_t>(done)], peak);
    done += run;
  }
}

void addGaussians(Canvas& canvas, AxisSampler across, AxisSampler along, std::span<const Dab> dabs, double peakPerJoule,
                  const std::stop_token& stop) {
  for (std::size_t n = 0; n < dabs.size(); ++n) {
    checkEvery(n, stop);
    const auto peak = static_cast<float>(dabs[n].energy_J * peakPerJoule);
    canvas.add(across.at(dabs[n].position.x()), along.at(dabs[n].position.y()), peak);
  }
}

/// Two halves at once, each on a canvas of its own: the same sum whatever the machine.
void addGaussiansInHalves(Canvas& canvas, const AxisSampler& across, const AxisSampler& along, std::span<const Dab> dabs, double peakPerJoule,
                          const std::stop_token& stop) {
  if (dabs.size() < 20000) return addGaussians(canvas, across, along, dabs, peakPerJoule, stop);
  Canvas second = canvas;
  const std::size_t half = dabs.size() / 2;
  auto other = std::async(std::launch::async, [&] { addGaussians(second, across, along, dabs.subspan(half), peakPerJoule, stop); });
  addGaussians(canvas, across, along, dabs.first(half), peakPerJoule, stop);
  other.get();
  canvas.add(second);
}

/// Any radial profile against (r/w)^2, read linearly from a table: powers of powers for every cell would take most of the time.
class RadialTable {
 public:
  explicit RadialTable(const SpotProfile& profile) : m_end(std::pow(cut, 4 / profile.exponent())) {
    for (int i = 0; i <= entries + 1; ++i) m_value.push_back(profile.relative(std::sqrt(m_end * i / entries)));
  }

  /// Beyond it the profile is as weak as a Gaussian beyond its cut.
  double reach() const { return std::sqrt(m_end); }
  double operator()(double squaredRatio) const {
    const double place = squaredRatio / m_end * entries;
    if (place >= entries) return 0;
    const auto i = static_cast<std::size_t>(place);
    return m_value[i] + (place - static_cast<double>(i)) * (m_value[i + 1] - m_value[i]);
  }

 private:
  static constexpr int entries = 8192;
  double m_end;
  std::vector<double> m_value;
};

/// A row of spots w/32 apart is as even as any closer row, so a cell far shorter than the spot may be taken for several of its like.
double taken(double period_m, double radius_m) { return period_m * std::max(1.0, std::floor(radius_m / (32 * period_m))); }

/// Spots that are no Gaussian, cell by cell.
void addRadial(Canvas& canvas, const RepeatCell& asked, Grid grid, const SpotProfile& profile, double radius_m,
               const std::vector<Dab>& dabs, double peakPerJoule, const std::stop_token& stop) {
  const RadialTable table(profile);
  const RepeatCell cell{taken(asked.across_m, radius_m), taken(asked.along_m, radius_m)};
  const double scale = peakPerJoule * (cell.across_m / asked.across_m) * (cell.along_m / asked.along_m);
  const double dx = cell.across_m / grid.columns / radius_m, dy = cell.along_m / grid.rows / radius_m, reach = table.reach();
  for (std::size_t n = 0; n < dabs.size(); ++n) {
    checkEvery(n, stop);
    const double x = wrap(dabs[n].position.x(), cell.across_m) / radius_m, y = wrap(dabs[n].position.y(), cell.along_m) / radius_m;
    const double peak = dabs[n].energy_J * scale;
    const int left = static_cast<int>(std::floor((x - reach) / dx));
    for (int j = static_cast<int>(std::floor((y - reach) / dy)); (j + 0.5) * dy < y + reach; ++j) {
      float* row = canvas.row(j);
      const double up = (j + 0.5) * dy - y;
      int column = canvas.column(left);
      for (int i = left; (i + 0.5) * dx < x + reach; ++i) {
        const double aside = (i + 0.5) * dx - x;
        row[column] += static_cast<float>(peak * table(aside * aside + up * up));
        if (++column == grid.columns) column = 0;
      }
    }
  }
}

}  // namespace

double cellCount(const RepeatCell& cell, double longestStep_m) {
  return std::ceil(cell.across_m / longestStep_m) * std::ceil(cell.along_m / longestStep_m);
}

double cellsPerDab(const RepeatCell& cell, const SpotProfile& profile, double spotRadius_m, double longestStep_m) {
  const double window = 2 * std::ceil(cut * spotRadius_m / longestStep_m) + 2;
  if (profile.isGaussian()) return std::min(window * window, cellCount(cell, longestStep_m));
  constexpr double slower = 20;  // measured
  const double width = 2 * RadialTable(profile).reach() * spotRadius_m;
  const auto across = [&](double period_m) { return width / std::min(longestStep_m, taken(period_m, spotRadius_m)); };
  return slower * across(cell.across_m) * across(cell.along_m);
}

Grid gridOf(const RepeatCell& cell, double longestStep_m) {
  return {static_cast<int>(std::ceil(cell.across_m / longestStep_m)), static_cast<int>(std::ceil(cell.along_m / longestStep_m))};
}

DoseMap steadyMap(const std::vector<Dab>& dabs, const SpotProfile& profile, double spotRadius_m, const RepeatCell& cell, Grid grid,
                  std::stop_token stop) {
  AxisSampler across(cell.across_m, grid.columns, spotRadius_m), along(cell.along_m, grid.rows, spotRadius_m);
  const double peakPerJoule = profile.peakPerWatt_1_m2(spotRadius_m);
  const int spare = across.windowCells();  // a spot that begins in the last column ends here
  Canvas canvas(grid, spare);
  if (profile.isGaussian()) addGaussiansInHalves(canvas, across, along, dabs, peakPerJoule, stop);
  else addRadial(canvas, cell, grid, profile, spotRadius_m, dabs, peakPerJoule, stop);

  DoseMap map;
  map.columns = grid.columns;
  map.rows = grid.rows;
  map.cellAcross_m = cell.across_m / grid.columns;
  map.cellAlong_m = cell.along_m / grid.rows;
  map.dose_J_m2 = canvas.folded();
  return map;
}

DoseMap stillMap(const std::vector<Dab>& dabs, const SpotProfile& profile, double spotRadius_m, double longestStep_m, std::stop_token stop) {
  Point low = Point::Constant(std::numeric_limits<double>::infinity()), high = -low;
  for (const Dab& dab : dabs) {
    low = low.cwiseMin(dab.position);
    high = high.cwiseMax(dab.position);
  }
  const Point margin = Point::Constant(cut * spotRadius_m);
  std::vector<Dab> moved = dabs;
  for (Dab& dab : moved) dab.position += margin - low;
  const Point size = high - low + 2 * margin;
  const RepeatCell cell{size.x(), size.y()};
  return steadyMap(moved, profile, spotRadius_m, cell, gridOf(cell, longestStep_m), stop);
}

}  // namespace bw

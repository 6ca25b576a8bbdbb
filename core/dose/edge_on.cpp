// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/edge_on.h"

#include "core/dose/radial_canvas.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace bw {

namespace {

/// The spot seen edge-on: its profile summed along one direction, on [-reach, reach] radii, of unit area. A table, read linearly.
class LineSpread {
 public:
  explicit LineSpread(const SpotProfile& profile) { profile.isGaussian() ? fillGaussian() : fill(profile); }

  double operator()(double ratio) const {
    const double place = (ratio + reach) / step;
    if (place < 0 || place >= size - 1) return 0;
    const auto i = static_cast<std::size_t>(place);
    return m_value[i] + (place - static_cast<double>(i)) * (m_value[i + 1] - m_value[i]);
  }

 private:
  void fillGaussian() {
    for (int i = 0; i < size; ++i) m_value[static_cast<std::size_t>(i)] = std::sqrt(2 / std::numbers::pi) * std::exp(-2 * at(i) * at(i));
  }
  void fill(const SpotProfile& profile) {
    const RadialTables tables(profile);
    double sum = 0;
    for (int i = 0; i < size; ++i) sum += step * (m_value[static_cast<std::size_t>(i)] = tables.upTo(at(i), tables.reach()));
    for (double& value : m_value) value /= sum;
  }
  static constexpr int size = 1201;
  static constexpr double reach = 3;
  static constexpr double step = 2 * reach / (size - 1);
  static double at(int i) { return -reach + i * step; }
  std::vector<double> m_value = std::vector<double>(size);
};

/// Energy of the rows by its place along one axis on evenly spaced nodes, each dab's shared between its two nearest. That widens the
/// spot by h^2/6 in variance, 1.3e-3 of its radius for nodes w/16 apart.
class Nodes {
 public:
  Nodes(Axis axis, double low_m, double step_m, std::size_t count)
      : m_axis(static_cast<Eigen::Index>(axis)), m_low(low_m), m_step(step_m), m_energy(count, 0), m_rise(count + 3, 0) {}

  /// Dabs closer than a quarter of a step count as spread evenly.
  void add(const DabRow& row) {
    const double step = row.step[m_axis] / m_step, count = static_cast<double>(row.count), first = (row.first[m_axis] - m_low) / m_step;
    const bool even = row.smeared || (std::abs(step) < 0.25 && row.count > 1);
    const double length = std::abs(step) * count, middle = first + step * (count - 1) / 2;
    if (even && length > 1e-9) return addEven(middle - length / 2, middle + length / 2, row.energy_J * count);
    if (even) return share(middle, row.energy_J * count);
    for (double i = 0; i < count; ++i) share(first + i * step, row.energy_J);
  }

  std::vector<double> take() {
    double level = 0;
    for (std::size_t i = 0; i < m_energy.size(); ++i) m_energy[i] += level += m_rise[i];
    return std::move(m_energy);
  }

 private:
  void share(double place, double energy_J) {
    const auto i = std::min(m_energy.size() - 2, static_cast<std::size_t>(std::max(0.0, place)));
    const double right = place - static_cast<double>(i);
    m_energy[i] += energy_J * (1 - right);
    m_energy[i + 1] += energy_J * right;
  }
  void addEven(double from, double to, double energy_J) {
    addStep(from, energy_J / (to - from));
    addStep(to, -energy_J / (to - from));
  }
  /// An even density from a place on, shared among the nodes' hats: a half square, a whole less a half square, then whole ones.
  void addStep(double from, double density) {
    const auto i = std::min(m_energy.size() - 1, static_cast<std::size_t>(std::max(0.0, from)));
    const double f = from - static_cast<double>(i), first = (1 - f) * (1 - f) / 2, second = 1 - f * f / 2;
    m_rise[i] += density * first;
    m_rise[i + 1] += density * (second - first);
    m_rise[i + 2] += density * (1 - second);
  }

  Eigen::Index m_axis;
  double m_low;
  double m_step;
  std::vector<double> m_energy;
  std::vector<double> m_rise;
};

}  // namespace

std::vector<double> edgeOn(const std::vector<DabRow>& rows, Axis axis, const SpotProfile& profile, double spotRadius_m,
                           const Places& places) {
  // Two nodes a step and the spot's edge-on shape at their distances: a convolution.
  const double node = places.step_m / 2;
  const int reach = static_cast<int>(3 * spotRadius_m / node) + 1;
  Nodes nodes(axis, places.low_m - reach * node, node, static_cast<std::size_t>(2 * places.count + 2 * reach));
  for (const DabRow& row : rows) nodes.add(row);
  const std::vector<double> energy = nodes.take();
  const LineSpread spread(profile);
  Eigen::VectorXd weights(2 * reach + 1);
  for (int n = -reach; n <= reach; ++n) weights[n + reach] = spread(n * node / spotRadius_m) / spotRadius_m;
  std::vector<double> out;
  for (int i = 0; i < places.count; ++i)
    out.push_back(weights.dot(Eigen::Map<const Eigen::VectorXd>(&energy[static_cast<std::size_t>(2 * i)], weights.size())));
  return out;
}

Extent extentOf(const std::vector<DabRow>& rows, Axis axis) {
  Extent extent{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
  const auto at = static_cast<Eigen::Index>(axis);
  for (const DabRow& row : rows) {
    const double spread = row.smeared ? std::abs(row.step[at]) / 2 : 0, a = row.first[at], b = row.last()[at];
    extent.low_m = std::min(extent.low_m, std::min(a, b) - spread);
    extent.high_m = std::max(extent.high_m, std::max(a, b) + spread);
  }
  return extent;
}

std::vector<double> foldedEdgeOn(const std::vector<DabRow>& rows, Axis axis, const SpotProfile& profile, double spotRadius_m,
                                 double period_m) {
  const int count = static_cast<int>(std::clamp(std::ceil(period_m / (spotRadius_m / 8)), 16.0, 2e5));
  std::vector<double> folded(static_cast<std::size_t>(count), 0);
  if (period_m < spotRadius_m / 2) std::ranges::fill(folded, energyOf(rows) / period_m);
  if (rows.empty() || period_m < spotRadius_m / 2) return folded;
  const double step = period_m / count;
  const Extent extent = extentOf(rows, axis);
  const double first = std::floor((extent.low_m - 3 * spotRadius_m) / period_m) * period_m;
  const int places = static_cast<int>(std::ceil((extent.high_m + 3 * spotRadius_m - first) / step)) + 1;
  const std::vector<double> along = edgeOn(rows, axis, profile, spotRadius_m, {first, step, places});
  for (std::size_t i = 0; i < along.size(); ++i) folded[i % folded.size()] += along[i];
  return folded;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/evenness.h"

#include "core/dose/radial_canvas.h"
#include "core/dose/stripes.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>
#include <tuple>

namespace bw {

namespace {

/// The values of given rank without sorting all: a histogram tells the bin, and the few values in it are sorted out.
class Quantiles {
 public:
  Quantiles(const std::vector<float>& values, float least, float most)
      : m_values(values), m_least(least), m_scale(most > least ? static_cast<float>(bins) / (most - least) : 0) {
    std::vector<std::uint32_t> even(bins, 0), odd(bins, 0);  // neighbours are alike: two counters, so that one need not wait for itself
    std::size_t i = 0;
    for (; i + 1 < values.size(); i += 2) {
      ++even[binOf(values[i])];
      ++odd[binOf(values[i + 1])];
    }
    if (i < values.size()) ++even[binOf(values[i])];
    for (std::size_t bin = 0; bin < bins; ++bin) m_count.push_back(std::size_t{even[bin]} + odd[bin]);
  }

  std::pair<double, double> at(double lowShare, double highShare) const {
    Rank low = rankOf(lowShare), high = rankOf(highShare);
    std::vector<float> inLow, inHigh;
    for (const float value : m_values) {
      const std::uint32_t bin = binOf(value);
      if (bin == low.bin) inLow.push_back(value);
      if (bin == high.bin) inHigh.push_back(value);
    }
    return {nth(inLow, low.inside), nth(inHigh, high.inside)};
  }

 private:
  static constexpr std::uint32_t bins = 4096;
  struct Rank {
    std::uint32_t bin = 0;
    std::size_t inside = 0;
  };
  std::uint32_t binOf(float value) const {
    return std::min(bins - 1, static_cast<std::uint32_t>(static_cast<std::int32_t>((value - m_least) * m_scale)));
  }
  Rank rankOf(double share) const {
    Rank rank{0, static_cast<std::size_t>(share * static_cast<double>(m_values.size() - 1) + 0.5)};
    while (rank.inside >= m_count[rank.bin]) rank.inside -= m_count[rank.bin++];
    return rank;
  }
  static double nth(std::vector<float>& values, std::size_t rank) {
    const auto place = values.begin() + static_cast<std::ptrdiff_t>(rank);
    std::nth_element(values.begin(), place, values.end());
    return static_cast<double>(*place);
  }

  const std::vector<float>& m_values;
  float m_least;
  float m_scale;
  std::vector<std::size_t> m_count;
};

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

/// Energy of the rows by its place across the travel on evenly spaced nodes, each dab's shared between its two nearest. That widens the
/// spot by h^2/6 in variance, 1.3e-3 of its radius for nodes w/16 apart.
class Nodes {
 public:
  Nodes(double low_m, double step_m, std::size_t count) : m_low(low_m), m_step(step_m), m_energy(count, 0), m_rise(count + 3, 0) {}

  /// Dabs closer than a quarter of a step count as spread evenly.
  void add(const DabRow& row) {
    const double step = row.step.x() / m_step, count = static_cast<double>(row.count), first = (row.first.x() - m_low) / m_step;
    const bool even = row.smeared || (std::abs(step) < 0.25 && row.count > 1);
    const double length = std::abs(step) * count, middle = first + step * (count - 1) / 2;
    if (even && length > 1e-9) return addEven(middle - length / 2, middle + length / 2, row.energy_J * count);
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

  double m_low;
  double m_step;
  std::vector<double> m_energy;
  std::vector<double> m_rise;
};

/// Periodic linear reading.
double readPeriodic(const std::vector<double>& values, double place) {
  const double count = static_cast<double>(values.size());
  place -= count * std::floor(place / count);
  const auto i = static_cast<std::size_t>(place) % values.size();
  return std::lerp(values[i], values[(i + 1) % values.size()], place - std::floor(place));
}

/// Area under a swath's profile from its beginning to x, straight lines between its points.
double areaUpTo(const SwathProfile& profile, double x) {
  double area = 0;
  for (std::size_t i = 1; i < profile.position_m.size() && profile.position_m[i - 1] < x; ++i) {
    const double from = profile.position_m[i - 1], step = profile.position_m[i] - from, share = std::min(1.0, (x - from) / step);
    area += share * step * std::lerp(profile.oneSwath_J_m2[i - 1], profile.oneSwath_J_m2[i], share / 2);
  }
  return area;
}

double meanBetween(const SwathProfile& profile, double from, double to) {
  return (areaUpTo(profile, to) - areaUpTo(profile, from)) / (to - from);
}

/// Sum of f(value) in double precision, in eight sums that need not wait for each other.
template <class F>
double sumOf(const std::vector<float>& values, F f) {
  constexpr std::size_t lanes = 8;
  double sums[lanes] = {};
  std::size_t i = 0;
  for (; i + lanes <= values.size(); i += lanes) {
    for (std::size_t l = 0; l < lanes; ++l) sums[l] += f(static_cast<double>(values[i + l]));
  }
  for (; i < values.size(); ++i) sums[0] += f(static_cast<double>(values[i]));
  return std::accumulate(sums, sums + lanes, 0.0);
}

}  // namespace

DoseResult evennessOf(const DoseMap& map) {
  const std::vector<float>& dose = map.dose_J_m2;
  const Eigen::Map<const Eigen::ArrayXf> values(dose.data(), static_cast<Eigen::Index>(dose.size()));
  const double count = static_cast<double>(dose.size());
  const float least = values.minCoeff(), most = values.maxCoeff();
  DoseResult result;
  result.mean_J_m2 = sumOf(dose, [](double value) { return value; }) / count;
  result.min_J_m2 = static_cast<double>(least);
  result.max_J_m2 = static_cast<double>(most);
  const double squares = sumOf(dose, [mean = result.mean_J_m2](double value) { return (value - mean) * (value - mean); });
  result.cv = result.mean_J_m2 > 0 ? std::sqrt(squares / count) / result.mean_J_m2 : 0;
  result.missedFraction = static_cast<double>((values < static_cast<float>(result.mean_J_m2 / 2)).count()) / count;
  std::tie(result.p05_J_m2, result.p95_J_m2) = Quantiles(dose, least, most).at(0.05, 0.95);
  return result;
}

SwathProfile swathProfile(const std::vector<DabRow>& rows, const LitBounds& lit, const SpotProfile& profile, double spotRadius_m,
                          const RepeatCell& cell, const DoseMap& steady) {
  SwathProfile out;
  if (rows.empty()) return out;
  out.litExtent_m = lit.high.x() - lit.low.x();
  out.middle_m = (lit.low.x() + lit.high.x()) / 2;
  const double half = out.litExtent_m / 2 + 3 * spotRadius_m;
  // Fine enough for means over a spot's width to hold to 0.2 %; thinned for swaths of thousands of spots.
  const int count = static_cast<int>(std::clamp(std::ceil(2 * half / (spotRadius_m / 8)), 64.0, 20000.0)) + 1;
  const double step = 2 * half / (count - 1);

  // Two nodes a step, the spot's edge-on shape at their distances: a convolution.
  const int reach = static_cast<int>(6 * spotRadius_m / step) + 1;
  Nodes nodes(out.middle_m - half - reach * step / 2, step / 2, static_cast<std::size_t>(2 * count + 2 * reach));
  for (const DabRow& row : rows) nodes.add(row);
  const std::vector<double> energy = nodes.take();
  const LineSpread spread(profile);
  std::vector<double> kernel;
  for (int n = -reach; n <= reach; ++n) kernel.push_back(spread(n * step / 2 / spotRadius_m) / (spotRadius_m * cell.along_m));
  const Eigen::Map<const Eigen::VectorXd> weights(kernel.data(), static_cast<Eigen::Index>(kernel.size()));
  for (int i = 0; i < count; ++i)
    out.oneSwath_J_m2.push_back(weights.dot(Eigen::Map<const Eigen::VectorXd>(&energy[static_cast<std::size_t>(2 * i)], weights.size())));
  const std::vector<double> means = columnMeans(steady);
  for (int i = 0; i < count; ++i) {
    const double position = i * step - half;
    out.position_m.push_back(position);
    out.summed_J_m2.push_back(readPeriodic(means, (position + out.middle_m) / steady.cellAcross_m - 0.5));
  }
  return out;
}

std::optional<double> edgeRatio(const SwathProfile& profile, double spotDiameter_m) {
  const double extent = profile.litExtent_m;
  if (extent < 5 * spotDiameter_m) return std::nullopt;
  const double outer = (meanBetween(profile, -0.5 * extent, -0.4 * extent) + meanBetween(profile, 0.4 * extent, 0.5 * extent)) / 2;
  const double centre = meanBetween(profile, -0.25 * extent, 0.25 * extent);
  return centre > 0 ? std::optional(outer / centre) : std::nullopt;
}

double ripple(const DoseMap& steady) { return rippleOf(columnMeans(steady)); }

}  // namespace bw

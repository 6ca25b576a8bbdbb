// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/evenness.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace bw {

namespace {

double quantile(std::vector<float>& values, double share) {
  const auto nth = values.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1) + 0.5);
  std::nth_element(values.begin(), nth, values.end());
  return static_cast<double>(*nth);
}

struct Extent {
  double low = std::numeric_limits<double>::infinity();
  double high = -std::numeric_limits<double>::infinity();
};

Extent extentAcross(const std::vector<Dab>& dabs) {
  Extent extent;
  for (const Dab& dab : dabs) {
    extent.low = std::min(extent.low, dab.position.x());
    extent.high = std::max(extent.high, dab.position.x());
  }
  return extent;
}

/// The spot seen edge-on: its profile summed along one direction, on [-reach, reach] radii, of unit area. A table, read linearly.
class LineSpread {
 public:
  explicit LineSpread(const SpotProfile& profile) { profile.isGaussian() ? fillGaussian() : fill(profile); }

  double operator()(double ratio) const {
    const double place = (ratio + reach) / step;
    if (place < 0 || place >= size - 1) return 0;
    const auto i = static_cast<std::size_t>(place);
    return std::lerp(m_value[i], m_value[i + 1], place - std::floor(place));
  }

 private:
  void fillGaussian() {
    for (int i = 0; i < size; ++i) m_value[static_cast<std::size_t>(i)] = std::sqrt(2 / std::numbers::pi) * std::exp(-2 * at(i) * at(i));
  }
  void fill(const SpotProfile& profile) {
    double sum = 0;
    for (int i = 0; i < size; ++i) {
      const double x = at(i);
      double line = 0;
      for (int j = 0; j < size; ++j) line += profile.relative(std::hypot(x, at(j)));
      m_value[static_cast<std::size_t>(i)] = line;
      sum += line * step;
    }
    for (double& value : m_value) value /= sum;
  }
  static constexpr int size = 1201;
  static constexpr double reach = 3;
  static constexpr double step = 2 * reach / (size - 1);
  static double at(int i) { return -reach + i * step; }
  std::vector<double> m_value = std::vector<double>(size);
};

/// Energy of the dabs by their place across the travel, each shared between its two nearest bins. That widens the spot by h^2/6 in
/// variance, 1.3e-3 of its radius for bins of w/16.
struct Bins {
  double low_m;
  double step_m;
  std::vector<double> energy_J;

  Bins(const std::vector<Dab>& dabs, double longestStep_m) {
    const Extent dabbed = extentAcross(dabs);
    const double extent = dabbed.high - dabbed.low;
    low_m = dabbed.low;
    const double count = std::clamp(std::ceil(extent / longestStep_m), 1.0, 1e6);
    step_m = std::max(extent, longestStep_m) / count;
    energy_J.assign(static_cast<std::size_t>(count) + 2, 0);
    for (const Dab& dab : dabs) {
      const double place = (dab.position.x() - low_m) / step_m;
      const auto i = static_cast<std::size_t>(place);
      const double right = place - static_cast<double>(i);
      energy_J[i] += dab.energy_J * (1 - right);
      energy_J[i + 1] += dab.energy_J * right;
    }
  }
};

std::vector<double> columnMeans(const DoseMap& map) {
  std::vector<double> means(static_cast<std::size_t>(map.columns), 0);
  for (int row = 0; row < map.rows; ++row) {
    for (int column = 0; column < map.columns; ++column) means[static_cast<std::size_t>(column)] += static_cast<double>(map.at(column, row));
  }
  for (double& mean : means) mean /= map.rows;
  return means;
}

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

}  // namespace

DoseResult evennessOf(const DoseMap& map) {
  DoseResult result;
  double sum = 0, squares = 0;
  for (const float dose : map.dose_J_m2) sum += static_cast<double>(dose);
  const double count = static_cast<double>(map.dose_J_m2.size());
  result.mean_J_m2 = sum / count;
  const auto half = static_cast<float>(result.mean_J_m2 / 2);
  std::size_t missed = 0;
  for (const float dose : map.dose_J_m2) {
    const double off = static_cast<double>(dose) - result.mean_J_m2;
    squares += off * off;
    missed += dose < half ? 1 : 0;
  }
  result.cv = result.mean_J_m2 > 0 ? std::sqrt(squares / count) / result.mean_J_m2 : 0;
  result.missedFraction = static_cast<double>(missed) / count;
  std::vector<float> values = map.dose_J_m2;
  result.p05_J_m2 = quantile(values, 0.05);
  result.p95_J_m2 = quantile(values, 0.95);
  const auto [least, most] = std::ranges::minmax_element(map.dose_J_m2);
  result.min_J_m2 = static_cast<double>(*least);
  result.max_J_m2 = static_cast<double>(*most);
  return result;
}

SwathProfile swathProfile(const std::vector<Dab>& dabs, const LitBounds& lit, const SpotProfile& profile, double spotRadius_m,
                          const RepeatCell& cell, const DoseMap& steady) {
  SwathProfile out;
  if (dabs.empty()) return out;
  out.litExtent_m = lit.high.x() - lit.low.x();
  out.middle_m = (lit.low.x() + lit.high.x()) / 2;
  const double half = out.litExtent_m / 2 + 3 * spotRadius_m;
  // Fine enough for means over a spot's width to hold to 0.2 %; thinned for swaths of thousands of spots.
  const int count = static_cast<int>(std::clamp(std::ceil(2 * half / (spotRadius_m / 8)), 64.0, 20000.0)) + 1;
  const double step = 2 * half / (count - 1);

  out.oneSwath_J_m2.assign(static_cast<std::size_t>(count), 0);
  const LineSpread spread(profile);
  const Bins bins(dabs, spotRadius_m / 16);
  for (std::size_t b = 0; b < bins.energy_J.size(); ++b) {
    const double x = bins.low_m + static_cast<double>(b) * bins.step_m - out.middle_m + half;
    const int first = std::max(0, static_cast<int>(std::ceil((x - 3 * spotRadius_m) / step)));
    const int last = std::min(count - 1, static_cast<int>((x + 3 * spotRadius_m) / step));
    const double scale = bins.energy_J[b] / (spotRadius_m * cell.along_m);
    for (int i = first; i <= last; ++i) out.oneSwath_J_m2[static_cast<std::size_t>(i)] += scale * spread((i * step - x) / spotRadius_m);
  }
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

double ripple(const DoseMap& steady) {
  const std::vector<double> means = columnMeans(steady);
  const auto [least, most] = std::ranges::minmax_element(means);
  return *most + *least > 0 ? (*most - *least) / (*most + *least) : 0;
}

}  // namespace bw

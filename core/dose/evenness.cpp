// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/evenness.h"

#include "core/dose/edge_on.h"
#include "core/dose/stripes.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <iterator>
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

  std::pair<double, double> at(double lowShare, double highShare, const std::stop_token& stop) const {
    Rank low = rankOf(lowShare), high = rankOf(highShare);
    std::vector<float> inLow, inHigh;
    const auto look = [&](float value) {
      const std::uint32_t bin = binOf(value);
      if (bin == low.bin) inLow.push_back(value);
      if (bin == high.bin) inHigh.push_back(value);
    };
    const Band lowBand = around(low.bin), highBand = around(high.bin);
    constexpr std::size_t block = 32;  // passed over whole where none of it lies near a wanted bin
    std::size_t i = 0;
    for (; i + block <= m_values.size(); i += block) {
      if ((i & 0xfffff) == 0) throwIfStopped(stop);
      int near = 0;
      for (std::size_t l = 0; l < block; ++l) near |= lowBand.holds(m_values[i + l]) | highBand.holds(m_values[i + l]);
      for (std::size_t l = 0; near != 0 && l < block; ++l) look(m_values[i + l]);
    }
    for (; i < m_values.size(); ++i) look(m_values[i]);
    return {nth(inLow, low.inside, stop), nth(inHigh, high.inside, stop)};
  }

 private:
  static constexpr std::uint32_t bins = 4096;
  struct Rank {
    std::uint32_t bin = 0;
    std::size_t inside = 0;
  };
  struct Band {
    float from;
    float to;
    int holds(float value) const { return static_cast<int>(value >= from) & static_cast<int>(value <= to); }
  };
  /// A bin and half of its neighbours, so that rounding loses nothing.
  Band around(std::uint32_t bin) const {
    const float step = m_scale > 0 ? 1 / m_scale : 1;
    return {m_least + (static_cast<float>(bin) - 0.5F) * step, m_least + (static_cast<float>(bin) + 1.5F) * step};
  }
  std::uint32_t binOf(float value) const {
    return std::min(bins - 1, static_cast<std::uint32_t>(static_cast<std::int32_t>((value - m_least) * m_scale)));
  }
  Rank rankOf(double share) const {
    Rank rank{0, static_cast<std::size_t>(share * static_cast<double>(m_values.size() - 1) + 0.5)};
    while (rank.inside >= m_count[rank.bin]) rank.inside -= m_count[rank.bin++];
    return rank;
  }
  /// Many alike are told apart by a histogram of their own.
  static double nth(std::vector<float>& values, std::size_t rank, const std::stop_token& stop) {
    constexpr std::size_t few = 200000;
    throwIfStopped(stop);
    const auto [least, most] = std::ranges::minmax_element(values);
    if (*least == *most) return static_cast<double>(*least);
    if (values.size() > few) {
      const Quantiles finer(values, *least, *most);
      Rank wanted{0, rank};
      while (wanted.inside >= finer.m_count[wanted.bin]) wanted.inside -= finer.m_count[wanted.bin++];
      std::vector<float> inside;
      std::ranges::copy_if(values, std::back_inserter(inside), [&](float value) { return finer.binOf(value) == wanted.bin; });
      if (inside.size() < values.size()) return nth(inside, wanted.inside, stop);
    }
    const auto place = values.begin() + static_cast<std::ptrdiff_t>(rank);
    std::nth_element(values.begin(), place, values.end());
    return static_cast<double>(*place);
  }

  const std::vector<float>& m_values;
  float m_least;
  float m_scale;
  std::vector<std::size_t> m_count;
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

struct Moments {
  double mean = 0;
  double deviation = 0;  // standard deviation
};

/// Mean and spread in double precision, reckoned from one of the values so that nothing cancels; in eight sums that need not wait for
/// each other.
Moments momentsOf(const std::vector<float>& values) {
  constexpr std::size_t lanes = 8;
  const double from = static_cast<double>(values.front()), count = static_cast<double>(values.size());
  double sums[lanes] = {}, squares[lanes] = {};
  const auto add = [&](std::size_t lane, float value) {
    const double off = static_cast<double>(value) - from;
    sums[lane] += off;
    squares[lane] += off * off;
  };
  std::size_t i = 0;
  for (; i + lanes <= values.size(); i += lanes) {
    for (std::size_t l = 0; l < lanes; ++l) add(l, values[i + l]);
  }
  for (; i < values.size(); ++i) add(0, values[i]);
  const double off = std::accumulate(sums, sums + lanes, 0.0) / count;
  return {from + off, std::sqrt(std::max(0.0, std::accumulate(squares, squares + lanes, 0.0) / count - off * off))};
}

}  // namespace

DoseResult evennessOf(const DoseMap& map, std::stop_token stop) {
  const std::vector<float>& dose = map.dose_J_m2;
  const Eigen::Map<const Eigen::ArrayXf> values(dose.data(), static_cast<Eigen::Index>(dose.size()));
  const double count = static_cast<double>(dose.size());
  const float least = values.minCoeff(), most = values.maxCoeff();
  throwIfStopped(stop);
  DoseResult result;
  const Moments moments = momentsOf(dose);
  result.mean_J_m2 = moments.mean;
  result.min_J_m2 = static_cast<double>(least);
  result.max_J_m2 = static_cast<double>(most);
  throwIfStopped(stop);
  result.cv = moments.mean > 0 ? moments.deviation / moments.mean : 0;
  result.missedFraction = static_cast<double>((values < static_cast<float>(result.mean_J_m2 / 2)).count()) / count;
  throwIfStopped(stop);
  const Quantiles quantiles(dose, least, most);
  throwIfStopped(stop);
  std::tie(result.p05_J_m2, result.p95_J_m2) = quantiles.at(0.05, 0.95, stop);
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

  out.oneSwath_J_m2 = edgeOn(rows, Axis::Across, profile, spotRadius_m, {out.middle_m - half, step, count});
  for (double& dose : out.oneSwath_J_m2) dose /= cell.along_m;
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

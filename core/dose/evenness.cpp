// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/evenness.h"

#include "core/dose/edge_on.h"

#include <algorithm>
#include <bit>
#include <cmath>

#include <numeric>
#include <tuple>

namespace bw {

namespace {

/// Calls pass(first, end) for pieces of a long list, each done in a few milliseconds.
template <class Pass>
void inPieces(std::size_t count, const std::stop_token& stop, Pass pass) {
  constexpr std::size_t piece = 1 << 20;  // an even number of vectors
  for (std::size_t first = 0; first < count; first += piece) {
    throwIfStopped(stop);
    pass(first, std::min(count, first + piece));
  }
}

/// How many values there are of each number.
struct Counts {
  std::vector<std::uint32_t> count;
  explicit Counts(int bits) : count(std::size_t{1} << bits, 0) {}

  /// The number that holds a rank, and the rank left inside it.
  std::pair<std::uint32_t, std::size_t> find(std::size_t rank) const {
    std::uint32_t number = 0;
    while (rank >= count[number]) rank -= count[number++];
    return {number, rank};
  }
};

/// The values of two ranks without sorting: doses are not negative, so their bits stand in their order. The upper halves of the bits in
/// use are counted, then the lower halves of those that share a wanted upper one.
std::pair<double, double> ranked(const std::vector<float>& values, float least, float most, std::size_t lowRank, std::size_t highRank,
                                 const std::stop_token& stop) {
  const auto from = std::bit_cast<std::uint32_t>(least);
  const auto width = static_cast<int>(std::bit_width(std::bit_cast<std::uint32_t>(most) - from)), shift = width / 2;
  const auto upperOf = [&](std::size_t i) { return (std::bit_cast<std::uint32_t>(values[i]) - from) >> shift; };
  Counts upper(width - shift), odd(width - shift);  // neighbours are alike: two counters, so that one need not wait for itself
  inPieces(values.size(), stop, [&](std::size_t i, std::size_t end) {
    for (; i + 1 < end; i += 2) {
      ++upper.count[upperOf(i)];
      ++odd.count[upperOf(i + 1)];
    }
    if (i < end) ++upper.count[upperOf(i)];
  });
  for (std::size_t number = 0; number < odd.count.size(); ++number) upper.count[number] += odd.count[number];

  const std::pair low = upper.find(lowRank), high = upper.find(highRank);
  const std::uint32_t lowUpper = low.first, highUpper = high.first, mask = (1U << shift) - 1;
  Counts ofLow(shift), ofHigh(shift);
  const auto look = [&](std::size_t i) {
    const std::uint32_t lower = (std::bit_cast<std::uint32_t>(values[i]) - from) & mask;
    if (upperOf(i) == lowUpper) ++ofLow.count[lower];
    if (upperOf(i) == highUpper) ++ofHigh.count[lower];
  };
  inPieces(values.size(), stop, [&](std::size_t i, std::size_t end) {
    constexpr std::size_t block = 32;  // passed over whole where none of it is near
    for (; i + block <= end; i += block) {
      int near = 0;
      for (std::size_t l = i; l < i + block; ++l) near |= static_cast<int>(upperOf(l) == lowUpper) | static_cast<int>(upperOf(l) == highUpper);
      for (std::size_t l = i; near != 0 && l < i + block; ++l) look(l);
    }
    for (; i < end; ++i) look(i);
  });
  const auto value = [&](std::uint32_t number, const Counts& lower, std::size_t rank) {
    return static_cast<double>(std::bit_cast<float>(from + ((number << shift) | lower.find(rank).first)));
  };
  return {value(lowUpper, ofLow, low.second), value(highUpper, ofHigh, high.second)};
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

struct Moments {
  double mean = 0;
  double deviation = 0;  // standard deviation
};

/// Mean and spread in double precision, reckoned from one of the values so that nothing cancels; in eight sums that need not wait for
/// each other.
Moments momentsOf(const std::vector<float>& values, const std::stop_token& stop) {
  constexpr std::size_t lanes = 8;
  const double from = static_cast<double>(values.front()), count = static_cast<double>(values.size());
  double sums[lanes] = {}, squares[lanes] = {};
  const auto add = [&](std::size_t lane, float value) {
    const double off = static_cast<double>(value) - from;
    sums[lane] += off;
    squares[lane] += off * off;
  };
  inPieces(values.size(), stop, [&](std::size_t i, std::size_t end) {
    for (; i + lanes <= end; i += lanes) {
      for (std::size_t l = 0; l < lanes; ++l) add(l, values[i + l]);
    }
    for (; i < end; ++i) add(0, values[i]);
  });
  const double off = std::accumulate(sums, sums + lanes, 0.0) / count;
  return {from + off, std::sqrt(std::max(0.0, std::accumulate(squares, squares + lanes, 0.0) / count - off * off))};
}

}  // namespace

DoseResult evennessOf(const DoseMap& map, std::stop_token stop) {
  const std::vector<float>& dose = map.dose_J_m2;
  const auto piece = [&](std::size_t first, std::size_t end) {
    return Eigen::Map<const Eigen::ArrayXf>(dose.data() + first, static_cast<Eigen::Index>(end - first));
  };
  float least = dose.front(), most = least;
  inPieces(dose.size(), stop, [&](std::size_t first, std::size_t end) {
    least = std::min(least, piece(first, end).minCoeff());
    most = std::max(most, piece(first, end).maxCoeff());
  });
  DoseResult result;
  const Moments moments = momentsOf(dose, stop);
  result.mean_J_m2 = moments.mean;
  result.min_J_m2 = static_cast<double>(least);
  result.max_J_m2 = static_cast<double>(most);
  result.cv = moments.mean > 0 ? moments.deviation / moments.mean : 0;
  const auto half = static_cast<float>(moments.mean / 2);
  Eigen::Index missed = 0;
  inPieces(dose.size(), stop, [&](std::size_t first, std::size_t end) { missed += (piece(first, end) < half).count(); });
  result.missedFraction = static_cast<double>(missed) / static_cast<double>(dose.size());
  const auto rank = [&](double share) { return static_cast<std::size_t>(share * static_cast<double>(dose.size() - 1) + 0.5); };
  std::tie(result.p05_J_m2, result.p95_J_m2) = ranked(dose, least, most, rank(0.05), rank(0.95), stop);
  return result;
}

SwathProfile swathProfile(const std::vector<DabRow>& rows, const LitBounds& lit, const SpotProfile& profile, double spotRadius_m,
                          const RepeatCell& cell, const std::vector<double>& steadyMeans) {
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
  const double column_m = cell.across_m / static_cast<double>(steadyMeans.size());
  for (int i = 0; i < count; ++i) {
    const double position = i * step - half;
    out.position_m.push_back(position);
    out.summed_J_m2.push_back(readPeriodic(steadyMeans, (position + out.middle_m) / column_m - 0.5));
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

}  // namespace bw

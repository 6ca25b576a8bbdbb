// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/places.h"

#include "core/values/stopped.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace bw {

/// The dabs of one frame sorted into the squares of a grid over the repeat cell, so that a place looks only near itself.
class HitFinder::Index {
 public:
  Index(const std::vector<Dab>& dabs, const RepeatCell& cell, double reach_m) : m_dabs(dabs), m_cell(cell) {
    m_columns = squares(cell.across_m, reach_m);
    m_rows = squares(cell.along_m, reach_m);
    m_first.assign(static_cast<std::size_t>(m_columns * m_rows) + 1, 0);
    for (const Dab& dab : dabs) ++m_first[square(dab) + 1];
    std::partial_sum(m_first.begin(), m_first.end(), m_first.begin());
    std::vector<std::uint32_t> next(m_first.begin(), m_first.end() - 1);
    m_order.resize(dabs.size());
    for (std::uint32_t i = 0; i < dabs.size(); ++i) m_order[next[square(dabs[i])]++] = i;
  }

  /// Calls `visit(dab)` for every dab whose image may lie within reach of the point.
  template <class Visit>
  void near(const Point& point, Visit visit) const {
    const auto columns = around(point.x(), m_cell.across_m, m_columns), rows = around(point.y(), m_cell.along_m, m_rows);
    for (const int row : rows) {
      for (const int column : columns) {
        const auto s = static_cast<std::size_t>(row * m_columns + column);
        for (std::uint32_t i = m_first[s]; i < m_first[s + 1]; ++i) visit(m_dabs[m_order[i]]);
      }
    }
  }

 private:
  static int squares(double size, double reach) { return static_cast<int>(std::clamp(std::floor(size / reach), 1.0, 1000.0)); }
  static int slot(double position, double period, int count) {
    const double inside = position / period - std::floor(position / period);
    return std::min(count - 1, static_cast<int>(inside * count));
  }
  static std::vector<int> around(double position, double period, int count) {
    const int middle = slot(position, period, count);
    if (count < 3) {
      std::vector<int> all(static_cast<std::size_t>(count));
      std::iota(all.begin(), all.end(), 0);
      return all;
    }
    return {(middle + count - 1) % count, middle, (middle + 1) % count};
  }
  std::size_t square(const Dab& dab) const {
    return static_cast<std::size_t>(slot(dab.position.y(), m_cell.along_m, m_rows) * m_columns +
                                    slot(dab.position.x(), m_cell.across_m, m_columns));
  }

  const std::vector<Dab>& m_dabs;
  RepeatCell m_cell;
  int m_columns;
  int m_rows;
  std::vector<std::uint32_t> m_first;
  std::vector<std::uint32_t> m_order;
};

namespace {

constexpr double leastShare = 0.01;

/// All images of one dab under the steps of the repeat cell that reach the point: image (j, k) comes j swaths and k frames later.
void addHits(std::vector<Hit>& hits, const Dab& dab, const Point& point, const RepeatCell& cell, const SpotProfile& profile,
             double radius_m, double reach_m, const HitTiming& timing) {
  const double peak = dab.energy_J * profile.peakPerWatt_1_m2(radius_m);
  const double duration = timing.continuousPower_W > 0 ? dab.energy_J / timing.continuousPower_W : 0;
  const Point gap = point - dab.position;
  for (double j = std::ceil((gap.x() - reach_m) / cell.across_m); j * cell.across_m <= gap.x() + reach_m; ++j) {
    for (double k = std::ceil((gap.y() - reach_m) / cell.along_m); k * cell.along_m <= gap.y() + reach_m; ++k) {
      const double r = std::hypot(gap.x() - j * cell.across_m, gap.y() - k * cell.along_m);
      if (r > reach_m) continue;
      hits.push_back({dab.time_s + k * timing.framePeriod_s + j * timing.strokeTime_s, peak * profile.relative(r / radius_m), duration});
    }
  }
}

/// Indices of a thinned set of cells in the order of their dose.
std::vector<std::size_t> cellsByDose(const DoseMap& map) {
  const std::size_t size = map.dose_J_m2.size(), most = 16384;
  const std::size_t step = std::max<std::size_t>(1, size / most) | 1U;  // odd, so that it does not run down one column
  std::vector<std::size_t> cells;
  for (std::size_t i = step / 2; i < size; i += step) cells.push_back(i);
  std::ranges::sort(cells, {}, [&](std::size_t i) { return map.dose_J_m2[i]; });
  return cells;
}

Place placeAt(const DoseMap& map, std::size_t cell, double share) {
  Place place;
  place.share = share;
  const auto columns = static_cast<std::size_t>(map.columns);
  place.across_m = (static_cast<double>(cell % columns) + 0.5) * map.cellAcross_m;
  place.along_m = (static_cast<double>(cell / columns) + 0.5) * map.cellAlong_m;
  place.dose_J_m2 = static_cast<double>(map.dose_J_m2[cell]);
  return place;
}

}  // namespace

HitFinder::HitFinder(const std::vector<Dab>& dabs, const RepeatCell& cell, const SpotProfile& profile, double spotRadius_m,
                     const HitTiming& timing)
    : m_cell(cell),
      m_profile(profile),
      m_radius(spotRadius_m),
      m_reach(spotRadius_m * std::pow(std::log(1e4) / 2, 1 / profile.exponent())),
      m_timing(timing) {
  m_index = std::make_unique<const Index>(dabs, cell, m_reach);
}

HitFinder::~HitFinder() = default;

std::vector<Hit> HitFinder::at(const Point& point) const {
  std::vector<Hit> hits;
  m_index->near(point, [&](const Dab& dab) { addHits(hits, dab, point, m_cell, m_profile, m_radius, m_reach, m_timing); });
  std::ranges::sort(hits, {}, &Hit::time_s);
  const double start = hits.empty() ? 0 : hits.front().time_s;
  for (Hit& hit : hits) hit.time_s -= start;
  return hits;
}

std::vector<Place> choosePlaces(const DoseMap& map, const HitFinder& hits, int classes, std::stop_token stop) {
  const std::vector<std::size_t> cells = cellsByDose(map);
  const double count = static_cast<double>(cells.size());
  const auto cellAt = [&](double share) { return cells[static_cast<std::size_t>(std::min(count - 1, share * count))]; };
  std::vector<Place> places = {placeAt(map, cellAt(leastShare / 2), leastShare)};
  const double share = (1 - leastShare) / classes;
  for (int i = 0; i < classes; ++i) places.push_back(placeAt(map, cellAt(leastShare + (i + 0.5) * share), share));
  for (Place& place : places) {
    throwIfStopped(stop);
    place.hits = hits.at(Point(place.across_m, place.along_m));
  }
  return places;
}

}  // namespace bw

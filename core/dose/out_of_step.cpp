// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/out_of_step.h"

#include "core/dose/stripes.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace bw {

namespace {

constexpr int draws = 15;
constexpr double beyondLit = 3;  // spot radii beyond the lit extent

/// One endless swath, its points a whole number of times in the step-over.
struct Swath {
  DoseMap map;
  int columnsPerStep = 0;

  int reach() const { return (map.columns + columnsPerStep - 1) / columnsPerStep; }  // swaths that touch one step-over
};

Swath swathOf(std::vector<DabRow> rows, const SpotProfile& profile, const Footprint& spot, const LitBounds& lit, const RepeatCell& cell,
              const std::stop_token& stop) {
  const double low = lit.low.x() - beyondLit * spot.across_m, width = lit.high.x() + beyondLit * spot.across_m - low;
  for (DabRow& row : rows) row.first.x() -= low;
  Swath swath;
  swath.columnsPerStep = std::max(1, static_cast<int>(std::ceil(cell.across_m / (spot.across_m / 2))));
  const double step = cell.across_m / swath.columnsPerStep;
  const int columns = static_cast<int>(std::ceil(width / step));
  const int alongRows = static_cast<int>(std::ceil(cell.along_m / (spot.along_m / 2)));
  swath.map = steadyMap(rows, profile, spot, {columns * step, cell.along_m}, {columns, alongRows}, stop);
  return swath;
}

/// Adds a swath's share of one step-over, `place` swaths away, moved along by `shift` rows.
void lay(DoseMap& onto, const Swath& swath, int place, int shift) {
  const int from = place * swath.columnsPerStep, count = std::min(swath.columnsPerStep, swath.map.columns - from);
  for (int row = 0; row < onto.rows; ++row) {
    float* to = &onto.dose_J_m2[static_cast<std::size_t>(row) * static_cast<std::size_t>(onto.columns)];
    const int source = (row + shift) % onto.rows;
    for (int column = 0; column < count; ++column) to[column] += swath.map.at(from + column, source);
  }
}

DoseMap emptyStep(const Swath& swath) {
  DoseMap map;
  map.columns = swath.columnsPerStep;
  map.rows = swath.map.rows;
  map.dose_J_m2.assign(static_cast<std::size_t>(map.columns) * static_cast<std::size_t>(map.rows), 0.0F);
  return map;
}

struct Figures {
  double mean = 0;
  double squares = 0;
  double least = 0;
  double missed = 0;
  double rippleAlong = 0;
  double cv() const { return mean > 0 ? std::sqrt(std::max(0.0, squares / (mean * mean) - 1)) : 0; }
};

Figures figuresOf(const DoseMap& map) {
  const Eigen::Map<const Eigen::ArrayXf> values(map.dose_J_m2.data(), static_cast<Eigen::Index>(map.dose_J_m2.size()));
  const std::vector<double> along = rowMeans(map);
  Figures figures;
  for (const double mean : along) figures.mean += mean / static_cast<double>(along.size());
  const auto scale = static_cast<float>(figures.mean > 0 ? 1 / figures.mean : 0);
  const double deviation = static_cast<double>((values * scale - 1).square().mean());
  figures.squares = (1 + deviation) * figures.mean * figures.mean;
  figures.least = static_cast<double>(values.minCoeff());
  figures.missed = static_cast<double>((values < static_cast<float>(figures.mean / 2)).count()) / static_cast<double>(values.size());
  figures.rippleAlong = rippleOf(along);
  return figures;
}

Spread spreadOf(const std::vector<Figures>& figures, double (*figure)(const Figures&)) {
  std::vector<double> values;
  for (const Figures& f : figures) values.push_back(figure(f));
  std::ranges::sort(values);
  const auto at = [&](double share) {
    return values[static_cast<std::size_t>(std::lround(share * static_cast<double>(values.size() - 1)))];
  };
  return {at(0.05), at(0.5), at(0.95)};
}

double alternatingCv(const Swath& forth, const Swath& back) {
  double squares = 0, mean = 0;
  for (const bool first : {true, false}) {
    DoseMap map = emptyStep(forth);
    for (int place = 0; place < forth.reach(); ++place) lay(map, (place % 2 == 0) == first ? forth : back, place, 0);
    const Figures figures = figuresOf(map);
    squares += figures.squares / 2;
    mean += figures.mean / 2;
  }
  return Figures{mean, squares}.cv();
}

}  // namespace

OutOfStep outOfStep(const std::vector<DabRow>& rows, const std::vector<DabRow>& backRows, const SpotProfile& profile, const Footprint& spot,
                    const LitBounds& lit, const RepeatCell& cell, std::uint32_t seed, std::stop_token stop) {
  const Swath forth = swathOf(rows, profile, spot, lit, cell, stop), back = swathOf(backRows, profile, spot, lit, cell, stop);
  std::mt19937 random(seed);
  std::vector<Figures> figures;
  for (int draw = 0; draw < draws; ++draw) {
    throwIfStopped(stop);
    DoseMap map = emptyStep(forth);
    for (int place = 0; place < forth.reach(); ++place)
      lay(map, forth, place, static_cast<int>(random() % static_cast<unsigned>(map.rows)));
    figures.push_back(figuresOf(map));
  }
  return {spreadOf(figures, [](const Figures& f) { return f.cv(); }), spreadOf(figures, [](const Figures& f) { return f.missed; }),
          spreadOf(figures, [](const Figures& f) { return f.least; }), spreadOf(figures, [](const Figures& f) { return f.rippleAlong; }),
          alternatingCv(forth, back)};
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/fake_dose.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace bw::fake {

namespace {

using Curve = std::vector<double>;
constexpr double cell_m = 15e-6;

/// Seconds the head spends beyond the line's end but not further than `over_m`, out and back, at constant deceleration.
double turnTime(double over_m, double speed, double turnaround_s) {
  const double a = 2 * speed / turnaround_s;
  const double far = speed * turnaround_s / 4;
  return 2 / a * (speed - std::sqrt(std::max(0.0, speed * speed - 2 * a * std::clamp(over_m, 0.0, far))));
}

Curve blurred(const Curve& curve, double sigma_cells) {
  const int reach = static_cast<int>(4 * sigma_cells);
  const int size = static_cast<int>(curve.size());
  Curve made(curve.size());
  for (int i = 0; i < size; ++i) {
    double sum = 0, weights = 0;
    for (int j = -reach; j <= reach; ++j) {
      const double weight = std::exp(-j * j / (2 * sigma_cells * sigma_cells));
      weights += weight;
      if (i + j >= 0 && i + j < size) sum += weight * curve[static_cast<std::size_t>(i + j)];
    }
    made[static_cast<std::size_t>(i)] = sum / weights;
  }
  return made;
}

struct LineTimes {  // seconds per cell along one line, from -extent to +extent
  Curve core, rightTurn;
};

LineTimes lineTimes(const Settings& settings, double turnaround_s, int cells) {
  LineTimes made{Curve(static_cast<std::size_t>(cells)), Curve(static_cast<std::size_t>(cells))};
  const double half = settings.width_m / 2, v = settings.scanSpeed_m_s;
  for (int i = 0; i < cells; ++i) {
    const double left = (i - cells / 2.0) * cell_m, right = left + cell_m;
    made.core[static_cast<std::size_t>(i)] = std::max(0.0, std::min(right, half) - std::max(left, -half)) / v;
    if (settings.beamOffInTurns) continue;
    made.rightTurn[static_cast<std::size_t>(i)] = turnTime(right - half, v, turnaround_s) - turnTime(left - half, v, turnaround_s);
  }
  return made;
}

Curve folded(const Curve& swath, int columns) {
  Curve made(static_cast<std::size_t>(columns));
  for (std::size_t i = 0; i < swath.size(); ++i) made[i % made.size()] += swath[i];
  return made;
}

/// Lines per metre along the travel, every second one or all, in one repeat.
Curve lineDensity(const Settings& settings, double turnaround_s, double sigma_m, int rows, int first, int stride) {
  const int lines = static_cast<int>(settings.height_m / settings.lineSpacing_m + 1e-9) + 1;
  const double lineTime = settings.width_m / settings.scanSpeed_m_s + turnaround_s, repeat = rows * cell_m;
  Curve made(static_cast<std::size_t>(rows));
  for (int line = first; line < lines; line += stride) {
    const double y = line * settings.lineSpacing_m + settings.travelSpeed_m_s * line * lineTime;
    for (int row = 0; row < rows; ++row) {
      const double distance = std::remainder((row + 0.5) * cell_m - y, repeat);
      made[static_cast<std::size_t>(row)] +=
          std::exp(-distance * distance / (2 * sigma_m * sigma_m)) / (sigma_m * std::sqrt(2 * std::numbers::pi));
    }
  }
  return made;
}

DoseResult statistics(const DoseMap& map) {
  std::vector<float> sorted = map.dose_J_m2;
  std::sort(sorted.begin(), sorted.end());
  const auto share = [&sorted](double part) {
    return static_cast<double>(sorted[static_cast<std::size_t>(part * static_cast<double>(sorted.size() - 1))]);
  };
  DoseResult made;
  const double size = static_cast<double>(sorted.size());
  made.mean_J_m2 = std::accumulate(sorted.begin(), sorted.end(), 0.0) / size;
  double squares = 0;
  for (const float dose : sorted) squares += (static_cast<double>(dose) - made.mean_J_m2) * (static_cast<double>(dose) - made.mean_J_m2);
  made.cv = std::sqrt(squares / size) / made.mean_J_m2;
  made.min_J_m2 = share(0);
  made.max_J_m2 = share(1);
  made.p05_J_m2 = share(0.05);
  made.p95_J_m2 = share(0.95);
  const auto half = std::lower_bound(sorted.begin(), sorted.end(), static_cast<float>(made.mean_J_m2 / 2));
  made.missedFraction = static_cast<double>(half - sorted.begin()) / size;
  return made;
}

SwathProfile profileOf(const Curve& swath, const Curve& summed, double litExtent_m) {
  SwathProfile made;
  made.litExtent_m = litExtent_m;
  for (std::size_t i = 0; i < swath.size(); i += 4) {
    made.position_m.push_back((static_cast<double>(i) + 0.5 - static_cast<double>(swath.size()) / 2) * cell_m);
    made.oneSwath_J_m2.push_back(swath[i]);
    made.summed_J_m2.push_back(summed[i % summed.size()]);
  }
  return made;
}

double meanBetween(const SwathProfile& profile, double from, double to) {
  double sum = 0;
  int count = 0;
  for (std::size_t i = 0; i < profile.position_m.size(); ++i) {
    const double share = std::abs(profile.position_m[i]) / (profile.litExtent_m / 2);
    if (share < from || share > to) continue;
    sum += profile.oneSwath_J_m2[i];
    ++count;
  }
  return sum / count;
}

}  // namespace

Dose roughDose(const Settings& settings, double meanPower_W, double spotDiameter_m, double turnaround_s) {
  const double sigma_m = spotDiameter_m / 4;
  const double overshoot = settings.beamOffInTurns ? 0 : settings.scanSpeed_m_s * turnaround_s / 4;
  const int lines = static_cast<int>(settings.height_m / settings.lineSpacing_m + 1e-9) + 1;
  const double period_s = lines * (settings.width_m / settings.scanSpeed_m_s + turnaround_s);
  const int columns = static_cast<int>(std::lround(settings.stepOver_m / cell_m));
  const int rows = static_cast<int>(std::lround(settings.travelSpeed_m_s * period_s / cell_m));
  const int cells = 2 * static_cast<int>(std::ceil((settings.width_m / 2 + overshoot + 3 * spotDiameter_m) / cell_m));

  LineTimes times = lineTimes(settings, turnaround_s, cells);
  const Curve core = blurred(times.core, sigma_m / cell_m), right = blurred(times.rightTurn, sigma_m / cell_m);
  const Curve left(right.rbegin(), right.rend());
  const Curve even = lineDensity(settings, turnaround_s, sigma_m, rows, 0, 2),
              odd = lineDensity(settings, turnaround_s, sigma_m, rows, 1, 2);
  const Curve foldedCore = folded(core, columns), foldedRight = folded(right, columns), foldedLeft = folded(left, columns);

  Dose made;
  made.map = {columns, rows, cell_m, cell_m, 0, 0, {}};
  made.map.dose_J_m2.reserve(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows));
  Curve summed(static_cast<std::size_t>(columns)), swath(static_cast<std::size_t>(cells));
  for (std::size_t row = 0; row < static_cast<std::size_t>(rows); ++row) {
    for (std::size_t column = 0; column < static_cast<std::size_t>(columns); ++column) {
      const double dose = meanPower_W / cell_m *
                          (foldedCore[column] * (even[row] + odd[row]) + foldedRight[column] * even[row] + foldedLeft[column] * odd[row]);
      made.map.dose_J_m2.push_back(static_cast<float>(dose));
      summed[column] += dose / rows;
    }
  }
  const double meanDensity = lines / (rows * cell_m);
  for (std::size_t i = 0; i < swath.size(); ++i) swath[i] = meanPower_W / cell_m * meanDensity * (core[i] + (right[i] + left[i]) / 2);
  made.profile = profileOf(swath, summed, settings.width_m + 2 * overshoot);
  made.profile.middle_m = cells / 2.0 * cell_m;
  made.result = statistics(made.map);
  made.result.edgeRatio = meanBetween(made.profile, 0.8, 1) / meanBetween(made.profile, 0, 0.5);
  const auto [least, most] = std::minmax_element(summed.begin(), summed.end());
  made.result.ripple = (*most - *least) / (*most + *least);
  return made;
}

}  // namespace bw::fake

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/assessment_file.h"

#include "core/heat/part_map.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <iterator>

namespace bw {
namespace {

constexpr double csv_mm_per_m = 1e3;
constexpr double cm2_per_m2 = 1e4;
constexpr int csvDigits = 9;

void put(std::string& text, double value, char after) {
  char digits[32];
  const auto end = std::to_chars(digits, digits + sizeof digits, value, std::chars_format::general, csvDigits).ptr;
  text.append(digits, end);
  text += after;
}

}  // namespace

std::string mapCsv(const DoseMap& map) {
  std::string text = "x_mm,y_mm,dose_J_cm2\n";
  for (int row = 0; row < map.rows; ++row) {
    for (int column = 0; column < map.columns; ++column) {
      put(text, (map.originAcross_m + (column + 0.5) * map.cellAcross_m) * csv_mm_per_m, ',');
      put(text, (map.originAlong_m + (row + 0.5) * map.cellAlong_m) * csv_mm_per_m, ',');
      put(text, static_cast<double>(map.at(column, row)) / cm2_per_m2, '\n');
    }
  }
  return text;
}

std::string profileCsv(const SwathProfile& profile) {
  std::string text = "x_mm,one_swath_J_cm2,summed_J_cm2\n";
  for (std::size_t i = 0; i < profile.position_m.size(); ++i) {
    put(text, profile.position_m[i] * csv_mm_per_m, ',');
    put(text, profile.oneSwath_J_m2[i] / cm2_per_m2, ',');
    put(text, profile.summed_J_m2[i] / cm2_per_m2, '\n');
  }
  return text;
}

namespace {

double between(const std::vector<double>& times_s, const std::vector<double>& values, double time_s) {
  const auto after = std::ranges::upper_bound(times_s, time_s);
  if (after == times_s.begin()) return values.front();
  if (after == times_s.end()) return values.back();
  const auto i = static_cast<std::size_t>(after - times_s.begin());
  return std::lerp(values[i - 1], values[i], (time_s - times_s[i - 1]) / (times_s[i] - times_s[i - 1]));
}

}  // namespace

std::string traceCsv(const ThermalResult& thermal) {
  const HeatTrace &front = thermal.trace, &back = thermal.backTrace.time_s.empty() ? thermal.trace : thermal.backTrace;
  std::vector<double> times;
  std::ranges::set_union(front.time_s, back.time_s, std::back_inserter(times));
  std::string text = "time_s,front_C,back_C\n";
  for (const double time : times) {
    put(text, time, ',');
    put(text, between(front.time_s, front.front_C, time), ',');
    put(text, between(back.time_s, back.back_C, time), '\n');
  }
  return text;
}

std::string partMapCsv(const PartMap& map) {
  std::string text = "x_mm,y_mm,highest_C,at_s\n";
  for (int row = 0; row < map.rows; ++row) {
    for (int column = 0; column < map.columns; ++column) {
      const auto cell = static_cast<std::size_t>(row) * static_cast<std::size_t>(map.columns) + static_cast<std::size_t>(column);
      put(text, (column + 0.5) * map.cellX_m * csv_mm_per_m, ',');
      put(text, (row + 0.5) * map.cellY_m * csv_mm_per_m, ',');
      put(text, static_cast<double>(map.highest_C[cell]), ',');
      put(text, static_cast<double>(map.highestAt_s[cell]), '\n');
    }
  }
  return text;
}

}  // namespace bw

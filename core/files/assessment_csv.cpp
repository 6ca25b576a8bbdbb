// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/assessment_file.h"

#include "core/heat/part_map.h"

#include <charconv>

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

std::string traceCsv(const HeatTrace& trace) {
  std::string text = "time_s,front_C,back_C\n";
  for (std::size_t i = 0; i < trace.time_s.size(); ++i) {
    put(text, trace.time_s[i], ',');
    put(text, trace.front_C[i], ',');
    put(text, trace.back_C[i], '\n');
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

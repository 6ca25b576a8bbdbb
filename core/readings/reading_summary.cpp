// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/readings/reading_summary.h"

#include "core/learn/quantiles.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

/// In two passes: squares of the values themselves would lose the digits in which they differ.
ReadingSummary summaryOf(const std::string& kind, const std::vector<double>& values) {
  const auto n = static_cast<double>(values.size());
  ReadingSummary summary{kind, values.size(), 0, std::nullopt, *std::ranges::min_element(values), *std::ranges::max_element(values)};
  for (const double value : values) summary.mean += value / n;
  if (values.size() < 2) return summary;
  double squares = 0;
  for (const double value : values) squares += (value - summary.mean) * (value - summary.mean);
  summary.deviation = std::sqrt(squares / (n - 1));
  return summary;
}

}  // namespace

std::vector<ReadingSummary> summariesOf(const std::vector<Reading>& readings) {
  std::vector<std::string> kinds;
  std::vector<std::vector<double>> values;
  for (const Reading& reading : readings) {
    if (!std::isfinite(reading.value)) continue;
    const auto known = std::ranges::find(kinds, reading.kind);
    const auto at = static_cast<std::size_t>(known - kinds.begin());
    if (known == kinds.end()) {
      kinds.push_back(reading.kind);
      values.emplace_back();
    }
    values[at].push_back(reading.value);
  }
  std::vector<ReadingSummary> summaries;
  for (std::size_t i = 0; i < kinds.size(); ++i) summaries.push_back(summaryOf(kinds[i], values[i]));
  return summaries;
}

Reading asOneReading(const ReadingSummary& summary) {
  Reading reading{summary.kind, summary.mean, {}, {}};
  if (summary.deviation) reading.uncertainty = nineInTenByScatter(static_cast<int>(summary.count) - 1) * *summary.deviation;
  return reading;
}

std::optional<SeriesPeak> peakOf(const TemperatureSeries& series) {
  const auto highest = std::ranges::max_element(series.temperature_C);
  if (highest == series.temperature_C.end()) return std::nullopt;
  const auto at = static_cast<std::size_t>(highest - series.temperature_C.begin());
  return SeriesPeak{series.kind, *highest, series.time_s.at(at), series.temperature_C.size()};
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/readings/csv_columns.h"
#include "core/values/plan.h"

#include <optional>
#include <string>
#include <vector>

namespace bw {

/// A row under a mapping: metres, degrees Celsius and seconds, cell by cell; what could not be read is empty and said.
struct ConvertedRow {
  std::size_t line = 0;
  std::vector<std::optional<double>> values;
  std::vector<std::string> problems;
};

/// `most` rows from `first` on, counted from the first data row. For the preview.
std::vector<ConvertedRow> convertRows(const CsvTable& table, const std::vector<ColumnMapping>& columns, std::size_t first,
                                      std::size_t most);

/// A temperature log, from its first row on.
struct TemperatureSeries {
  std::string kind;
  std::vector<double> time_s;
  std::vector<double> temperature_C;
};

struct CsvProblem {
  std::size_t line = 0;
  std::string message;
};

struct CsvReadings {
  std::vector<Reading> readings;          // one a cell, in the unit of its kind
  std::vector<TemperatureSeries> series;  // temperatures where there is a time; these are no readings besides
  std::vector<CsvProblem> problems;       // the first hundred
  std::size_t problemCount = 0;
};

/// Everything under a mapping. A cell that cannot be read is left out and named; nothing is guessed for it. Times of day go on past
/// midnight; a row whose time steps back is left out of the series.
CsvReadings readingsOf(const CsvTable& table, const std::vector<ColumnMapping>& columns);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/readings/csv_readings.h"

#include "core/readings/csv_number.h"

#include <algorithm>

namespace bw {

namespace {

constexpr std::size_t mostProblems = 100;
constexpr double halfDay_s = 43200;
constexpr double day_s = 86400;

/// What a gauge or a logger of this trade can show; beyond it the unit or the decimal mark is wrong.
struct Bounds {
  double low;
  double high;
  const char* words;
};

Bounds boundsOf(ColumnMeaning meaning) {
  if (meaning == ColumnMeaning::Thickness) return {-1e-3, 0.1, "a coat's thickness (up to 100 mm)"};
  if (meaning == ColumnMeaning::Temperature) return {-273.15, 5000, "a temperature (above absolute zero, up to 5000 °C)"};
  return {-1e12, 1e12, "a time"};
}

std::optional<double> readTime(const std::string& cell, CsvUnit unit, std::string& why) {
  const auto time = readCsvTime(cell);
  const CsvTimeKind wanted = unit == CsvUnit::Clock ? CsvTimeKind::Clock : CsvTimeKind::DateTime;
  if (time && time->kind == wanted) return time->seconds;
  why = unit == CsvUnit::Clock ? "is no time of day; hh:mm:ss is accepted"
                               : "is no date and time; ISO 8601 such as 2025-04-30T14:05:00 is accepted";
  return std::nullopt;
}

std::optional<double> readCell(const std::string& cell, const ColumnMapping& column, char decimal, std::string& why) {
  if (column.unit == CsvUnit::Clock || column.unit == CsvUnit::DateTime) return readTime(cell, column.unit, why);
  const auto number = readCsvNumber(cell, decimal, why);
  if (!number) return std::nullopt;
  const CsvUnit own = unitOf(number->unit);
  const CsvUnit unit = own == CsvUnit::None ? column.unit : own;
  if (!number->unit.empty() && (own == CsvUnit::None || quantityOf(own) != quantityOf(column.unit))) {
    why = std::string("does not go with the column's unit, ") + symbolOf(column.unit);
    return std::nullopt;
  }
  const double value = toCore(number->value, unit);
  const Bounds bounds = boundsOf(column.meaning);
  if (value >= bounds.low && value <= bounds.high) return value;
  why = std::string("is not ") + bounds.words + "; is the unit or the decimal mark another one?";
  return std::nullopt;
}

std::string nameOf(const ColumnMapping& column, std::size_t index) {
  return column.header.empty() ? "column " + std::to_string(index + 1) : shownCell(column.header);
}

ConvertedRow converted(const CsvRow& row, const std::vector<ColumnMapping>& columns, char decimal) {
  ConvertedRow result{row.line, std::vector<std::optional<double>>(columns.size()), {}};
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (columns[i].meaning == ColumnMeaning::Ignored) continue;
    std::string why = "is missing";
    const bool there = i < row.cells.size() && !row.cells[i].empty();
    if (there) result.values[i] = readCell(row.cells[i], columns[i], decimal, why);
    if (result.values[i]) continue;
    result.problems.push_back(nameOf(columns[i], i) + ": " + (there ? shownCell(row.cells[i]) : "the value") + " " + why);
  }
  if (row.cells.size() > columns.size()) {
    result.problems.push_back("holds " + std::to_string(row.cells.size()) + " cells where " + std::to_string(columns.size()) +
                              " are expected; none of them is taken, since a mark may have parted a number");
    std::ranges::fill(result.values, std::nullopt);
  }
  return result;
}

/// Time since the first row; a time of day that falls by more than half a day has passed midnight.
class Watch {
 public:
  explicit Watch(CsvUnit unit) : m_ofDay(unit == CsvUnit::Clock) {}

  std::optional<double> sinceStart(double time_s) {
    if (!m_begun) m_start = m_last = time_s;
    m_begun = true;
    time_s += m_days * day_s;
    if (m_ofDay && time_s < m_last - halfDay_s) {
      time_s += day_s;
      ++m_days;
    }
    if (time_s < m_last) return std::nullopt;
    m_last = time_s;
    return time_s - m_start;
  }

 private:
  bool m_ofDay;
  int m_days = 0;
  double m_last = 0;
  bool m_begun = false;
  double m_start = 0;
};

void complain(CsvReadings& all, std::size_t line, const std::string& message) {
  if (++all.problemCount <= mostProblems) all.problems.push_back({line, message});
}

/// Value in the unit that the kind names.
double inKind(double value, ColumnMeaning meaning) { return meaning == ColumnMeaning::Thickness ? value * 1e6 : value; }

}  // namespace

std::vector<ConvertedRow> convertRows(const CsvTable& table, const std::vector<ColumnMapping>& columns, std::size_t first,
                                      std::size_t most) {
  std::vector<ConvertedRow> rows;
  for (std::size_t i = table.firstData + first; i < table.rows.size() && rows.size() < most; ++i) {
    rows.push_back(converted(table.rows[i], columns, table.format.decimal));
  }
  return rows;
}

CsvReadings readingsOf(const CsvTable& table, const std::vector<ColumnMapping>& columns) {
  CsvReadings all;
  const auto clock = std::ranges::find(columns, ColumnMeaning::Time, &ColumnMapping::meaning);
  const bool timed = clock != columns.end();
  const auto clockAt = static_cast<std::size_t>(clock - columns.begin());
  Watch watch(timed ? clock->unit : CsvUnit::None);
  std::vector<std::size_t> seriesOf(columns.size(), 0);
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (!timed || columns[i].meaning != ColumnMeaning::Temperature) continue;
    seriesOf[i] = all.series.size();
    all.series.push_back({columns[i].kind, {}, {}});
  }
  for (std::size_t r = table.firstData; r < table.rows.size(); ++r) {
    const ConvertedRow row = converted(table.rows[r], columns, table.format.decimal);
    for (const std::string& problem : row.problems) complain(all, row.line, problem);
    std::optional<double> time;
    if (timed && row.values[clockAt]) {
      time = watch.sinceStart(*row.values[clockAt]);
      if (!time) complain(all, row.line, "its time lies before that of the row before it");
    }
    for (std::size_t i = 0; i < columns.size(); ++i) {
      const ColumnMeaning meaning = columns[i].meaning;
      if (!row.values[i] || meaning == ColumnMeaning::Ignored || meaning == ColumnMeaning::Time) continue;
      if (timed && meaning == ColumnMeaning::Temperature) {
        if (!time) continue;
        all.series[seriesOf[i]].time_s.push_back(*time);
        all.series[seriesOf[i]].temperature_C.push_back(*row.values[i]);
      } else {
        all.readings.push_back({columns[i].kind, inKind(*row.values[i], meaning), {}, {}});
      }
    }
  }
  return all;
}

}  // namespace bw

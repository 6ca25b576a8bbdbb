// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/readings/csv_table.h"

#include "core/files/project_file.h"
#include "core/readings/csv_number.h"
#include "core/readings/csv_rows.h"
#include "core/readings/csv_units.h"

#include <algorithm>
#include <array>
#include <map>

namespace bw {

namespace {

constexpr std::size_t formatRows = 200;  // rows that tell format and width

bool looksNumeric(const std::string& cell) {
  std::string why;
  if (readCsvTime(cell)) return true;
  for (const char decimal : {'.', ','}) {
    const auto number = readCsvNumber(cell, decimal, why);
    if (number && (number->unit.empty() || unitOf(number->unit) != CsvUnit::None)) return true;
  }
  return false;
}

bool holdsNumber(const CsvRow& row) { return std::ranges::any_of(row.cells, looksNumeric); }

/// The commonest number of cells among the rows with a number in them.
std::size_t widthOf(const std::vector<CsvRow>& rows) {
  std::map<std::size_t, std::size_t> counts;
  for (std::size_t i = 0; i < std::min(rows.size(), formatRows); ++i) {
    if (holdsNumber(rows[i])) ++counts[rows[i].cells.size()];
  }
  const auto most = std::ranges::max_element(counts, {}, [](const auto& count) { return count.second; });
  return most == counts.end() ? 0 : most->first;
}

bool isUnitRow(const CsvRow& row) {
  const auto isUnit = [](const std::string& cell) { return trimmed(cell).empty() || unitOf(bareUnit(cell)) != CsvUnit::None; };
  const bool some = std::ranges::any_of(row.cells, [](const std::string& cell) { return !trimmed(cell).empty(); });
  return some && std::ranges::all_of(row.cells, isUnit);
}

void findHeader(CsvTable& table) {
  const auto& rows = table.rows;
  table.columns = widthOf(rows);
  const auto data = std::ranges::find_if(rows, [&](const CsvRow& row) { return row.cells.size() == table.columns && holdsNumber(row); });
  table.firstData = static_cast<std::size_t>(data - rows.begin());
  if (data == rows.end()) throw FileError("holds no row of numbers; a table of readings is accepted");
  if (data == rows.begin() || (data - 1)->cells.size() != table.columns) return;
  table.headers = (data - 1)->cells;
  const bool units = isUnitRow(*(data - 1)) && data - rows.begin() > 1 && (data - 2)->cells.size() == table.columns;
  for (std::size_t i = 0; units && i < table.columns; ++i) table.headers[i] = (data - 2)->cells[i] + " [" + (data - 1)->cells[i] + "]";
}

/// With commas for both, no row fits its header.
void refuseDoubleCommas(const CsvTable& table) {
  if (table.format.separator != ',' || table.firstData == 0) return;
  const CsvRow& header = table.rows[table.firstData - 1];
  if (header.cells.size() >= table.columns || header.cells.size() < 2) return;
  throw FileError("line " + std::to_string(table.rows[table.firstData].line) + " holds " + std::to_string(table.columns) +
                  " cells below a header of " + std::to_string(header.cells.size()) +
                  ": a comma both parts cells and marks decimals; save it with semicolons or tabs, or with a decimal point");
}

void tellDecimal(CsvTable& table) {
  std::array<std::size_t, 5> hints{};
  for (std::size_t i = table.firstData; i < table.rows.size(); ++i) {
    for (const std::string& cell : table.rows[i].cells) {
      if (!readCsvTime(cell)) ++hints[static_cast<std::size_t>(decimalHint(cell))];
    }
  }
  const auto count = [&](DecimalHint hint) { return hints[static_cast<std::size_t>(hint)]; };
  const std::size_t points = count(DecimalHint::Point);
  const std::size_t commas = count(DecimalHint::Comma);
  const bool certain = points + commas > 0;
  const bool comma = certain ? commas > points : count(DecimalHint::DoubtfulComma) > count(DecimalHint::DoubtfulPoint);
  table.format.decimal = comma ? ',' : '.';
  if (points > 0 && commas > 0) {
    table.remarks.push_back("decimal points and decimal commas both occur; the commoner one is taken, cells with the other are left out");
  } else if (!certain && count(DecimalHint::DoubtfulComma) + count(DecimalHint::DoubtfulPoint) > 0) {
    table.remarks.push_back(std::string("every ") + (comma ? "comma" : "point") +
                            " has three digits behind it: taken as the decimal mark; if it parts thousands, choose the other one");
  }
}

/// A single column of decimal commas looks like two columns.
bool isOneColumn(const std::vector<CsvRow>& rows) {
  const auto digitsOnly = [](const std::string& cell) {
    return !cell.empty() && std::ranges::all_of(cell, [](char c) { return c >= '0' && c <= '9'; });
  };
  const auto isPair = [&](const CsvRow& row) {
    return row.cells.size() == 2 && digitsOnly(row.cells[1]) && looksNumeric(row.cells[0]) && !readCsvTime(row.cells[0]);
  };
  const auto first = std::ranges::find_if(rows, isPair);
  if (first == rows.end()) return false;
  if (first == rows.begin()) return std::all_of(first, rows.end(), isPair);
  return (first - 1)->cells.size() == 1;
}

}  // namespace

CsvTable readCsvTable(std::string_view bytes, const std::optional<CsvFormat>& wanted) {
  CsvTable table;
  if (wanted)
    table.format = *wanted;
  else
    table.format.encoding = encodingOf(bytes);
  const std::string text = utf8Of(bytes, table.format.encoding);
  if (!wanted) table.format.separator = separatorOf(text);
  table.rows = splitRows(text, table.format.separator);
  if (!wanted && table.format.separator == ',' && isOneColumn(table.rows)) {
    const bool headed = !table.rows.front().cells.empty() && !looksNumeric(table.rows.front().cells[0]);
    if (!headed)
      table.remarks.push_back(
          "one comma on every line is taken as the decimal mark; if it parts two columns, choose the comma as separator");
    table.format.separator = 0;
    table.rows = splitRows(text, 0);
  }
  findHeader(table);
  refuseDoubleCommas(table);
  if (!wanted) tellDecimal(table);
  return table;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/readings/csv_text.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace bw {

/// How a table of text is written.
struct CsvFormat {
  Encoding encoding = Encoding::Utf8;
  char separator = ';';  // ';', ',', '\t', or 0 for a single column
  char decimal = '.';
  bool operator==(const CsvFormat&) const = default;
};

struct CsvRow {
  std::size_t line = 0;  // of the file, from 1
  std::vector<std::string> cells;
};

struct CsvTable {
  CsvFormat format;
  std::vector<CsvRow> rows;          // those that hold something
  std::size_t firstData = 0;         // rows before it are heading
  std::size_t columns = 0;           // of the data rows, by majority
  std::vector<std::string> headers;  // one a column, with the row of units if there is one; empty: no header row
  std::vector<std::string> remarks;  // what was doubtful in telling the format
};

inline constexpr std::size_t mostCsvRows = 200'000;
inline constexpr std::size_t mostCsvColumns = 256;
inline constexpr std::size_t mostCsvCells = 2'000'000;
inline constexpr std::size_t longestCsvCell_bytes = 10'000;

/// Reads a table, telling its format or by the one that is wanted. A decimal comma between unquoted commas cannot be told from a separator:
/// such a table is refused. Throws FileError, whatever the bytes are; the time goes with their number.
CsvTable readCsvTable(std::string_view bytes, const std::optional<CsvFormat>& wanted = {});

}  // namespace bw

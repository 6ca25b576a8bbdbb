// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/readings/csv_rows.h"

#include "core/files/project_file.h"
#include "core/readings/csv_number.h"

#include <algorithm>
#include <array>
#include <map>

namespace bw {

namespace {

constexpr std::size_t lookedAt_bytes = 65536;

/// A first line as spreadsheets write it to name their separator.
char namedSeparator(std::string_view text) {
  const bool named = text.size() >= 5 && (text.starts_with("sep=") || text.starts_with("SEP="));
  return named && (text.size() == 5 || text[5] == '\r' || text[5] == '\n') ? text[4] : '\0';
}

/// Lines at the beginning and how often a mark stands in each outside quotes.
std::map<std::size_t, std::size_t> countsOf(std::string_view text, char mark) {
  std::map<std::size_t, std::size_t> lines;
  std::size_t count = 0;
  bool quoted = false;
  for (const char c : text.substr(0, lookedAt_bytes)) {
    if (c == '"') quoted = !quoted;
    if (!quoted && c == mark) ++count;
    if (!quoted && c == '\n') {
      ++lines[count];
      count = 0;
    }
  }
  ++lines[count];
  return lines;
}

/// Cuts text into rows of cells, one character at a time.
class Splitter {
 public:
  Splitter(std::string_view text, char separator) : m_text(text), m_separator(separator) {}

  std::vector<CsvRow> rows() {
    if (namedSeparator(m_text)) skipLine();
    while (m_at < m_text.size()) readRow();
    return std::move(m_rows);
  }

 private:
  void skipLine() {
    while (m_at < m_text.size() && m_text[m_at++] != '\n') continue;
    ++m_line;
  }

  void readRow() {
    CsvRow row{m_line, {}};
    bool some = false;
    do {
      row.cells.push_back(readCell());
      some |= !row.cells.back().empty();
      if (row.cells.size() > mostCsvColumns)
        refuse("holds more than " + std::to_string(mostCsvColumns) + " columns, more than a table of readings has");
    } while (takeSeparator());
    ++m_line;
    if (!some) return;
    m_cells += row.cells.size();
    if (m_rows.size() >= mostCsvRows || m_cells > mostCsvCells) {
      refuse("goes beyond " + std::to_string(mostCsvRows) + " rows or " + std::to_string(mostCsvCells) +
             " cells; shorter logs are accepted");
    }
    m_rows.push_back(std::move(row));
  }

  /// Steps over what ended a cell. Whether another cell follows in this row.
  bool takeSeparator() {
    if (m_at >= m_text.size()) return false;
    const char c = m_text[m_at++];
    if (c == '\r' && m_at < m_text.size() && m_text[m_at] == '\n') ++m_at;
    return c == m_separator && c != '\r' && c != '\n';
  }

  bool ends(char c) const { return c == '\n' || c == '\r' || (m_separator != 0 && c == m_separator); }

  std::string readCell() {
    std::string cell;
    while (m_at < m_text.size() && m_text[m_at] == ' ') ++m_at;
    if (m_at < m_text.size() && m_text[m_at] == '"') readQuoted(cell);
    while (m_at < m_text.size() && !ends(m_text[m_at])) add(cell, m_text[m_at++]);
    return std::string(trimmed(cell));
  }

  void readQuoted(std::string& cell) {
    const std::size_t opened = m_line;
    for (++m_at; m_at < m_text.size(); ++m_at) {
      if (m_text[m_at] == '"') {
        ++m_at;
        if (m_at >= m_text.size() || m_text[m_at] != '"') return;
      }
      m_line += m_text[m_at] == '\n';
      add(cell, m_text[m_at]);
    }
    m_line = opened;
    refuse("opens a quote that is not closed");
  }

  void add(std::string& cell, char c) const {
    if (cell.size() >= longestCsvCell_bytes)
      refuse("holds a cell of more than " + std::to_string(longestCsvCell_bytes) + " characters; shorter cells are accepted");
    cell += c;
  }

  [[noreturn]] void refuse(const std::string& why) const { throw FileError("line " + std::to_string(m_line) + " " + why); }

  std::string_view m_text;
  char m_separator;
  std::size_t m_at = 0;
  std::size_t m_line = 1;
  std::size_t m_cells = 0;
  std::vector<CsvRow> m_rows;
};

}  // namespace

char separatorOf(std::string_view text) {
  if (const char named = namedSeparator(text); named == ';' || named == ',' || named == '\t') return named;
  char best = 0;
  std::size_t agreeing = 0;
  for (const char mark : {';', '\t', ','}) {
    for (const auto& [count, lines] : countsOf(text, mark)) {
      if (count == 0 || lines <= agreeing) continue;
      best = mark;
      agreeing = lines;
    }
  }
  return best;
}

std::vector<CsvRow> splitRows(std::string_view text, char separator) { return Splitter(text, separator).rows(); }

}  // namespace bw

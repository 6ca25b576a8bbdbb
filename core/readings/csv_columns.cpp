// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/readings/csv_columns.h"

#include "core/readings/csv_number.h"

#include <algorithm>
#include <initializer_list>
#include <optional>

namespace bw {

namespace {

constexpr std::size_t columnRows = 200;  // rows that tell what stands in a column

/// What the cells of a column look like, at least every second one of those that hold something.
struct Content {
  bool numbers = false;
  bool clocks = false;
  bool dates = false;
  bool days = false;    // dates without a time of day
  bool counts = false;  // all: 1, 2, 3, ...
  bool rises = false;   // all
};

Content contentOf(const CsvTable& table, std::size_t column) {
  std::size_t numbers = 0, clocks = 0, dates = 0, days = 0, counts = 0, rises = 0, seen = 0;
  double last = 0;
  std::string why;
  for (std::size_t i = table.firstData; i < std::min(table.rows.size(), table.firstData + columnRows); ++i) {
    const auto& cells = table.rows[i].cells;
    if (column >= cells.size() || cells[column].empty()) continue;
    const auto time = readCsvTime(cells[column]);
    const auto number = readCsvNumber(cells[column], table.format.decimal, why);
    clocks += time && time->kind == CsvTimeKind::Clock;
    dates += time && time->kind == CsvTimeKind::DateTime;
    days += time && trimmed(cells[column]).size() == 10;
    numbers += number && (number->unit.empty() || unitOf(number->unit) != CsvUnit::None);
    counts += number && (seen == 0 || number->value == last + 1);
    rises += number && (seen == 0 || number->value > last);
    if (number) last = number->value;
    ++seen;
  }
  const auto most = [&](std::size_t count) { return seen > 0 && 2 * count >= seen; };
  const auto all = [&](std::size_t count) { return seen > 1 && count == seen; };
  return {most(numbers), most(clocks), most(dates), most(days), all(counts), all(rises)};
}

bool anyWord(const std::vector<std::string>& words, std::initializer_list<const char*> beginnings) {
  return std::ranges::any_of(words, [&](const std::string& word) {
    return std::ranges::any_of(beginnings, [&](const char* beginning) { return word.starts_with(beginning); });
  });
}

/// A unit in brackets, behind a stroke, or as the last word.
CsvUnit unitInHeader(const std::string& header, const std::vector<std::string>& words) {
  const std::size_t open = header.find_last_of("([");
  if (open != std::string::npos) {
    const CsvUnit unit = unitOf(bareUnit(std::string_view(header).substr(open)));
    if (unit != CsvUnit::None) return unit;
  }
  if (words.empty() || (words.size() == 1 && words[0].size() == 1)) return CsvUnit::None;  // a lone letter is a name
  return unitOf(words.back());
}

/// English and German words, the languages of the logs seen so far.
ColumnMeaning meaningByName(const std::vector<std::string>& words) {
  if (anyWord(words, {"thick", "dft", "schicht", "dicke", "coat"})) return ColumnMeaning::Thickness;
  if (anyWord(words, {"temp", "therm"})) return ColumnMeaning::Temperature;
  if (anyWord(words, {"time", "zeit", "elapsed", "uhrzeit", "timestamp", "datetime", "date", "datum", "messzeit"}))
    return ColumnMeaning::Time;
  if (anyWord(words, {"face", "front", "back", "rear", "vorder", "rück"})) return ColumnMeaning::Temperature;
  return ColumnMeaning::Ignored;
}

ColumnMeaning meaningByUnit(CsvUnit unit) {
  switch (quantityOf(unit)) {
    case CsvQuantity::Length:
      return ColumnMeaning::Thickness;
    case CsvQuantity::Temperature:
      return ColumnMeaning::Temperature;
    case CsvQuantity::Time:
      return ColumnMeaning::Time;
    case CsvQuantity::None:
      break;
  }
  return ColumnMeaning::Ignored;
}

void ignore(ColumnMapping& column, const std::string& why) {
  column.meaning = ColumnMeaning::Ignored;
  column.unit = CsvUnit::None;
  column.kind.clear();
  column.why = why;
  column.sure = false;
}

/// The reading's kind by the header's words; whether they say it or it is assumed.
bool nameKind(ColumnMapping& column, const std::vector<std::string>& words) {
  if (column.meaning == ColumnMeaning::Thickness) {
    const bool after = anyWord(words, {"after", "nach"});
    column.kind = after ? "thickness_after_um" : "thickness_before_um";
    return after || anyWord(words, {"before", "vor"});
  }
  if (column.meaning == ColumnMeaning::Temperature) {
    const bool back = anyWord(words, {"back", "rear", "rück", "hinten"});
    column.kind = back ? "back_C" : "face_C";
    return back || anyWord(words, {"face", "front", "vorder"});
  }
  return true;
}

/// A unit where none is written: the commonest one, to be looked at.
CsvUnit assumedUnit(ColumnMeaning meaning) {
  if (meaning == ColumnMeaning::Thickness) return CsvUnit::Micrometre;
  return meaning == ColumnMeaning::Temperature ? CsvUnit::Celsius : CsvUnit::Second;
}

ColumnMapping byHeader(const std::string& header, const Content& content) {
  ColumnMapping column{header, ColumnMeaning::Ignored, CsvUnit::None, "", "", false};
  const std::vector<std::string> words = wordsOf(header);
  const CsvUnit unit = unitInHeader(header, words);
  const ColumnMeaning name = meaningByName(words);
  const ColumnMeaning measure = meaningByUnit(unit);
  if (content.clocks || content.dates) {
    column.meaning = ColumnMeaning::Time;
    column.unit = content.clocks ? CsvUnit::Clock : CsvUnit::DateTime;
    column.why = content.clocks ? "times of day stand in it" : "dates stand in it";
    column.sure = true;
    return column;
  }
  if (!content.numbers) return ignore(column, "it holds text"), column;
  if (name != ColumnMeaning::Ignored && measure != ColumnMeaning::Ignored && name != measure) {
    return ignore(column, "its name and its unit do not go together"), column;
  }
  column.meaning = name != ColumnMeaning::Ignored ? name : measure;
  if (column.meaning == ColumnMeaning::Ignored) return ignore(column, "its header names nothing that is known here"), column;
  column.unit = unit == CsvUnit::None ? assumedUnit(column.meaning) : unit;
  column.why = name != ColumnMeaning::Ignored ? "its header says so" : "its unit says so";
  if (unit == CsvUnit::None) column.why += std::string("; no unit is written, ") + symbolOf(column.unit) + " is assumed";
  const bool kindSaid = nameKind(column, words);
  if (!kindSaid) column.why += column.meaning == ColumnMeaning::Thickness ? "; before or after is not said" : "; front or back is not said";
  column.sure = unit != CsvUnit::None && kindSaid;
  return column;
}

ColumnMapping byContent(const Content& content, CsvPurpose purpose) {
  ColumnMapping column = byHeader("", content);
  if (column.meaning == ColumnMeaning::Time || !content.numbers) return column;
  if (content.counts) return ignore(column, "it counts the rows"), column;
  if (purpose == CsvPurpose::Unknown) return ignore(column, "without a header its meaning is not known"), column;
  column.meaning = purpose == CsvPurpose::Thickness ? ColumnMeaning::Thickness : ColumnMeaning::Temperature;
  column.unit = assumedUnit(column.meaning);
  nameKind(column, {});
  column.why = std::string("without a header it is taken for what was looked for, in ") + symbolOf(column.unit);
  return column;
}

/// Numbers that rise in the first column beside others are taken for the time of a temperature log.
void lookForTime(std::vector<ColumnMapping>& columns, const Content& first, CsvPurpose purpose) {
  const bool some = std::ranges::any_of(columns, [](const ColumnMapping& column) { return column.meaning == ColumnMeaning::Time; });
  if (some || purpose != CsvPurpose::Temperature || columns.size() < 2 || !first.rises || !columns[0].header.empty()) return;
  columns[0] = {"", ColumnMeaning::Time, CsvUnit::Second, "", "without a header, rising numbers are taken for seconds", false};
}

}  // namespace

std::vector<ColumnMapping> proposeColumns(const CsvTable& table, CsvPurpose purpose) {
  std::vector<ColumnMapping> columns;
  std::optional<std::size_t> time;
  bool onlyDays = false;
  for (std::size_t i = 0; i < table.columns; ++i) {
    const Content content = contentOf(table, i);
    columns.push_back(table.headers.empty() ? byContent(content, purpose) : byHeader(table.headers[i], content));
    if (columns.back().meaning != ColumnMeaning::Time) continue;
    if (time && !(onlyDays && !content.days)) {
      ignore(columns.back(), "another column is the time");
      continue;
    }
    if (time) ignore(columns[*time], "the time of day stands in another column");
    time = i;
    onlyDays = content.days;
  }
  if (!columns.empty()) lookForTime(columns, contentOf(table, 0), purpose);
  return columns;
}

}  // namespace bw

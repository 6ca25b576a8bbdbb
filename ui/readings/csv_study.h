// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/readings/reading_summary.h"

#include <QString>

#include <memory>
#include <optional>
#include <vector>

namespace bw {

/// A file of readings as it was understood: plain values, worked out in the background.
struct CsvStudy {
  std::shared_ptr<const std::string> bytes;  // nothing where the file could not be read
  CsvPurpose purpose = CsvPurpose::Unknown;
  std::shared_ptr<const CsvTable> table;  // nothing where it holds none
  std::vector<ColumnMapping> columns;
  std::vector<ConvertedRow> understood;  // of the first rows of numbers
  CsvReadings all;
  std::vector<ReadingSummary> summaries;
  std::vector<SeriesPeak> peaks;
  bool tooMany = false;  // readings for a trial: their means enter, and they themselves are not kept here
  QString problem;       // one sentence; empty: none

  bool hasReadings() const { return !summaries.empty() || !peaks.empty(); }
};

inline constexpr std::size_t previewRows = 40;
inline constexpr std::size_t mostReadings = 100;  // of one file that enter a trial each by itself

/// Reads the file, and what it tells of itself.
CsvStudy studyFile(const QString& path, CsvPurpose purpose);
/// The same bytes in a format that a person chose; nothing: that which they tell of themselves.
CsvStudy studyAs(const CsvStudy& before, const QString& name, const std::optional<CsvFormat>& format, CsvPurpose purpose);
/// The same table with columns that a person chose.
CsvStudy studyWith(CsvStudy before, std::vector<ColumnMapping> columns);

/// What is entered into a trial: every reading or, `asMeans`, one of each kind; of a log its highest value.
std::vector<Reading> readingsFrom(const CsvStudy& study, bool asMeans);

/// Another meaning for a column: what follows from it for unit and kind, and that a person said so. `kind` is "" for a time.
void chooseMeaning(std::vector<ColumnMapping>& columns, std::size_t index, ColumnMeaning meaning, const std::string& kind);
void chooseUnit(std::vector<ColumnMapping>& columns, std::size_t index, CsvUnit unit);

}  // namespace bw

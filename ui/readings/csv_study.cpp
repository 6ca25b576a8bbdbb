// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/csv_study.h"

#include "core/files/project_file.h"

#include <QCoreApplication>
#include <QFile>
#include <QFileInfo>

namespace bw {
namespace {

struct CsvStudyWords {
  Q_DECLARE_TR_FUNCTIONS(CsvStudyWords)
};

CsvStudy failed(CsvStudy study, const QString& name, const QString& why) {
  study.table.reset();
  study.columns.clear();
  study.problem = QStringLiteral("%1 %2.").arg(name, why);
  return study;
}

/// Everything that follows from table and columns.
CsvStudy workedOut(CsvStudy study) {
  study.understood = convertRows(*study.table, study.columns, 0, previewRows);
  study.all = readingsOf(*study.table, study.columns);
  study.summaries = summariesOf(study.all.readings);
  study.tooMany = study.all.readings.size() > mostReadings;
  if (study.tooMany) study.all.readings.clear();
  study.peaks.clear();
  for (const TemperatureSeries& series : study.all.series) {
    if (const auto peak = peakOf(series)) study.peaks.push_back(*peak);
  }
  study.all.series.clear();  // long, and told by their peaks
  return study;
}

CsvUnit usualUnit(ColumnMeaning meaning) {
  switch (meaning) {
    case ColumnMeaning::Thickness:
      return CsvUnit::Micrometre;
    case ColumnMeaning::Temperature:
      return CsvUnit::Celsius;
    case ColumnMeaning::Time:
      return CsvUnit::Second;
    case ColumnMeaning::Ignored:
      break;
  }
  return CsvUnit::None;
}

}  // namespace

CsvStudy studyFile(const QString& path, CsvPurpose purpose) {
  const QString name = QFileInfo(path).fileName();
  CsvStudy study;
  QFile file(path);
  if (QFileInfo(path).isDir()) return failed(study, name, CsvStudyWords::tr("is a folder; a file of readings is accepted"));
  if (!file.open(QIODevice::ReadOnly)) return failed(study, name, CsvStudyWords::tr("cannot be read: %1").arg(file.errorString()));
  if (file.size() > static_cast<qint64>(largestCsv_bytes))
    return failed(study, name,
                  CsvStudyWords::tr("holds %1 MB, so it is no log of a gauge; up to %2 MB is accepted")
                      .arg(file.size() / 1000000)
                      .arg(largestCsv_bytes / 1000000));
  study.bytes = std::make_shared<const std::string>(file.read(static_cast<qint64>(largestCsv_bytes)).toStdString());
  if (study.bytes->empty()) return failed(study, name, CsvStudyWords::tr("is empty; a table of readings is accepted"));
  return studyAs(study, name, std::nullopt, purpose);
}

CsvStudy studyAs(const CsvStudy& before, const QString& name, const std::optional<CsvFormat>& format, CsvPurpose purpose) {
  CsvStudy study;
  study.bytes = before.bytes;
  study.purpose = purpose;
  if (!study.bytes) return before;
  try {
    study.table = std::make_shared<const CsvTable>(readCsvTable(*study.bytes, format));
    study.columns = proposeColumns(*study.table, purpose);
    return workedOut(std::move(study));
  } catch (const std::exception& error) {
    return failed(study, name, QString::fromUtf8(error.what()));
  }
}

CsvStudy studyWith(CsvStudy before, std::vector<ColumnMapping> columns) {
  if (!before.table) return before;
  before.columns = std::move(columns);
  return workedOut(std::move(before));
}

std::vector<Reading> readingsFrom(const CsvStudy& study, bool asMeans) {
  std::vector<Reading> readings;
  if (asMeans || study.tooMany) {
    for (const ReadingSummary& summary : study.summaries) readings.push_back(asOneReading(summary));
  } else {
    readings = study.all.readings;
  }
  for (const SeriesPeak& peak : study.peaks) readings.push_back({peak.kind, peak.temperature_C, {}, {}});
  return readings;
}

void chooseMeaning(std::vector<ColumnMapping>& columns, std::size_t index, ColumnMeaning meaning, const std::string& kind) {
  ColumnMapping& column = columns.at(index);
  const bool fits = quantityOf(column.unit) == quantityOf(usualUnit(meaning));
  if (meaning == ColumnMeaning::Time) {
    for (ColumnMapping& other : columns) {
      if (&other == &column || other.meaning != ColumnMeaning::Time) continue;
      other.meaning = ColumnMeaning::Ignored;
      other.unit = CsvUnit::None;
      other.why = "another column is the time";
    }
  }
  column.meaning = meaning;
  column.kind = kind;
  if (!fits) column.unit = usualUnit(meaning);
  column.why = "you chose it";
  column.sure = true;
}

void chooseUnit(std::vector<ColumnMapping>& columns, std::size_t index, CsvUnit unit) {
  columns.at(index).unit = unit;
  columns.at(index).why = "you chose it";
  columns.at(index).sure = true;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/csv_reader.h"
#include "ui/readings/csv_words.h"
#include "ui/readings/preview_model.h"

#include "tests/support/catch.h"

#include <QAbstractItemModelTester>
#include <QTemporaryDir>
#include <QtTest>

using namespace bw;

namespace {

QString written(const QTemporaryDir& folder, const QString& name, const QByteArray& bytes) {
  const QString path = folder.filePath(name);
  QFile file(path);
  REQUIRE(file.open(QIODevice::WriteOnly));
  REQUIRE(file.write(bytes) == bytes.size());
  return path;
}

const QByteArray gaugeText = "No;DFT before [\xC2\xB5m];Remark\n1;62,5;edge\n2;61,5;\n3;OL;middle\n4;60,0;\n";

}  // namespace

TEST_CASE("A file without readings gives one sentence and nothing else", "[readings]") {
  const QTemporaryDir folder;
  const auto problemOf = [&](const QString& path) {
    const CsvStudy study = studyFile(path, CsvPurpose::Unknown);
    CHECK_FALSE(study.table);
    CHECK_FALSE(study.hasReadings());
    CHECK(readingsFrom(study, false).empty());
    CHECK(study.problem.count(QLatin1Char('\n')) == 0);
    return study.problem;
  };
  CHECK(problemOf(written(folder, "letter.txt", "a letter to the boiler inspector\nwith no table\n"))
            .startsWith("letter.txt holds no row of numbers"));
  CHECK(problemOf(written(folder, "photo.csv", QByteArray("\x89PNG\x00\x00\x1A\n", 8))).contains("it is no text"));
  CHECK(problemOf(written(folder, "empty.csv", "")) == "empty.csv is empty; a table of readings is accepted.");
  CHECK(problemOf(written(folder, "torn.csv", "\"a;b\n1;2\n")).startsWith("torn.csv "));
  CHECK(problemOf(folder.path()).contains("is a folder"));
  CHECK(problemOf(folder.filePath("gone.csv")).contains("cannot be read"));
  CHECK(problemOf(written(folder, "huge.csv", QByteArray(17 * 1024 * 1024, '1'))).contains("up to 16 MB is accepted"));
}

TEST_CASE("A chosen meaning brings its unit, and the time stands in one column only", "[readings]") {
  const QTemporaryDir folder;
  const CsvStudy study = studyFile(written(folder, "log.csv", "a;b;c\n0;20;21\n1;30;31\n2;96,5;32\n"), CsvPurpose::Unknown);
  REQUIRE(study.columns.size() == 3);
  CHECK_FALSE(study.hasReadings());
  std::vector<ColumnMapping> columns = study.columns;
  chooseMeaning(columns, 1, ColumnMeaning::Time, "");
  chooseMeaning(columns, 0, ColumnMeaning::Time, "");
  CHECK(columns[1].meaning == ColumnMeaning::Ignored);
  chooseMeaning(columns, 1, ColumnMeaning::Temperature, "back_C");
  CHECK(columns[1].unit == CsvUnit::Celsius);
  CHECK(columns[1].sure);
  chooseUnit(columns, 0, CsvUnit::Minute);
  chooseMeaning(columns, 2, ColumnMeaning::Thickness, "thickness_after_um");
  CHECK(columns[2].unit == CsvUnit::Micrometre);
  const CsvStudy chosen = studyWith(study, columns);
  REQUIRE(chosen.peaks.size() == 1);
  CHECK(chosen.peaks[0].temperature_C == 96.5);
  CHECK(chosen.peaks[0].time_s == 120);
  const std::vector<Reading> each = readingsFrom(chosen, false), means = readingsFrom(chosen, true);
  REQUIRE(each.size() == 4);
  CHECK(each.back() == Reading{"back_C", 96.5, {}, {}});
  REQUIRE(means.size() == 2);
  CHECK(means[0].value == Catch::Approx(28));
  CHECK(means[0].uncertainty);
}

TEST_CASE("The preview shows the file as it stands and beneath it what was understood", "[readings]") {
  const QTemporaryDir folder;
  PreviewModel model;
  QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::Fatal);
  const CsvStudy study = studyFile(written(folder, "gauge.csv", gaugeText), CsvPurpose::Unknown);
  model.setStudy(study);
  REQUIRE(model.rowCount() == 5);
  REQUIRE(model.columnCount() == 3);
  CHECK(model.index(0, 1).data() == QString::fromUtf8("DFT before [µm]"));
  CHECK(model.index(0, 1).data(PreviewModel::UnderstoodRole).toString().isEmpty());
  CHECK(model.index(1, 1).data() == "62,5");
  CHECK(model.index(1, 1).data(PreviewModel::UnderstoodRole) == QString::fromUtf8("62.5\u00a0µm"));
  CHECK(model.index(3, 1).data(PreviewModel::UnreadRole).toBool());
  CHECK_FALSE(model.index(3, 2).data(PreviewModel::UnreadRole).toBool());  // left out altogether
  CHECK(model.headerData(3, Qt::Vertical, Qt::DisplayRole) == 4);
  std::vector<ColumnMapping> columns = study.columns;
  chooseUnit(columns, 1, CsvUnit::Mil);
  model.setStudy(studyWith(study, columns));
  CHECK(model.index(1, 1).data(PreviewModel::UnderstoodRole) == QString::fromUtf8("1588\u00a0µm"));
  model.setStudy({});
  CHECK(model.rowCount() == 0);
}

TEST_CASE("A reader delivers only what was wished last", "[readings]") {
  const QTemporaryDir folder;
  CsvReader reader(written(folder, "gauge.csv", gaugeText));
  int told = 0;
  QObject::connect(&reader, &CsvReader::studied, [&] { ++told; });
  REQUIRE(QTest::qWaitFor([&] { return told == 1; }, 10000));
  REQUIRE(reader.study().table);
  const CsvFormat found = reader.study().table->format;
  CsvFormat other = found;
  other.separator = ',';
  reader.setFormat(other);
  reader.setColumns({});  // of the table that is being replaced: not heeded
  reader.setFormat(found);
  REQUIRE(QTest::qWaitFor([&] { return !reader.isBusy(); }, 10000));
  CHECK(told == 2);
  REQUIRE(reader.study().table);
  CHECK(reader.study().table->format == found);
  CHECK(reader.study().columns.size() == 3);
}

TEST_CASE("Times are shown as times", "[readings]") {
  ColumnMapping column{"", ColumnMeaning::Time, CsvUnit::Clock, "", "", true};
  CHECK(words::understood(50700, column) == "14:05:00");
  column.unit = CsvUnit::DateTime;
  CHECK(words::understood(86400 + 60, column) == "1970-01-02 00:01:00");
  column.unit = CsvUnit::Minute;
  CHECK(words::understood(90, column) == QString::fromUtf8("90\u00a0s"));
}

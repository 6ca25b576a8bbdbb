// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/readings/csv_readings.h"

#include "tests/support/catch.h"

using namespace bw;

namespace {

std::vector<double> valuesOf(const CsvReadings& all) {
  std::vector<double> values;
  for (const Reading& reading : all.readings) values.push_back(reading.value);
  return values;
}

CsvReadings readAll(const std::string& text, CsvPurpose purpose = CsvPurpose::Unknown) {
  const CsvTable table = readCsvTable(text);
  return readingsOf(table, proposeColumns(table, purpose));
}

void checkValues(const std::vector<double>& found, const std::vector<double>& expected) {
  REQUIRE(found.size() == expected.size());
  for (std::size_t i = 0; i < found.size(); ++i) CHECK(found[i] == Catch::Approx(expected[i]).epsilon(1e-12));
}

}  // namespace

TEST_CASE("A gauge's log becomes thickness readings in the unit of their kind", "[learn]") {
  const std::string log = "No;DFT before [\xC2\xB5m];Remark\n1;62,5;edge\n2;61,8;\n3;60,0;middle\n";
  const CsvTable table = readCsvTable(log);
  const auto columns = proposeColumns(table);
  REQUIRE(columns.size() == 3);
  CHECK(columns[0].meaning == ColumnMeaning::Ignored);
  CHECK(columns[1].meaning == ColumnMeaning::Thickness);
  CHECK(columns[1].unit == CsvUnit::Micrometre);
  CHECK(columns[1].kind == "thickness_before_um");
  CHECK(columns[1].sure);
  CHECK(columns[2].meaning == ColumnMeaning::Ignored);
  CHECK_FALSE(columns[2].why.empty());
  const CsvReadings all = readingsOf(table, columns);
  checkValues(valuesOf(all), {62.5, 61.8, 60});
  CHECK(all.readings[0].kind == "thickness_before_um");
  CHECK(all.problemCount == 0);
  checkValues(valuesOf(readAll("DFT after (mils)\n2.5\n2.4\n")), {63.5, 60.96});
  CHECK(readAll("DFT after (mils)\n2.5\n2.4\n").readings[0].kind == "thickness_after_um");
  checkValues(valuesOf(readAll("coat_before_mm\n0.0625\n0.06\n")), {62.5, 60});
}

TEST_CASE("A temperature log becomes a series with seconds from its start", "[learn]") {
  const CsvReadings all = readAll(
      "Zeit;Temp. front [\xC2\xB0"
      "C];Temp. back [\xC2\xB0"
      "F];Temp. ambient [K]\n"
      "23:59:58;21,5;70,7;294,15\n23:59:59,5;80,0;77,0;294,15\n00:00:01;118,25;86,0;294,15\n");
  REQUIRE(all.series.size() == 3);
  CHECK(all.series[0].kind == "face_C");
  CHECK(all.series[1].kind == "back_C");
  checkValues(all.series[0].time_s, {0, 1.5, 3});
  checkValues(all.series[0].temperature_C, {21.5, 80, 118.25});
  checkValues(all.series[1].temperature_C, {21.5, 25, 30});
  checkValues(all.series[2].temperature_C, {21, 21, 21});
  CHECK(all.readings.empty());
  const CsvReadings iso = readAll("timestamp,face_C\n2025-04-30T14:05:00+02:00,20.5\n2025-04-30T14:06:30+02:00,60.5\n");
  checkValues(iso.series.at(0).time_s, {0, 90});
  checkValues(readAll("elapsed [min]\tface [C]\n0\t20\n0,5\t60\n").series.at(0).time_s, {0, 30});
  const CsvReadings parted = readAll("Datum;Uhrzeit;Temperatur vorn [C]\n2025-04-30;14:05:00;20\n2025-04-30;14:05:10;25\n");
  checkValues(parted.series.at(0).time_s, {0, 10});
}

TEST_CASE("What is not said is assumed in the open", "[learn]") {
  const auto noUnit = proposeColumns(readCsvTable("Thickness\n62\n61\n"));
  CHECK(noUnit.at(0).unit == CsvUnit::Micrometre);
  CHECK_FALSE(noUnit.at(0).sure);
  CHECK_THAT(noUnit.at(0).why, Catch::Matchers::Contains("no unit is written"));
  const auto bare = proposeColumns(readCsvTable("1;62\n2;61\n3;64\n"), CsvPurpose::Thickness);
  CHECK(bare.at(0).meaning == ColumnMeaning::Ignored);
  CHECK(bare.at(1).meaning == ColumnMeaning::Thickness);
  CHECK_FALSE(bare.at(1).sure);
  CHECK(proposeColumns(readCsvTable("1;62\n2;61\n3;64\n")).at(1).meaning == ColumnMeaning::Ignored);
  const auto contrary = proposeColumns(readCsvTable("Thickness [C]\n62\n61\n"));
  CHECK(contrary.at(0).meaning == ColumnMeaning::Ignored);
  const auto log = proposeColumns(readCsvTable("0;20\n2;61\n3;64\n"), CsvPurpose::Temperature);
  CHECK(log.at(0).meaning == ColumnMeaning::Time);
  CHECK(log.at(1).meaning == ColumnMeaning::Temperature);
}

TEST_CASE("Cells that cannot be read are left out and named by line", "[learn]") {
  const CsvReadings all = readAll("No;DFT [um]\n1;62,5\n2;OL\n3;\n4;61.8\n5;60,5 mm\n6;60,5 C\n7;999999999\n8;1;2\n9;60,0\n");
  checkValues(valuesOf(all), {62.5, 60500, 60});
  REQUIRE(all.problems.size() == 6);
  CHECK(all.problems[0].line == 3);
  CHECK(all.problems[0].message == "\"DFT [um]\": \"OL\" is not a number");
  CHECK(all.problems[1].message == "\"DFT [um]\": the value is missing");
  CHECK_THAT(all.problems[2].message, Catch::Matchers::Contains("\"61.8\" is not clearly a number where the decimal mark is a comma"));
  CHECK_THAT(all.problems[3].message, Catch::Matchers::Contains("does not go with the column's unit"));
  CHECK_THAT(all.problems[4].message, Catch::Matchers::Contains("up to 100 mm"));
  CHECK_THAT(all.problems[5].message, Catch::Matchers::Contains("holds 3 cells where 2 are expected"));
  CHECK(all.problems[5].line == 9);
  const CsvReadings back = readAll("time [s];face [C]\n0;20\n5;21\n3;22\n6;23\n");
  checkValues(back.series.at(0).time_s, {0, 5, 6});
  CHECK(back.problems.at(0).line == 4);
}

TEST_CASE("The first hundred problems are kept and all are counted", "[learn]") {
  std::string text = "DFT [um]\n60\n61\n62\n";
  for (int i = 0; i < 300; ++i) text += "OL\n";
  CsvTable table = readCsvTable(text);
  ColumnMapping column{"DFT", ColumnMeaning::Thickness, CsvUnit::Micrometre, "thickness_before_um", "", true};
  const CsvReadings all = readingsOf(table, {column});
  CHECK(all.problems.size() == 100);
  CHECK(all.problemCount == 300);
  CHECK(all.readings.size() == 3);
}

TEST_CASE("A caller changes the mapping and sees the rows in metres, degrees and seconds", "[learn]") {
  const CsvTable table = readCsvTable("value\n2.5\n2.4\nx\n");
  std::vector<ColumnMapping> columns = proposeColumns(table);
  CHECK(columns.at(0).meaning == ColumnMeaning::Ignored);
  columns[0] = {"value", ColumnMeaning::Thickness, CsvUnit::Mil, "thickness_after_um", "", true};
  const auto rows = convertRows(table, columns, 0, 2);
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].line == 2);
  CHECK(rows[0].values.at(0).value() == Catch::Approx(63.5e-6));
  const auto bad = convertRows(table, columns, 2, 10);
  REQUIRE(bad.size() == 1);
  CHECK_FALSE(bad[0].values.at(0));
  CHECK(bad[0].problems.size() == 1);
  CsvFormat format = table.format;
  format.separator = ',';
  CHECK(readCsvTable("62,5\n61,8\n", format).rows.at(0).cells == std::vector<std::string>{"62", "5"});
}

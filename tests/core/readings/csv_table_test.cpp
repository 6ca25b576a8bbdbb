// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/readings/csv_table.h"

#include "core/files/project_file.h"
#include "core/readings/csv_readings.h"
#include "tests/support/catch.h"

#include <cmath>
#include <random>

using namespace bw;

namespace {

using Cells = std::vector<std::string>;

std::string asUtf16(const std::string& latin1, bool little) {
  std::string bytes = little ? "\xFF\xFE" : "\xFE\xFF";
  for (const char c : latin1) {
    if (little)
      bytes += {c, '\0'};
    else
      bytes += {'\0', c};
  }
  return bytes;
}

void checkNoTable(const std::string& bytes, const std::string& words) {
  try {
    readCsvTable(bytes);
    FAIL("was read: " << bytes.substr(0, 60));
  } catch (const FileError& error) {
    CHECK_THAT(error.what(), Catch::Matchers::Contains(words));
    CHECK(std::string(error.what()).size() < 400);
  }
}

}  // namespace

TEST_CASE("Separator and decimal mark are told from the rows", "[learn]") {
  const auto format = [](const std::string& text) { return readCsvTable(text).format; };
  CHECK(format("No;DFT [um]\n1;62,5\n2;61,8\n") == CsvFormat{Encoding::Utf8, ';', ','});
  CHECK(format("No,DFT [um]\n1,62.5\n2,61.8\n") == CsvFormat{Encoding::Utf8, ',', '.'});
  CHECK(format("No\tDFT [um]\n1\t62,5\n") == CsvFormat{Encoding::Utf8, '\t', ','});
  CHECK(format("t;a\n12:00:01;62,5\n12:00:02;61,8\n") == CsvFormat{Encoding::Utf8, ';', ','});
  CHECK(format("t;a;b\n0,5;1,25;a, b\n0,6;1,30;c, d, e\n") == CsvFormat{Encoding::Utf8, ';', ','});
  CHECK(format("a,b\n\"62,5\",\"1,2\"\n\"61,8\",\"1,3\"\n") == CsvFormat{Encoding::Utf8, ',', ','});
  CHECK(format("sep=;\nDFT\n62,5\n") == CsvFormat{Encoding::Utf8, ';', ','});
  CHECK(format("DFT\n62,5\n61,8\n") == CsvFormat{Encoding::Utf8, 0, ','});
  CHECK(format("DFT\r\n62.5\r\n61.8\r\n") == CsvFormat{Encoding::Utf8, 0, '.'});
  CHECK(format("1,62\n2,63\n") == CsvFormat{Encoding::Utf8, 0, ','});
  CHECK(format("1,62.5\n2,63.5\n") == CsvFormat{Encoding::Utf8, ',', '.'});
}

TEST_CASE("A comma for both purposes is refused, not read", "[learn]") {
  checkNoTable("time_s,face_C\n0,5,62,5\n1,0,63,1\n", "a comma both parts cells and marks decimals");
  const CsvTable alone = readCsvTable("62,5\n61,8\n");
  REQUIRE(alone.rows.size() == 2);
  CHECK(alone.rows[0].cells == Cells{"62,5"});
  CHECK_THAT(alone.remarks.at(0), Catch::Matchers::Contains("taken as the decimal mark"));
  const CsvTable grouped = readCsvTable("DFT\n1.234,5\n2.345,6\n");
  CHECK(grouped.rows[1].cells == Cells{"1.234,5"});
  const CsvTable doubtful = readCsvTable("a;b\n1,234;1\n2,345;2\n");
  CHECK(doubtful.format.decimal == ',');
  CHECK_THAT(doubtful.remarks.at(0), Catch::Matchers::Contains("three digits behind it"));
  CHECK_THAT(readCsvTable("a;b\n62,5;1.5\n61,8;2\n").remarks.at(0), Catch::Matchers::Contains("both occur"));
}

TEST_CASE("Encodings give the same table", "[learn]") {
  const std::string latin1 = "Messung;Dicke [\xB5m]\r\n1;62,5\r\n";
  const Cells header{"Messung", "Dicke [\xC2\xB5m]"};
  for (const std::string& bytes :
       {latin1, asUtf16(latin1, true), asUtf16(latin1, false), std::string("\xEF\xBB\xBFMessung;Dicke [\xC2\xB5m]\r\n1;62,5\r\n")}) {
    const CsvTable table = readCsvTable(bytes);
    CHECK(table.headers == header);
    CHECK(table.rows.at(1).cells == Cells{"1", "62,5"});
  }
  CHECK(readCsvTable(latin1).format.encoding == Encoding::Latin1);
}

TEST_CASE("Heading, header and row of units", "[learn]") {
  const CsvTable table = readCsvTable("Gauge log\nDate: 2025-04-30\n\nNo;DFT;Temp\n;um;C\n1;62,5;21\n2;61,0;21\n");
  CHECK(table.headers == Cells{"No []", "DFT [um]", "Temp [C]"});
  CHECK(table.rows[table.firstData].line == 6);
  CHECK(table.columns == 3);
  CHECK(readCsvTable("1;2\n3;4\n").headers.empty());
}

TEST_CASE("Quoted cells hold separators, quotes and line ends", "[learn]") {
  const CsvTable table = readCsvTable("a,note\n1,\"said \"\"no\"\", left\nthen came back\"\n2,plain\n");
  REQUIRE(table.rows.size() == 3);
  CHECK(table.rows[1].cells == Cells{"1", "said \"no\", left\nthen came back"});
  CHECK(table.rows[2].line == 4);
  checkNoTable("a;b\n1;\"open\n2;3\n", "line 2 opens a quote that is not closed");
}

TEST_CASE("Hostile bytes are refused in a sentence", "[learn]") {
  checkNoTable("", "no row of numbers");
  checkNoTable("just words\nand more\n", "no row of numbers");
  checkNoTable(std::string("a;b\n1;\0;2\n", 10), "NUL");
  checkNoTable(std::string("\xFF\xFE"
                           "a",
                           3),
               "breaks off");
  checkNoTable(std::string("\xFF\xFE\x00\xD8\x41\x00", 6), "no valid UTF-16");
  checkNoTable(
      "\xEF\xBB\xBF"
      "a;b\n1;\xFF\n",
      "no valid UTF-8");
  checkNoTable(std::string(1'000'000, ';'), "256 columns");
  checkNoTable("1\n" + std::string(20'000, '7'), "10000 characters");
  checkNoTable(std::string(largestCsv_bytes + 1, '1'), "up to 16 MB is accepted");
  std::string rows;
  for (int i = 0; i < 250'000; ++i) rows += "1;2\n";
  checkNoTable(rows, "200000 rows");
}

TEST_CASE("Any bytes end in a table or a FileError, and every number in it stands in the text", "[learn]") {
  std::mt19937 engine(7);
  const std::string alphabet = "0123456789,,..;;\t\n\n\r\"\" :-TeEZ+aC\xC2\xB5m\xFF";
  for (int i = 0; i < 20'000; ++i) {
    std::string bytes(engine() % 60, ' ');
    for (char& c : bytes) c = alphabet[engine() % alphabet.size()];
    try {
      const CsvTable table = readCsvTable(bytes);
      for (const CsvPurpose purpose : {CsvPurpose::Unknown, CsvPurpose::Thickness, CsvPurpose::Temperature}) {
        const auto columns = proposeColumns(table, purpose);
        REQUIRE(columns.size() == table.columns);
        for (const Reading& reading : readingsOf(table, columns).readings) REQUIRE(std::isfinite(reading.value));
      }
    } catch (const FileError&) {
    }
  }
  SUCCEED("no other exception");
}

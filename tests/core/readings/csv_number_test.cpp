// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/readings/csv_number.h"
#include "core/readings/csv_units.h"
#include "tests/support/catch.h"

#include <cmath>

using namespace bw;

namespace {

/// The number, or NaN where it is none.
double read(const std::string& cell, char decimal) {
  std::string why;
  const auto number = readCsvNumber(cell, decimal, why);
  CHECK(number.has_value() == why.empty());
  return number ? number->value : std::nan("");
}

}  // namespace

TEST_CASE("62,5 is sixty-two and a half or nothing, never 625", "[learn]") {
  CHECK(read("62,5", ',') == 62.5);
  CHECK(std::isnan(read("62,5", '.')));
  CHECK(read("62.5", '.') == 62.5);
  CHECK(std::isnan(read("62.5", ',')));
  // Whatever stands before and behind the mark, and whichever mark is meant: the value is that with the mark as a decimal, or none.
  for (const char mark : {'.', ','}) {
    for (const char decimal : {'.', ','}) {
      for (const char* whole : {"", "0", "6", "62", "625", "6250", "-62"}) {
        for (const char* fraction : {"0", "5", "05", "50", "500", "5000", "125"}) {
          const std::string cell = std::string(whole) + mark + fraction;
          INFO(cell << " where the decimal mark is " << decimal);
          const double value = read(cell, decimal);
          if (!std::isnan(value)) CHECK(value == std::stod(std::string(whole) + "." + fraction));
          CHECK(std::isnan(value) == (mark != decimal));
        }
      }
    }
  }
}

TEST_CASE("Groups of three are read only where nothing is doubtful", "[learn]") {
  CHECK(read("1.234,5", ',') == 1234.5);
  CHECK(read("1,234.5", '.') == 1234.5);
  CHECK(read("1.234.567", ',') == 1234567);
  CHECK(read("12.345.678,25", ',') == 12345678.25);
  CHECK(read("1,234", ',') == 1.234);
  CHECK(std::isnan(read("1.234", ',')));
  CHECK(std::isnan(read("1,234", '.')));
  for (const char* bad : {"12,34.5", "1234,567.8", "1,2,3", "1,234,56", ",234.5", "1.2.3", "1,234.5,6"}) {
    INFO(bad);
    CHECK(std::isnan(read(bad, '.')));
  }
}

TEST_CASE("Signs, powers and units stand around a number", "[learn]") {
  CHECK(read("-12.5e-3", '.') == -12.5e-3);
  CHECK(read("+3E2", '.') == 300);
  CHECK(read(" \xC2\xA0 7 ", '.') == 7);
  CHECK(read(".5", '.') == 0.5);
  CHECK(read("5.", '.') == 5);
  std::string why;
  CHECK(readCsvNumber("62,5 µm", ',', why)->unit == "µm");
  CHECK(readCsvNumber("150°C", '.', why)->unit == "°C");
  for (const char* bad : {"", "-", "n/a", "OL", "--5", ".", ",", "e5", "1e999", "0x10", "nan", "inf"}) {
    INFO(bad);
    const auto number = readCsvNumber(bad, '.', why);
    CHECK((!number || !number->unit.empty()));  // 0x10: a zero with the unit "x10", which no column has
  }
}

TEST_CASE("Marks hint at the decimal mark", "[learn]") {
  CHECK(decimalHint("62,5") == DecimalHint::Comma);
  CHECK(decimalHint("62.50") == DecimalHint::Point);
  CHECK(decimalHint("0,125") == DecimalHint::Comma);
  CHECK(decimalHint("1,234") == DecimalHint::DoubtfulComma);
  CHECK(decimalHint("20.125") == DecimalHint::DoubtfulPoint);
  CHECK(decimalHint("1.234,5") == DecimalHint::Comma);
  CHECK(decimalHint("1,234,567") == DecimalHint::Point);
  CHECK(decimalHint("62") == DecimalHint::None);
}

TEST_CASE("Times of day and ISO 8601", "[learn]") {
  const auto at = [](const char* cell) { return readCsvTime(cell); };
  REQUIRE(at("14:05:30"));
  CHECK(at("14:05:30")->seconds == 14 * 3600 + 5 * 60 + 30);
  CHECK(at("8:05")->seconds == 8 * 3600 + 300);
  CHECK(at("00:00:01,25")->seconds == 1.25);
  CHECK(at("00:00:01.5")->kind == CsvTimeKind::Clock);
  // Seconds since 1970 by Python's datetime.fromisoformat(...).timestamp().
  CHECK(at("2025-04-30T14:05:00Z")->seconds == 1746021900);
  CHECK(at("2025-04-30 14:05:00.5Z")->seconds == 1746021900.5);
  CHECK(at("2025-04-30T14:05:00+02:00")->seconds == 1746014700);
  CHECK(at("2025-04-30T14:05-0330")->seconds == 1746034500);
  CHECK(at("2024-02-29")->seconds == 1709164800);
  CHECK(at("2024-02-29")->kind == CsvTimeKind::DateTime);
  for (const char* bad : {"", "25:00:00", "12:60:00", "12:00:61", "2023-02-29", "2025-13-01", "30.04.2025", "2025-04-30T",
                          "2025-04-30T14:05:00+99:00", "12", "12.5", "12:00:00 x", "2025-4-30", "1:2:3", "12:00:"}) {
    INFO(bad);
    CHECK_FALSE(at(bad));
  }
}

TEST_CASE("Units come out in those of the core", "[learn]") {
  // A mil is a thousandth of an inch of 25.4 mm; the ice point is 32 °F and 273.15 K (definitions).
  CHECK(toCore(1, CsvUnit::Mil) == Catch::Approx(25.4e-6));
  CHECK(toCore(62.5, CsvUnit::Micrometre) == 62.5e-6);
  CHECK(toCore(1.2, CsvUnit::Millimetre) == Catch::Approx(1.2e-3));
  CHECK(toCore(212, CsvUnit::Fahrenheit) == Catch::Approx(100));
  CHECK(toCore(273.15, CsvUnit::Kelvin) == 0);
  CHECK(toCore(1.5, CsvUnit::Minute) == 90);
  CHECK(unitOf("MILS") == CsvUnit::Mil);
  CHECK(unitOf("\xCE\xBCm") == CsvUnit::Micrometre);
  CHECK(unitOf("\xC2\xB5m") == CsvUnit::Micrometre);
  CHECK(unitOf("furlong") == CsvUnit::None);
}

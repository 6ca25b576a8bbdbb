// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/fields/quantity_text.h"

#include "tests/support/catch.h"

#include <QLocale>

using namespace bw;

TEST_CASE("Numbers are read with point or comma, with or without a unit", "[fields]") {
  struct Case {
    const char* text;
    double expected_m;
  };
  const Case cases[] = {{"62.5", 62.5e-3}, {"62,5", 62.5e-3}, {" 62.5 mm ", 62.5e-3}, {"62.5mm", 62.5e-3}, {"6.25 cm", 62.5e-3},
                        {"80 µm", 80e-6},  {"80um", 80e-6},   {"1.2 m", 1.2},         {"-3", -3e-3},       {"0", 0}};
  for (const Case& one : cases) {
    INFO(one.text);
    const TypedQuantity typed = readQuantity(QString::fromUtf8(one.text), quantities::length);
    REQUIRE(typed.value);
    CHECK(typed.value->isExact());
    CHECK(typed.value->likely == Catch::Approx(one.expected_m));
  }
}

TEST_CASE("A range is read in every way people write one", "[fields]") {
  for (const char* text : {"45..80", "45 80", "45 - 80", "45-80", "45–80", "45 to 80", "45 … 80 µm"}) {
    INFO(text);
    const TypedQuantity typed = readQuantity(QString::fromUtf8(text), quantities::filmThickness);
    REQUIRE(typed.value);
    CHECK(typed.value->low == Catch::Approx(45e-6));
    CHECK(typed.value->likely == Catch::Approx(62.5e-6));
    CHECK(typed.value->high == Catch::Approx(80e-6));
  }
  const TypedQuantity three = readQuantity("45 60 80", quantities::filmThickness);
  REQUIRE(three.value);
  CHECK(three.value->likely == Catch::Approx(60e-6));
}

TEST_CASE("Not knowing is an answer", "[fields]") {
  for (const char* text : {"-", "?", "don't know", "Don’t know", "unknown"}) {
    INFO(text);
    CHECK(readQuantity(QString::fromUtf8(text), quantities::length).unknown);
  }
}

TEST_CASE("What is not understood is answered with a sentence that says what is accepted", "[fields]") {
  for (const char* text : {"", "abc", "1.2.3", "12 inch", "45..", "nan", "inf", "1e999", "1 2 3 4", "80..45", "12 kHz"}) {
    INFO(text);
    const TypedQuantity typed = readQuantity(QString::fromUtf8(text), quantities::length);
    CHECK_FALSE(typed.value);
    CHECK_FALSE(typed.unknown);
    CHECK(typed.problem.endsWith('.'));
  }
  CHECK(readQuantity("abc", quantities::length).problem.contains("mm"));
}

TEST_CASE("What is written is read back, and shown without false digits", "[fields]") {
  CHECK(writeQuantity(Range::exact(0.0012), quantities::length) == "1.2");
  CHECK(writeQuantity(Range::exact(80e-6), quantities::length) == "0.08");
  CHECK(writeQuantity(Range::exact(12345e-3), quantities::length) == "12345");
  CHECK(writeQuantity({45e-6, 60e-6, 80e-6}, quantities::filmThickness) == "45 60 80");
  CHECK(withUnit(240e3, quantities::frequency) == QString::fromUtf8("240\u00a0kHz"));
  for (const double value : {1e-5, 0.0333333, 0.08, 1.5, 600.0}) {
    const TypedQuantity back = readQuantity(writeQuantity(Range::exact(value), quantities::length), quantities::length);
    REQUIRE(back.value);
    CHECK(back.value->likely == Catch::Approx(value).epsilon(1e-4));
  }
}

TEST_CASE("The user's decimal mark is shown and no thousands marks ever", "[fields]") {
  QLocale::setDefault(QLocale(QLocale::German));
  const QString text = writeQuantity(Range::exact(1.2345), quantities::length);
  const TypedQuantity back = readQuantity(text, quantities::length);
  QLocale::setDefault(QLocale::c());
  CHECK(text == "1234,5");
  REQUIRE(back.value);
  CHECK(back.value->likely == Catch::Approx(1.2345));
}

TEST_CASE("Inches, powers of ten, paces and not knowing can be typed", "[fields]") {
  const auto read = [](const char* text, const Quantity& quantity) {
    const TypedQuantity typed = readQuantity(QString::fromUtf8(text), quantity);
    INFO(text);
    REQUIRE(typed.value);
    return typed.value->likely;
  };
  CHECK(read("0.5 in", quantities::length) == Catch::Approx(12.7e-3));
  CHECK(read("2 mil", quantities::filmThickness) == Catch::Approx(50.8e-6));
  CHECK(read("1e9", quantities::count) == Catch::Approx(1e9));
  CHECK(read("1,5e2 Hz", quantities::frequency) == Catch::Approx(150));
  CHECK(read("2.5e-1kHz", quantities::frequency) == Catch::Approx(250));
  CHECK(read("10 cm in 4 s", quantities::travelSpeed) == Catch::Approx(0.025));
  CHECK(read("10\u00a0cm in 1.2\u00a0min", quantities::travelSpeed) == Catch::Approx(0.1 / 72));
  CHECK(read("0.5 m/s", quantities::travelSpeed) == Catch::Approx(0.5));
  CHECK_FALSE(readQuantity("10 cm in 0 s", quantities::travelSpeed).problem.isEmpty());
  CHECK_FALSE(readQuantity("10 cm in 4 s", quantities::length).problem.isEmpty());
  for (const char* text : {"don't know", "Dont know", "do not know", "not known"}) CHECK(readQuantity(text, quantities::length).unknown);
}

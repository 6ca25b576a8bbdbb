// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/text/text.h"

#include "tests/support/catch.h"

#include <limits>
#include <string>
#include <utility>

using namespace bw;

TEST_CASE("Numbers keep their significant digits", "[text]") {
  const std::pair<double, const char*> two[] = {{0, "0"},           {1, "1.0"},   {0.85, "0.85"},      {12.4, "12"}, {123, "120"},
                                                {-3.14159, "-3.1"}, {0.0012, "0.0012"}, {99.4, "99"}, {999999, "1000000"}, {9.97, "10"},
                                                {0.0999, "0.10"}, {99.7, "100"}};
  for (const auto& [value, words] : two) CHECK(text::number(value) == words);
  CHECK(text::number(12.345, 3) == "12.3");
  CHECK(text::number(1064, 4) == "1064");
  CHECK(text::number(1.23e7) == "1.2e+07");
  CHECK(text::number(std::numeric_limits<double>::infinity()) == "beyond measure");
  CHECK(text::number(std::numeric_limits<double>::quiet_NaN()) == "beyond measure");
  CHECK(text::number(std::numeric_limits<double>::denorm_min()).size() < 400);
}

TEST_CASE("Quantities carry their unit, and nothing is minus zero", "[text]") {
  CHECK(text::whole(117.6) == "118");
  CHECK(text::whole(-0.3) == "0");
  CHECK(text::temperature(118.2) == "118 °C");
  CHECK(text::temperature(-0.2) == "0 °C");
  CHECK(text::fluence(1.1e4) == "1.1 J/cm²");
  const std::pair<double, const char*> percents[] = {{0.85, "85 %"}, {0.0123, "1.2 %"},       {0.0999, "10 %"},      {1, "100 %"},
                                                     {0, "0 %"},     {0.0046, "0.5 %"},       {4e-4, "under 0.1 %"}, {0.996, "99.6 %"},
                                                     {0.99, "99 %"}, {0.9999, "over 99.9 %"}, {1 - 1e-15, "100 %"}};
  for (const auto& [value, words] : percents) CHECK(text::percent(value) == words);
  const std::pair<double, const char*> lengths[] = {{45e-6, "45 µm"}, {1.2e-3, "1.2 mm"}, {3, "3.0 m"}, {0, "0 µm"}, {499e-6, "500 µm"}};
  for (const auto& [value, words] : lengths) CHECK(text::length(value) == words);
}

TEST_CASE("Durations are told in the unit people use, two digits of them", "[text]") {
  const std::pair<double, const char*> rows[] = {{0, "0 s"},        {40, "40 s"},        {99.4, "99 s"},        {99.6, "1.7 min"},
                                                 {180, "3 min"},    {65 * 60, "65 min"}, {6420, "1 h 45 min"},  {7200, "2 h"},
                                                 {360000, "100 h"}, {599, "10 min"},     {99.4 * 60, "99 min"}, {99.6 * 60, "1 h 40 min"}};
  for (const auto& [value, words] : rows) CHECK(text::duration(value) == words);
}

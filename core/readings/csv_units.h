// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace bw {

/// Units that gauges and loggers write. Clock and DateTime are written times, see csv_number.h.
enum class CsvUnit { None, Micrometre, Mil, Millimetre, Celsius, Fahrenheit, Kelvin, Second, Minute, Clock, DateTime };

/// What a unit measures.
enum class CsvQuantity { None, Length, Temperature, Time };

CsvQuantity quantityOf(CsvUnit unit);

/// The unit of this symbol or word, None where it is none of them.
CsvUnit unitOf(std::string_view text);

/// A cell of a row of units: without brackets.
std::string bareUnit(std::string_view text);

const char* symbolOf(CsvUnit unit);

/// To metres, degrees Celsius (temperatures of the core are in these) or seconds.
double toCore(double value, CsvUnit unit);

/// The words of a header in small letters, parted at all that is neither letter nor digit nor degree sign nor micro sign.
std::vector<std::string> wordsOf(std::string_view header);

}  // namespace bw

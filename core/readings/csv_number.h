// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace bw {

/// A number with what stands behind it.
struct CsvNumber {
  double value = 0;
  std::string unit;  // "" or such as "µm"
};

/// Reads a cell. `decimal` is '.' or ','. The other mark may part groups of three digits before it, but only where nothing is doubtful:
/// with a decimal mark behind, or with two groups. "62,5" under a decimal point is no number, never 625; the text says why.
std::optional<CsvNumber> readCsvNumber(std::string_view cell, char decimal, std::string& why);

/// What a cell's marks say about the decimal mark.
enum class DecimalHint { None, Point, Comma, DoubtfulPoint, DoubtfulComma };
DecimalHint decimalHint(std::string_view cell);

enum class CsvTimeKind { Clock, DateTime };

/// A time of day hh:mm[:ss[.fff]], or an ISO 8601 date and time with optional zone.
struct CsvTime {
  CsvTimeKind kind = CsvTimeKind::Clock;
  double seconds = 0;  // since midnight, or since 1970-01-01 UTC (local where no zone is given)
};

std::optional<CsvTime> readCsvTime(std::string_view cell);

std::string_view trimmed(std::string_view text);

}  // namespace bw

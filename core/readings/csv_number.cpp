// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/readings/csv_number.h"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cmath>

namespace bw {

namespace {

bool isDigit(char c) { return c >= '0' && c <= '9'; }

std::size_t digitsFrom(std::string_view text, std::size_t begin) {
  std::size_t end = begin;
  while (end < text.size() && isDigit(text[end])) ++end;
  return end - begin;
}

/// Digits and marks at the beginning, after a sign.
struct Written {
  bool minus = false;
  std::string_view body;   // digits, points and commas
  std::string_view power;  // "e-3" or nothing
  std::string_view rest;
};

Written split(std::string_view cell) {
  Written w;
  cell = trimmed(cell);
  if (!cell.empty() && (cell[0] == '-' || cell[0] == '+')) {
    w.minus = cell[0] == '-';
    cell.remove_prefix(1);
  }
  std::size_t end = 0;
  while (end < cell.size() && (isDigit(cell[end]) || cell[end] == '.' || cell[end] == ',')) ++end;
  w.body = cell.substr(0, end);
  cell.remove_prefix(end);
  if (!cell.empty() && (cell[0] == 'e' || cell[0] == 'E')) {
    const std::size_t sign = cell.size() > 1 && (cell[1] == '-' || cell[1] == '+') ? 2 : 1;
    const std::size_t digits = digitsFrom(cell, sign);
    if (digits > 0) {
      w.power = cell.substr(0, sign + digits);
      cell.remove_prefix(sign + digits);
    }
  }
  w.rest = trimmed(cell);
  return w;
}

/// Whole digits parted in groups of three after a first one of one to three.
bool wellGrouped(std::string_view whole, char mark) {
  std::size_t at = digitsFrom(whole, 0);
  if (at == 0 || at > 3) return false;
  while (at < whole.size()) {
    if (whole[at] != mark || digitsFrom(whole, at + 1) != 3) return false;
    at += 4;
  }
  return true;
}

/// The body with a point for its decimal mark and no groups; empty with a reason where it is no clear number.
std::string plain(std::string_view body, char decimal, std::string& why) {
  const char group = decimal == '.' ? ',' : '.';
  const auto decimals = std::ranges::count(body, decimal);
  const std::size_t at = std::min(body.find(decimal), body.size());
  const std::string_view whole = body.substr(0, at);
  const std::string_view fraction = body.substr(std::min(at + 1, body.size()));
  const auto groups = std::ranges::count(whole, group);
  why = "is not clearly a number where the decimal mark is " + std::string(decimal == '.' ? "a point" : "a comma");
  if (decimals > 1 || fraction.find(group) != std::string_view::npos) return "";
  if (groups > 0 && (!wellGrouped(whole, group) || (decimals == 0 && groups < 2))) return "";
  std::string digits;
  std::ranges::copy_if(whole, std::back_inserter(digits), isDigit);
  if (digits.empty() && fraction.empty()) return "";
  why.clear();
  return (digits.empty() ? "0" : digits) + "." + (fraction.empty() ? "0" : std::string(fraction));
}

struct ReadDigits {
  std::string_view text;
  bool good = true;

  int number(std::size_t count) {
    int value = 0;
    if (digitsFrom(text, 0) < count) good = false;
    if (!good) return 0;
    std::from_chars(text.data(), text.data() + count, value);
    text.remove_prefix(count);
    return value;
  }
  bool take(char c) {
    if (!good || text.empty() || text[0] != c) return false;
    text.remove_prefix(1);
    return true;
  }
  void must(char c) { good = take(c) && good; }
};

/// hh:mm[:ss[.fff]] in seconds.
double clock(ReadDigits& from) {
  const int hours = from.number(digitsFrom(from.text, 0) == 1 ? 1 : 2);
  from.must(':');
  const int minutes = from.number(2);
  double seconds = 0;
  if (from.take(':')) {
    seconds = from.number(2);
    if (from.take('.') || from.take(',')) {
      const std::size_t digits = digitsFrom(from.text, 0);
      if (digits == 0 || digits > 9)
        from.good = false;
      else
        seconds += from.number(digits) / std::pow(10.0, static_cast<double>(digits));
    }
  }
  if (hours > 23 || minutes > 59 || seconds >= 61) from.good = false;
  return hours * 3600.0 + minutes * 60.0 + seconds;
}

/// Z, +hh:mm, -hhmm or nothing.
double zone(ReadDigits& from) {
  if (from.take('Z') || from.take('z') || from.text.empty()) return 0;
  const double sign = from.take('-') ? -1 : 1;
  if (sign > 0) from.must('+');
  const int hours = from.number(2);
  from.take(':');
  const int minutes = from.text.empty() ? 0 : from.number(2);
  if (hours > 14 || minutes > 59) from.good = false;
  return sign * (hours * 3600.0 + minutes * 60.0);
}

}  // namespace

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view hard = "\xC2\xA0";  // no-break space
  while (!text.empty() && (text[0] == ' ' || text[0] == '\t' || text[0] == '\r')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r')) text.remove_suffix(1);
  if (text.starts_with(hard)) return trimmed(text.substr(2));
  if (text.ends_with(hard)) return trimmed(text.substr(0, text.size() - 2));
  return text;
}

std::optional<CsvNumber> readCsvNumber(std::string_view cell, char decimal, std::string& why) {
  const Written w = split(cell);
  if (w.body.empty() || w.body.size() > 60) {
    why = "is not a number";
    return std::nullopt;
  }
  const std::string digits = plain(w.body, decimal, why);
  if (digits.empty()) return std::nullopt;
  std::string text = digits + std::string(w.power);
  std::erase(text, '+');  // which from_chars does not take before a power
  double value = 0;
  const auto result = std::from_chars(text.data(), text.data() + text.size(), value);
  if (result.ec != std::errc() || result.ptr != text.data() + text.size()) {
    why = "is past the range of numbers";
    return std::nullopt;
  }
  return CsvNumber{w.minus ? -value : value, std::string(w.rest)};
}

DecimalHint decimalHint(std::string_view cell) {
  const std::string_view body = split(cell).body;
  const auto points = std::ranges::count(body, '.');
  const auto commas = std::ranges::count(body, ',');
  if (points + commas == 0 || std::ranges::none_of(body, isDigit)) return DecimalHint::None;
  if (points > 0 && commas > 0) return body.rfind('.') > body.rfind(',') ? DecimalHint::Point : DecimalHint::Comma;
  const char mark = points > 0 ? '.' : ',';
  const auto as = [&](DecimalHint point, DecimalHint comma) { return mark == '.' ? point : comma; };
  if (points + commas > 1) return as(DecimalHint::Comma, DecimalHint::Point);  // groups: the other one is the decimal mark
  const bool doubtful = wellGrouped(body, mark) && body[0] != '0';
  return doubtful ? as(DecimalHint::DoubtfulPoint, DecimalHint::DoubtfulComma) : as(DecimalHint::Point, DecimalHint::Comma);
}

std::optional<CsvTime> readCsvTime(std::string_view cell) {
  ReadDigits from{trimmed(cell)};
  CsvTime time;
  if (digitsFrom(from.text, 0) == 4) {
    using namespace std::chrono;
    time.kind = CsvTimeKind::DateTime;
    const int y = from.number(4);
    from.must('-');
    const int m = from.number(2);
    from.must('-');
    const int d = from.number(2);
    const year_month_day date = year(y) / m / d;
    if (!from.good || !date.ok()) return std::nullopt;
    time.seconds = 86400.0 * static_cast<double>(sys_days(date).time_since_epoch().count());
    if (!from.text.empty()) {
      if (!from.take('T') && !from.take(' ')) return std::nullopt;
      time.seconds += clock(from);
      time.seconds -= zone(from);
    }
  } else {
    time.seconds = clock(from);
  }
  return from.good && from.text.empty() ? std::optional(time) : std::nullopt;
}

}  // namespace bw

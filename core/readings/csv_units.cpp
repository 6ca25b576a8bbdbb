// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/readings/csv_units.h"

#include "core/readings/csv_number.h"

#include <algorithm>
#include <array>
#include <utility>

namespace bw {

namespace {

char small(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

std::string inSmall(std::string_view text) {
  std::string copy(text);
  std::ranges::transform(copy, copy.begin(), small);
  return copy;
}

// Both micro signs: U+00B5 and the Greek letter U+03BC.
constexpr std::array<std::pair<std::string_view, CsvUnit>, 33> symbols{{
    {"um", CsvUnit::Micrometre},
    {"\xC2\xB5m", CsvUnit::Micrometre},
    {"\xCE\xBCm", CsvUnit::Micrometre},
    {"micron", CsvUnit::Micrometre},
    {"microns", CsvUnit::Micrometre},
    {"micrometre", CsvUnit::Micrometre},
    {"mil", CsvUnit::Mil},
    {"mils", CsvUnit::Mil},
    {"thou", CsvUnit::Mil},
    {"mm", CsvUnit::Millimetre},
    {"c", CsvUnit::Celsius},
    {"\xC2\xB0"
     "c",
     CsvUnit::Celsius},
    {"degc", CsvUnit::Celsius},
    {"deg c", CsvUnit::Celsius},
    {"celsius", CsvUnit::Celsius},
    {"f", CsvUnit::Fahrenheit},
    {"\xC2\xB0"
     "f",
     CsvUnit::Fahrenheit},
    {"degf", CsvUnit::Fahrenheit},
    {"deg f", CsvUnit::Fahrenheit},
    {"fahrenheit", CsvUnit::Fahrenheit},
    {"k", CsvUnit::Kelvin},
    {"kelvin", CsvUnit::Kelvin},
    {"s", CsvUnit::Second},
    {"sec", CsvUnit::Second},
    {"secs", CsvUnit::Second},
    {"second", CsvUnit::Second},
    {"seconds", CsvUnit::Second},
    {"sek", CsvUnit::Second},
    {"min", CsvUnit::Minute},
    {"mins", CsvUnit::Minute},
    {"minute", CsvUnit::Minute},
    {"minutes", CsvUnit::Minute},
    {"minuten", CsvUnit::Minute},
}};

bool inWord(char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80; }

}  // namespace

CsvQuantity quantityOf(CsvUnit unit) {
  switch (unit) {
    case CsvUnit::None:
      return CsvQuantity::None;
    case CsvUnit::Micrometre:
    case CsvUnit::Mil:
    case CsvUnit::Millimetre:
      return CsvQuantity::Length;
    case CsvUnit::Celsius:
    case CsvUnit::Fahrenheit:
    case CsvUnit::Kelvin:
      return CsvQuantity::Temperature;
    case CsvUnit::Second:
    case CsvUnit::Minute:
    case CsvUnit::Clock:
    case CsvUnit::DateTime:
      return CsvQuantity::Time;
  }
  return CsvQuantity::None;
}

CsvUnit unitOf(std::string_view text) {
  const std::string word = inSmall(trimmed(text));
  const auto found = std::ranges::find(symbols, word, [](const auto& symbol) { return symbol.first; });
  return found == symbols.end() ? CsvUnit::None : found->second;
}

std::string bareUnit(std::string_view text) {
  text = trimmed(text);
  if (text.size() >= 2 && (text.front() == '[' || text.front() == '(')) text = text.substr(1, text.size() - 2);
  return std::string(text);
}

const char* symbolOf(CsvUnit unit) {
  switch (unit) {
    case CsvUnit::None:
      return "";
    case CsvUnit::Micrometre:
      return "µm";
    case CsvUnit::Mil:
      return "mil";
    case CsvUnit::Millimetre:
      return "mm";
    case CsvUnit::Celsius:
      return "°C";
    case CsvUnit::Fahrenheit:
      return "°F";
    case CsvUnit::Kelvin:
      return "K";
    case CsvUnit::Second:
      return "s";
    case CsvUnit::Minute:
      return "min";
    case CsvUnit::Clock:
      return "hh:mm:ss";
    case CsvUnit::DateTime:
      return "ISO 8601";
  }
  return "";
}

double toCore(double value, CsvUnit unit) {
  switch (unit) {
    case CsvUnit::Micrometre:
      return value / 1e6;
    case CsvUnit::Mil:
      return value * 25.4 / 1e6;
    case CsvUnit::Millimetre:
      return value / 1e3;
    case CsvUnit::Fahrenheit:
      return (value - 32) / 1.8;
    case CsvUnit::Kelvin:
      return value - 273.15;
    case CsvUnit::Minute:
      return value * 60;
    case CsvUnit::None:
    case CsvUnit::Celsius:
    case CsvUnit::Second:
    case CsvUnit::Clock:
    case CsvUnit::DateTime:
      return value;
  }
  return value;
}

std::vector<std::string> wordsOf(std::string_view header) {
  std::vector<std::string> words(1);
  for (const char c : inSmall(header)) {
    if (inWord(c))
      words.back() += c;
    else if (!words.back().empty())
      words.emplace_back();
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

}  // namespace bw

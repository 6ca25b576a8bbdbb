// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/entries.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace bw {

namespace {

// Past these no reading of a workshop goes; within them squares and products stay numbers.
constexpr double least = 1e-30;
constexpr double most = 1e30;

std::string shown(double value) {
  std::array<char, 40> buffer{};
  if (!std::isfinite(value)) return "not a number";
  return {buffer.data(), std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::general, 3).ptr};
}

std::string refusal(std::size_t index, double value, const char* noun, const char* accepted) {
  return "reading " + std::to_string(index + 1) + ": " + shown(value) + " is no " + noun + "; " + accepted + " is accepted";
}

}  // namespace

std::string notAbove0(std::size_t index, double value, const char* noun) {
  return value >= least && value <= most ? "" : refusal(index, value, noun, "a number above 0");
}

std::string notFinite(std::size_t index, double value, const char* noun) {
  return std::abs(value) <= most ? "" : refusal(index, value, noun, "a number");
}

std::string badReading(std::size_t index, const Measured& reading, const char* noun) {
  const std::string wrong = notAbove0(index, reading.value, noun);
  return wrong.empty() && reading.uncertainty ? notAbove0(index, *reading.uncertainty, "uncertainty") : wrong;
}

std::size_t differing(std::vector<double> values) {
  std::ranges::sort(values);
  const auto alike = [](double a, double b) { return b - a <= 1e-9 * std::max(std::abs(a), std::abs(b)); };
  return static_cast<std::size_t>(std::unique(values.begin(), values.end(), alike) - values.begin());
}

std::string firstOf(const std::vector<std::string>& sentences) {
  const auto said = std::ranges::find_if(sentences, [](const std::string& sentence) { return !sentence.empty(); });
  return said == sentences.end() ? "" : *said;
}

std::string readings(std::size_t count) {
  constexpr std::array<const char*, 10> words{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"};
  return (count < words.size() ? words[count] : std::to_string(count)) + (count == 1 ? " reading" : " readings");
}

}  // namespace bw

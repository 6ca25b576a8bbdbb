// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/text/text.h"

#include <array>
#include <charconv>
#include <cmath>

namespace bw::text {

namespace {

std::string fixed(double value, int decimals) {
  std::array<char, 400> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, decimals).ptr;
  const std::string digits(buffer.data(), end);
  const bool minusZero = digits.front() == '-' && digits.find_first_not_of("-0.") == std::string::npos;
  return minusZero ? digits.substr(1) : digits;
}

/// Power of ten of the first significant digit.
int placeOf(double value) { return static_cast<int>(std::floor(std::log10(std::abs(value)) + 1e-12)); }

}  // namespace

std::string number(double value, int digits) {
  if (!std::isfinite(value)) return "beyond measure";
  if (std::abs(value) < 1e-300) return "0";
  if (std::abs(value) >= 1e6) {
    std::array<char, 64> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::scientific, digits - 1).ptr;
    return {buffer.data(), end};
  }
  const double unit = std::pow(10.0, placeOf(value) - digits + 1);
  const double rounded = std::round(value / unit) * unit;
  return fixed(rounded, std::max(0, digits - 1 - placeOf(rounded)));  // 9.97 has one place more once it is 10
}

std::string whole(double value) { return fixed(value, 0); }

ReadShare readShare(double fraction) {
  using Bound = ReadShare::Bound;
  constexpr double noise = 1e-6;  // of sums of shares
  const double value = 100 * fraction, size = std::abs(value);
  if (size < noise) return {Bound::None, 0, 0};
  if (size < 0.05) return {Bound::Under, 0.1, 1};
  if (size < 9.95) return {Bound::None, std::round(value * 10) / 10, 1};
  if (value > 99.95 && value < 100 - noise) return {Bound::Over, 99.9, 1};
  const bool nearlyAll = value >= 99.05 && value < 100 - noise;
  return nearlyAll ? ReadShare{Bound::None, std::round(value * 10) / 10, 1} : ReadShare{Bound::None, std::round(value), 0};
}

std::string percent(double fraction) {
  const ReadShare share = readShare(fraction);
  const std::string bound = share.bound == ReadShare::Bound::Under ? "under " : share.bound == ReadShare::Bound::Over ? "over " : "";
  return bound + fixed(share.percent, share.decimals) + " %";
}

std::string temperature(double value_C) { return fixed(value_C, 0) + " °C"; }

ReadDuration readDuration(double seconds) {
  using Unit = ReadDuration::Unit;
  if (!(seconds >= 99.5)) return {Unit::Seconds, seconds};
  const double minutes = seconds / 60;
  if (minutes < 9.95) return {Unit::Minutes, std::round(minutes * 10) / 10};
  if (minutes < 99.5) return {Unit::Minutes, std::round(minutes)};
  if (minutes >= 100 * 60) return {Unit::Hours, minutes / 60};
  return {Unit::HoursAndMinutes, 5 * std::round(minutes / 5)};
}

std::string duration(double seconds) {
  const auto [unit, value] = readDuration(seconds);
  if (unit == ReadDuration::Unit::Seconds) return number(value) + " s";
  if (unit == ReadDuration::Unit::Minutes) return fixed(value, value == std::round(value) ? 0 : 1) + " min";
  if (unit == ReadDuration::Unit::Hours) return number(value) + " h";
  const double hours = std::floor(value / 60), rest = value - 60 * hours;
  return fixed(hours, 0) + " h" + (rest > 0 ? " " + fixed(rest, 0) + " min" : "");
}

std::string length(double metres) {
  if (std::abs(metres) < 0.5e-3) return number(metres * 1e6) + " µm";
  if (std::abs(metres) < 1) return number(metres * 1e3) + " mm";
  return number(metres) + " m";
}

std::string fluence(double value_J_m2) { return number(value_J_m2 / 1e4) + " J/cm²"; }

}  // namespace bw::text

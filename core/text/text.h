// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

/// Numbers as words of a sentence: two or three digits, with unit, dot decimals. For messages of the core; the window has its own.
namespace bw::text {

std::string number(double value, int digits = 2);        // 2 significant digits, no exponent below a million
std::string whole(double value);                        // to the nearest whole number
std::string percent(double fraction);                   // 85 %, 3.2 %, under 0.1 %
std::string temperature(double value_C);                 // 118 °C
std::string duration(double seconds);                    // 40 s, 2.5 min, 65 min, 1 h 50 min
std::string length(double metres);                       // 45 µm, 1.2 mm, 3 m
std::string fluence(double value_J_m2);                  // 1.1 J/cm²

/// A duration as it is read, in this program's one rounding: two digits up to 100 minutes, beyond that steps of five minutes (a single one
/// would be false precision), from 100 hours on two digits of hours. In `HoursAndMinutes` the value is minutes.
struct ReadDuration {
  enum class Unit { Seconds, Minutes, HoursAndMinutes, Hours };
  Unit unit = Unit::Seconds;
  double value = 0;
};
ReadDuration readDuration(double seconds);

/// A share as it is read, in this program's one rounding: tenths of a percent below 10 and above 99, whole ones between. What is not quite
/// nothing or everything is not told as 0 or 100.
struct ReadShare {
  enum class Bound { None, Under, Over };
  Bound bound = Bound::None;
  double percent = 0;
  int decimals = 0;
};
ReadShare readShare(double fraction);

}  // namespace bw::text

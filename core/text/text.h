// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

/// Numbers as words of a sentence: two or three digits, with unit, dot decimals. For messages of the core; the window has its own.
namespace bw::text {

std::string number(double value, int digits = 2);        // 2 significant digits, no exponent below a million
std::string whole(double value);                        // to the nearest whole number
std::string percent(double fraction);                    // 85 %
std::string temperature(double value_C);                 // 118 °C
std::string duration(double seconds);                    // 40 s, 65 min, 1 h 20 min
std::string length(double metres);                       // 45 µm, 1.2 mm, 3 m
std::string fluence(double value_J_m2);                  // 1.1 J/cm²

}  // namespace bw::text

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QChar>

namespace bw {

// What the plots' axes are drawn in, per SI unit; numbers in sentences go through format.h.
inline constexpr double mm_per_m = 1e3;
inline constexpr double um_per_m = 1e6;
inline constexpr double J_m2_per_J_cm2 = 1e4;

inline constexpr QChar noBreak(0x00a0);  // between a number and its unit

}  // namespace bw

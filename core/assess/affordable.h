// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/work.h"

namespace bw::affordable {

// What can be done in a second or two.
inline constexpr double mostStretches = 1e6;  // pieces of a frame
inline constexpr double mostRows = 1e6;       // straight rows and single pulses along curves
inline constexpr double mostStrikes = 3e6;    // straight rows and single pulses that removal follows
inline constexpr double mostCells = 4e7;      // points of a dose map
inline constexpr double mostVisits = 5e9;     // rows times the points that one goes over

/// Points of a steady map are no further apart than an eighth of the spot, and a quarter of the line spacing.
double longestStep_m(const Settings& settings, double spotDiameter_m);

/// The closest lines with which frame and dose map stay within these bounds, all else as it is; for the patterns that have lines.
double leastSpacing_m(const Work& work, double spotDiameter_m);

/// Rounded so that it still does: two digits, downwards.
std::string atMost(double value);

}  // namespace bw::affordable

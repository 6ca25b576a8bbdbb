// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <string>

namespace bw {

/// "2026-11-26T01:09:21Z", UTC. Whatever the clock says, the year has four digits.
std::string isoTime(std::chrono::system_clock::time_point time);

/// "2026-11-26", UTC.
std::string isoDate(std::chrono::system_clock::time_point time);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/iso_time.h"

#include <algorithm>
#include <cstdio>

namespace bw {

std::string isoDate(std::chrono::system_clock::time_point time) { return isoTime(time).substr(0, 10); }

std::string isoTime(std::chrono::system_clock::time_point time) {
  using namespace std::chrono;
  const auto seconds = floor<std::chrono::seconds>(time);
  const auto day = floor<days>(seconds);
  const year_month_day date(day);
  const hh_mm_ss<std::chrono::seconds> clock(seconds - day);
  char text[64];
  std::snprintf(text, sizeof text, "%04d-%02u-%02uT%02d:%02d:%02dZ", std::clamp(static_cast<int>(date.year()), 0, 9999),
                static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()), static_cast<int>(clock.hours().count()),
                static_cast<int>(clock.minutes().count()), static_cast<int>(clock.seconds().count()));
  return text;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/extras.h"

#include <string>

namespace bw {

/// That somebody settled a precaution of the project, or answers for going on without.
struct Clearance {
  std::string item;  // Precaution::id, which names what it was given for
  std::string by;    // name or initials
  std::string date;  // ISO 8601
  std::string note;  // what was found or done; why, where a stop was waived
  Extras extras;
  bool operator==(const Clearance&) const = default;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/machine_card.h"

namespace bw {

/// How often a shop looks at its machines. Common practice, no source: every shop sets its own.
struct UpkeepHabit {
  int checkEvery_days = 90;            // delivered power and spot
  double glassLasts_s = 100 * 3600.0;  // beam on one cover glass
  bool operator==(const UpkeepHabit&) const = default;
};

enum class Upkeep { Fresh, Soon, Due, NotKnown };

struct CheckDue {
  Upkeep state = Upkeep::NotKnown;
  std::string reason;  // one sentence without its end
};

/// The date of the last check, ISO 8601; empty: never checked, as far as is known.
std::string lastCheck(const MachineCard& card);

/// Whether the machine should be checked, and why; `today` is an ISO 8601 date. What is no date counts as not known. Of date and cover
/// glass the more pressing tells. "Soon" is the last tenth of the time.
CheckDue checkDue(const MachineCard& card, const std::string& today, const UpkeepHabit& habit = {});

}  // namespace bw

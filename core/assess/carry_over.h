// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/machine.h"
#include "core/values/plan.h"

#include <string>
#include <vector>

namespace bw {

/// One thing that makes a job what it is on the part, on the machine it was found on and on the other.
struct Carried {
  std::string quantity;  // "peak fluence"
  std::string before;    // with its unit; "none" where that machine has no such thing
  std::string after;
  bool kept = true;  // within 5 %
  std::string why;   // what stands in the way; empty where it is kept
};

struct CarryOver {
  Settings settings;
  std::vector<Carried> carried;
};

/// Settings for another machine that do to the part what these do on theirs, as near as the other can; both with their optics put in.
///
/// Kept, the first before the next where not all can be: pulse regime (duration nearest on a log scale), peak fluence, overlap of pulses
/// and of lines in spots, dose per pass. The spot is made as wide as before by standing out of focus, or finer where the pulses would be
/// too weak for a wide one. The mean power, which the heat in the part follows, stays where the machine has it and the number of pulses
/// allows; the travel follows from the dose. Between a pulsed and a continuous machine no pulse can be kept: then the energy of one passage
/// over a place stands in for it, at full power.
///
/// The result is a plan to be assessed and proven, not more. Preconditions: speeds, sizes and powers above zero; a travel speed of 0 stays.
CarryOver carryOver(const Machine& from, const Settings& settings, const Machine& to);

}  // namespace bw

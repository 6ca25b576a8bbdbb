// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/removal_work.h"
#include "core/text/text.h"

#include <cmath>

namespace bw {

std::vector<FindOutNext> measurements(const Ranges& ranges) {
  const auto isNarrower = [](const Spread& than, const Spread& spread) {
    return spread.high <= than.high && spread.low >= than.low && (spread.high < than.high || spread.low > than.low);
  };
  std::vector<FindOutNext> next;
  for (const Influence& influence : ranges.influences) {
    if (next.size() == 3) break;
    if (!isNarrower(ranges.passesNeeded, influence.passesIfKnown)) continue;
    next.push_back({"the " + influence.what, influence.how, passesText(ranges.passesNeeded) + " becomes " + passesText(influence.passesIfKnown)});
  }
  return next;
}

std::string passesText(int passes) { return passes == 1 ? "1 pass" : std::to_string(passes) + " passes"; }

std::string passesText(const Spread& passes) {
  if (std::isinf(passes.low)) return "no number of passes";
  const std::string low = passesText(static_cast<int>(passes.low));
  if (std::isinf(passes.high)) return low + " or more";
  if (passes.low == passes.high) return low;
  return text::whole(passes.low) + " to " + passesText(static_cast<int>(passes.high));
}

}  // namespace bw

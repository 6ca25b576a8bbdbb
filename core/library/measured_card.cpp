// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/measured_card.h"

namespace bw {

MachineCard withMeasured(MachineCard card, const std::vector<MachineChange>& taken, const std::string& date, const std::string& initials) {
  if (taken.empty()) return card;
  MachineCheck check{date, initials, {}, {}, "", {}};
  for (const MachineChange& change : taken) {
    apply(card.machine, change);
    if (change.field == MachineField::DeliveredPower) {
      check.deliveredPower_W = change.value.likely;
      card.machine.checkedOn = date;
    }
    if (change.field == MachineField::SpotDiameter) check.spotDiameter_m = change.value.likely;
    const std::string from = "from " + change.from;
    if (check.note.find(from) == std::string::npos) check.note += (check.note.empty() ? "" : ", ") + from;
  }
  card.checks.push_back(check);
  return card;
}

}  // namespace bw

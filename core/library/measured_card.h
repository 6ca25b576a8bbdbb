// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/machine_setup.h"
#include "core/library/machine_card.h"

namespace bw {

/// The card with the changes that were taken, in their order, and the check they came from at the end of its checks. With the delivered
/// power the machine's own date of its check becomes `date`.
MachineCard withMeasured(MachineCard card, const std::vector<MachineChange>& taken, const std::string& date, const std::string& initials);

}  // namespace bw

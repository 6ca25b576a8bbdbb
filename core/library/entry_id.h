// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/machine_card.h"
#include "core/values/substance.h"

#include <string>

namespace bw {

/// What tells an entry of the library from others of its kind.
inline const std::string& idOf(const Substrate& substrate) { return substrate.id; }
inline const std::string& idOf(const Coating& coating) { return coating.id; }
inline const std::string& idOf(const MachineCard& card) { return card.machine.id; }

}  // namespace bw

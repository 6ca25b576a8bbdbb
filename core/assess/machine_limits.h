// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/project.h"
#include "core/values/status.h"

#include <optional>
#include <string>
#include <vector>

namespace bw {

/// One setting the machine cannot do, or does only at its edge.
struct MachineFinding {
  Status status = Status::Fails;
  std::string message;
};

std::vector<MachineFinding> machineFindings(const Project& project, const Machine& machine, const Settings& settings);

/// The settings nearest to these that the machine, with its optic put in, can do: no finding that settings can mend fails any more.
Settings withinMachine(const Machine& machine, Settings settings);

/// The machine with that optic's spot and reach in place of its own. Throws Unusable where it has no such optic.
Machine withOptic(Machine machine, const std::optional<std::string>& opticId);

}  // namespace bw

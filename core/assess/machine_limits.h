// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <string>
#include <vector>

namespace bw {

/// One setting the machine cannot do, or does only at its edge.
struct MachineFinding {
  Status status = Status::Fails;
  std::string message;
};

std::vector<MachineFinding> machineFindings(const Project& project, const Machine& machine, const Settings& settings);

/// The settings nearest to these that the machine can do.
Settings withinMachine(const Machine& machine, Settings settings);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/project.h"

namespace bw {

/// The project with other settings in the plan's first step.
Project withSettings(Project project, const std::string& planName, const Settings& settings);

/// The plan's first step on another machine, with these settings.
Project onMachine(Project project, const std::string& planName, const std::string& machine, const Settings& settings);

}  // namespace bw

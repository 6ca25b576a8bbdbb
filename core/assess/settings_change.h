// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/project.h"

namespace bw {

/// The project with other settings in the plan's first step.
Project withSettings(Project project, const std::string& planName, const Settings& settings);

}  // namespace bw

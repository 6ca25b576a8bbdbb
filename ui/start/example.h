// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/project.h"

#include <QString>

#include <optional>

namespace bw {

/// Folder of the sample projects: where the program is installed, or else its source; empty when there is neither.
QString exampleFolder();

/// The first sample: the carriage side panel.
std::optional<Project> loadExample();

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/json_io.h"
#include "core/values/project.h"

namespace bw {

/// What no single field can tell: names that must exist or be unique, values that must fit each other.
/// Settings that a machine cannot reach are no problem of the file; the assessment speaks of them.
void checkProject(const Project& project, const Library& shipped, Problems& problems);

}  // namespace bw

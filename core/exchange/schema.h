// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace bw {

/// JSON Schema (draft 2020-12) of the files, made from the same descriptions that read and write them, so that it cannot say something
/// else. What no schema can say is checked by the reader alone: hashes, keys that must be known, versions in order, paths in names.
std::string bundleSchema();
std::string projectSchema();

}  // namespace bw

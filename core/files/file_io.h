// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>

namespace bw {

/// A path as it may stand in a message: on one line whatever the name holds.
std::string shownPath(const std::filesystem::path& path);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <filesystem>

namespace bw {

/// A checked copy of the library with its attachments at another place, where nothing may lie yet. The old file stays as it is. Throws
/// LibraryError. Takes as long as the photos are large; call it off the interface's thread.
void copyLibrary(const std::filesystem::path& from, const std::filesystem::path& to, std::chrono::system_clock::time_point now);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace bw {

/// SHA-256 (FIPS 180-4) as 64 lower-case hexadecimal digits.
std::string sha256(std::string_view bytes);

/// Of what a file holds. Throws LibraryError (Io).
std::string sha256OfFile(const std::filesystem::path& path);

/// Whether the text is such a hash, and nothing that could lead elsewhere when it becomes a file's name.
bool isSha256(std::string_view text);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace bw {

enum class Encoding { Utf8, Latin1, Utf16Little, Utf16Big };

/// Larger files are no log of a gauge.
inline constexpr std::size_t largestCsv_bytes = 16u * 1024 * 1024;

/// How the bytes are written: by the byte-order mark; without one UTF-8 where it is valid, else Latin-1.
Encoding encodingOf(std::string_view bytes);

/// The text as UTF-8 without byte-order mark. Throws FileError: too large, NUL characters, broken UTF-8 or UTF-16.
std::string utf8Of(std::string_view bytes, Encoding encoding);

/// For a message: on one line, short.
std::string shownCell(std::string_view cell);

}  // namespace bw

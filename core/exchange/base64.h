// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace bw {

/// Base64 (RFC 4648, section 4), without line breaks.
std::string toBase64(std::string_view bytes);

/// How long that text is for so many bytes.
constexpr std::size_t base64Length(std::size_t bytes) { return (bytes + 2) / 3 * 4; }

/// The bytes, or nothing where the text is no base64: other letters, missing padding, bits left over.
std::optional<std::string> fromBase64(std::string_view text);

}  // namespace bw

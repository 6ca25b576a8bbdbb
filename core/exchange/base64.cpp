// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/base64.h"

#include <cstdint>
#include <nettle/base64.h>

namespace bw {

std::string toBase64(std::string_view bytes) {
  std::string text(BASE64_ENCODE_RAW_LENGTH(bytes.size()), '\0');
  base64_encode_raw(text.data(), bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
  return text;
}

std::optional<std::string> fromBase64(std::string_view text) {
  if (text.size() % 4 != 0) return {};
  std::string bytes(BASE64_DECODE_LENGTH(text.size()), '\0');
  std::size_t length = bytes.size();
  base64_decode_ctx state;
  base64_decode_init(&state);
  const int decoded = base64_decode_update(&state, &length, reinterpret_cast<std::uint8_t*>(bytes.data()), text.size(), text.data());
  if (decoded != 1 || base64_decode_final(&state) != 1) return {};
  bytes.resize(length);
  // The decoder skips blanks, and what it skips would hide that the text is not what was written.
  if (BASE64_ENCODE_RAW_LENGTH(length) != text.size()) return {};
  return bytes;
}

}  // namespace bw

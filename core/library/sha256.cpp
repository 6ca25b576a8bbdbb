// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/sha256.h"

#include "core/library/folders.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <fstream>
#include <nettle/sha2.h>
#include <type_traits>
#include <vector>

namespace bw {
namespace {

/// A hash being made. Version 4 of the library asks for the digest without its length.
class Sha256 {
 public:
  Sha256() { sha256_init(&m_state); }
  void add(std::string_view bytes) { sha256_update(&m_state, bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data())); }
  std::string hex() {
    std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest{};
    take(sha256_digest, digest);
    static constexpr char digits[] = "0123456789abcdef";
    std::string text;
    for (const std::uint8_t byte : digest) {
      text += digits[byte / 16];
      text += digits[byte % 16];
    }
    return text;
  }

 private:
  template <class Digest>
  void take(Digest digest, std::array<std::uint8_t, SHA256_DIGEST_SIZE>& to) {
    if constexpr (std::is_invocable_v<Digest, sha256_ctx*, std::uint8_t*>)
      digest(&m_state, to.data());
    else
      digest(&m_state, to.size(), to.data());
  }

  sha256_ctx m_state{};
};

}  // namespace

std::string sha256(std::string_view bytes) {
  Sha256 hash;
  hash.add(bytes);
  return hash.hex();
}

std::string sha256OfFile(const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  Sha256 hash;
  std::vector<char> block(1 << 16);
  while (stream) {
    stream.read(block.data(), static_cast<std::streamsize>(block.size()));
    hash.add({block.data(), static_cast<std::size_t>(stream.gcount())});
  }
  if (!stream.eof()) failBySystem(path, errno);
  return hash.hex();
}

bool isSha256(std::string_view text) {
  return text.size() == 64 && std::ranges::all_of(text, [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); });
}

}  // namespace bw

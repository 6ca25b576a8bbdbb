// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/stored_json.h"

namespace bw {
namespace {

/// Length of the UTF-8 sequence at `at`, 0 where there is none (Unicode 15, table 3-7).
std::size_t sequenceAt(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return at + i < text.size() ? static_cast<unsigned char>(text[at + i]) : 0U; };
  const auto follows = [&](std::size_t i, unsigned low = 0x80, unsigned high = 0xBF) { return byte(i) >= low && byte(i) <= high; };
  const unsigned first = byte(0);
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first <= 0xDF) return follows(1) ? 2 : 0;
  if (first >= 0xE0 && first <= 0xEF) return follows(1, first == 0xE0 ? 0xA0 : 0x80, first == 0xED ? 0x9F : 0xBF) && follows(2) ? 3 : 0;
  if (first >= 0xF0 && first <= 0xF4) {
    return follows(1, first == 0xF0 ? 0x90 : 0x80, first == 0xF4 ? 0x8F : 0xBF) && follows(2) && follows(3) ? 4 : 0;
  }
  return 0;
}

void demandText(const std::string& text, const std::string& path, const std::string& what) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = sequenceAt(text, at);
    if (length > 0 && text[at] != '\0') {
      at += length;
      continue;
    }
    throw LibraryError(LibraryTrouble::Refused, what + ": " + path + ": holds a character that is no text (byte " + std::to_string(at + 1) +
                                                    "); type it anew: any letters and signs in UTF-8 are accepted");
  }
}

void demandText(const Json& json, const std::string& path, const std::string& what) {
  if (json.is_string()) return demandText(json.get_ref<const std::string&>(), path, what);
  if (json.is_array()) {
    for (std::size_t i = 0; i < json.size(); ++i) demandText(json[i], elementPath(path, i), what);
  }
  if (!json.is_object()) return;
  for (const auto& [key, member] : json.items()) {
    demandText(key, path, what);
    demandText(member, memberPath(path, key), what);
  }
}

std::string first(const Problems& problems) { return summary(problems.list()); }

}  // namespace

void demandText(const Json& json, const std::string& what) { demandText(json, "$", what); }

std::string storedText(const Json& json) { return json.dump(); }

void refuseProblems(const Problems& problems, const std::string& what) {
  throw LibraryError(LibraryTrouble::Refused, what + ": " + first(problems));
}

void reportDamage(const Problems& problems, const std::string& what) {
  throw LibraryError(LibraryTrouble::Corrupt,
                     what + ": is damaged in the library (" + first(problems) + "); restore a backup, or save it anew");
}

}  // namespace bw

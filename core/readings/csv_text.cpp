// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/readings/csv_text.h"

#include "core/files/project_file.h"

#include <algorithm>
#include <cstdint>

namespace bw {

namespace {

constexpr std::string_view mark8 = "\xEF\xBB\xBF";
constexpr std::string_view markLittle = "\xFF\xFE";
constexpr std::string_view markBig = "\xFE\xFF";

std::uint8_t byteAt(std::string_view text, std::size_t i) { return static_cast<std::uint8_t>(text[i]); }

/// Bytes of the UTF-8 character that starts here; 0 where there is none.
std::size_t lengthOfCharacter(std::string_view text, std::size_t i) {
  const std::uint8_t first = byteAt(text, i);
  if (first < 0x80) return 1;
  const std::size_t length = first >= 0xF0 && first <= 0xF4 ? 4 : first >= 0xE0 && first < 0xF0 ? 3 : first >= 0xC2 && first < 0xE0 ? 2 : 0;
  if (length == 0 || i + length > text.size()) return 0;
  for (std::size_t k = 1; k < length; ++k) {
    if ((byteAt(text, i + k) & 0xC0) != 0x80) return 0;
  }
  const std::uint8_t second = byteAt(text, i + 1);
  const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
  const bool outside = (first == 0xED && second >= 0xA0) || (first == 0xF4 && second >= 0x90);
  return overlong || outside ? 0 : length;
}

bool isUtf8(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = lengthOfCharacter(text, i);
    if (length == 0) return false;
    i += length;
  }
  return true;
}

void append(std::string& text, std::uint32_t code) {
  const auto add = [&](std::uint32_t byte) { text += static_cast<char>(byte); };
  if (code < 0x80) return add(code);
  if (code < 0x800) {
    add(0xC0 | (code >> 6));
  } else {
    if (code < 0x10000) {
      add(0xE0 | (code >> 12));
    } else {
      add(0xF0 | (code >> 18));
      add(0x80 | ((code >> 12) & 0x3F));
    }
    add(0x80 | ((code >> 6) & 0x3F));
  }
  add(0x80 | (code & 0x3F));
}

std::string fromLatin1(std::string_view bytes) {
  std::string text;
  text.reserve(bytes.size());
  for (std::size_t i = 0; i < bytes.size(); ++i) append(text, byteAt(bytes, i));
  return text;
}

std::string fromUtf16(std::string_view bytes, bool little) {
  if (bytes.size() % 2 != 0) throw FileError("breaks off within a character of UTF-16; a whole file is accepted");
  const auto unitAt = [&](std::size_t i) -> std::uint32_t {
    const std::uint32_t a = byteAt(bytes, i);
    const std::uint32_t b = byteAt(bytes, i + 1);
    return little ? a | (b << 8) : (a << 8) | b;
  };
  std::string text;
  text.reserve(bytes.size());
  for (std::size_t i = 0; i < bytes.size(); i += 2) {
    std::uint32_t code = unitAt(i);
    if (code >= 0xD800 && code < 0xE000) {
      const std::uint32_t next = code < 0xDC00 && i + 2 < bytes.size() ? unitAt(i + 2) : 0;
      if (next < 0xDC00 || next >= 0xE000) throw FileError("is no valid UTF-16 text; UTF-8, Latin-1 and UTF-16 tables are accepted");
      code = 0x10000 + ((code - 0xD800) << 10) + (next - 0xDC00);
      i += 2;
    }
    append(text, code);
  }
  return text;
}

std::string decoded(std::string_view bytes, Encoding encoding) {
  if (bytes.starts_with(mark8)) bytes.remove_prefix(mark8.size());
  switch (encoding) {
    case Encoding::Utf8:
      return std::string(bytes);
    case Encoding::Latin1:
      return fromLatin1(bytes);
    case Encoding::Utf16Little:
    case Encoding::Utf16Big:
      break;
  }
  const bool little = encoding == Encoding::Utf16Little;
  if (bytes.starts_with(little ? markLittle : markBig)) bytes.remove_prefix(2);
  return fromUtf16(bytes, little);
}

}  // namespace

Encoding encodingOf(std::string_view bytes) {
  if (bytes.starts_with(mark8)) return Encoding::Utf8;
  if (bytes.starts_with(markLittle)) return Encoding::Utf16Little;
  if (bytes.starts_with(markBig)) return Encoding::Utf16Big;
  return isUtf8(bytes) ? Encoding::Utf8 : Encoding::Latin1;
}

std::string utf8Of(std::string_view bytes, Encoding encoding) {
  if (bytes.size() > largestCsv_bytes) {
    throw FileError("holds " + std::to_string(bytes.size() / 1000000) + " MB; up to " + std::to_string(largestCsv_bytes / 1000000) +
                    " MB is accepted");
  }
  std::string text = decoded(bytes, encoding);
  if (text.find('\0') != std::string::npos)
    throw FileError("holds NUL characters, so it is no text; a table of text with separators is accepted");
  if (!isUtf8(text)) throw FileError("is no valid UTF-8 text; UTF-8, Latin-1 and UTF-16 tables are accepted");
  return text;
}

std::string shownCell(std::string_view cell) {
  constexpr std::size_t longest = 40;
  std::size_t end = std::min(cell.size(), longest);
  while (end > 0 && end < cell.size() && (static_cast<unsigned char>(cell[end]) & 0xC0) == 0x80) --end;  // at a character's end
  std::string text(cell.substr(0, end));
  std::ranges::replace_if(
      text, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; }, ' ');
  return "\"" + text + (end < cell.size() ? "...\"" : "\"");
}

}  // namespace bw

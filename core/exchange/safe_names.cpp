// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/safe_names.h"

#include <algorithm>
#include <array>

namespace bw {
namespace {

constexpr std::string_view separators = "/\\";

unsigned char byteAt(std::string_view text, std::size_t at) { return at < text.size() ? static_cast<unsigned char>(text[at]) : 0; }

/// Bytes of the sign at `at` if it is no letter but steers what follows: controls (Unicode categories Cc, Zl, Zp) and turns of the
/// direction of writing (U+202A to 202E, U+2066 to 2069); 0 otherwise.
std::size_t steeringSign(std::string_view text, std::size_t at) {
  const unsigned char first = byteAt(text, at), second = byteAt(text, at + 1), third = byteAt(text, at + 2);
  if (first < 0x20 || first == 0x7F) return 1;
  if (first == 0xC2 && second >= 0x80 && second <= 0x9F) return 2;
  if (first != 0xE2) return 0;
  if (second == 0x80 && third >= 0xA8 && third <= 0xAE) return 3;
  if (second == 0x81 && third >= 0xA6 && third <= 0xA9) return 3;
  return 0;
}

bool hasDrive(std::string_view path) {
  const auto isLetter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  return path.size() >= 2 && path[1] == ':' && isLetter(path[0]);
}

bool hasDots(std::string_view path) {
  for (std::size_t from = 0; from <= path.size();) {
    const std::size_t end = std::min(path.find_first_of(separators, from), path.size());
    if (path.substr(from, end - from) == "..") return true;
    from = end + 1;
  }
  return false;
}

}  // namespace

std::string lineProblem(std::string_view text) {
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (steeringSign(text, at) == 0) continue;
    return "holds a control character at byte " + std::to_string(at + 1) + "; letters and signs on one line are accepted";
  }
  return {};
}

std::string innerPathProblem(std::string_view path) {
  if (std::string problem = lineProblem(path); !problem.empty()) return problem;
  const bool isAbsolute = !path.empty() && separators.find(path.front()) != std::string_view::npos;
  if (isAbsolute || hasDrive(path)) return "is an absolute path; the name of a file is accepted";
  if (hasDots(path)) return "leads out of its folder by \"..\"; the name of a file is accepted";
  return {};
}

std::string fileNameProblem(std::string_view name) {
  if (std::string problem = innerPathProblem(name); !problem.empty()) return problem;
  if (name == ".") return "is the name of a folder; the name of a file is accepted";
  if (name.find_first_of(separators) != std::string_view::npos) return "is a path; the name of a file alone is accepted";
  return {};
}

std::string safeFileName(std::string_view name) {
  name = name.substr(name.find_last_of(separators) == std::string_view::npos ? 0 : name.find_last_of(separators) + 1);
  if (hasDrive(name)) name.remove_prefix(2);
  std::string safe;
  for (std::size_t at = 0; at < name.size();) {
    const std::size_t steering = steeringSign(name, at);
    safe += steering > 0 ? '_' : name[at];
    at += std::max<std::size_t>(steering, 1);
  }
  if (safe == "." || safe == "..") safe = "_";
  return safe;
}

std::string cutText(std::string_view text, std::size_t longest) {
  if (text.size() <= longest) return std::string(text);
  std::size_t end = longest;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
  return std::string(text.substr(0, end));
}

}  // namespace bw

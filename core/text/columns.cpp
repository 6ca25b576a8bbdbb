// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/text/columns.h"

#include <algorithm>

namespace bw::text {
namespace {

/// Letters as seen, not bytes.
std::size_t widthOf(const std::string& text) {
  return static_cast<std::size_t>(std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

}  // namespace

std::string line(std::string text) {
  std::ranges::replace_if(
      text, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; }, ' ');
  return text;
}

std::string columns(const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths;
  for (const auto& row : rows) {
    widths.resize(std::max(widths.size(), row.size()));
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], widthOf(row[i]));
  }
  std::string text;
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      text += row[i] + (i + 1 < row.size() ? std::string(widths[i] - widthOf(row[i]) + 2, ' ') : "\n");
    }
  }
  return text;
}

}  // namespace bw::text

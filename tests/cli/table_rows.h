// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/cli/run.h"
#include "tests/support/catch.h"

#include <charconv>
#include <string>
#include <vector>

namespace bw::test {

/// The numbers of a CSV file with that header, row by row.
inline std::vector<std::vector<double>> rowsOf(const std::string& path, const std::string& header) {
  const std::string text = textOf(path);
  REQUIRE(text.starts_with(header + "\n"));
  std::vector<std::vector<double>> rows;
  const char* const end = text.data() + text.size();
  for (const char* at = text.data() + header.size() + 1; at < end; ++at) {  // by hand: a map has a million rows
    auto& row = rows.emplace_back();
    do {
      const auto [after, error] = std::from_chars(at, end, row.emplace_back());
      if (error != std::errc() || after == end || (*after != ',' && *after != '\n')) FAIL("no number in line " << rows.size() + 1);
      at = after + 1;
    } while (at[-1] == ',');
    --at;
  }
  return rows;
}

}  // namespace bw::test

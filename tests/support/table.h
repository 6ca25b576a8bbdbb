// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace bw::test {

/// The rows of numbers of a table in tests/, below its one line of names.
inline std::vector<std::vector<double>> readTable(const std::string& name) {
  std::ifstream stream(std::string(BAREWRIGHT_SOURCE_DIR) + "/tests/" + name);
  if (!stream) throw std::runtime_error("no table " + name);
  std::vector<std::vector<double>> rows;
  std::string line;
  std::getline(stream, line);
  while (std::getline(stream, line)) {
    std::istringstream words(line);
    std::vector<double> row;
    for (std::string word; std::getline(words, word, ',');) row.push_back(std::stod(word));
    rows.push_back(row);
  }
  return rows;
}

}  // namespace bw::test

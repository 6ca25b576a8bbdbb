// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace bw {

/// A result and where it goes; "-" is standard output.
struct Output {
  std::string path;
  std::string text;
};

/// To standard output. Throws FileError.
void print(const std::string& text);

/// All of them; files whole or not at all. Throws FileError.
void write(const std::vector<Output>& outputs);

}  // namespace bw

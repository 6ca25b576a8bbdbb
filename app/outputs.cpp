// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/outputs.h"

#include "core/files/project_file.h"

#include <iostream>

namespace bw {

void print(const std::string& text) {
  std::cout << text << std::flush;
  if (!std::cout) throw FileError("standard output: cannot be written");
}

void write(const std::vector<Output>& outputs) {
  for (const Output& output : outputs) {
    if (output.path == "-")
      print(output.text);
    else
      writeFileAtomically(output.text, output.path);
  }
}

}  // namespace bw

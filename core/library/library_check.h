// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

namespace bw {

/// What a look through the whole library found. Reads every page and every attachment: takes seconds for a large one.
struct LibraryCheck {
  std::size_t recipes = 0;
  std::size_t versions = 0;
  std::size_t attachments = 0;
  std::vector<std::string> findings;  // each a sentence; empty: nothing is wrong
  bool sound() const { return findings.empty(); }
};

/// Opens its own connection and writes nothing: call it on any thread. Throws LibraryError where the file cannot be opened at all.
LibraryCheck checkLibrary(const std::filesystem::path& library);

}  // namespace bw

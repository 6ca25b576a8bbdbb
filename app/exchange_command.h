// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/library_command.h"

#include <filesystem>

namespace bw {

/// What every verb of the library is told.
struct LibraryChoice {
  std::filesystem::path path;
  bool json = false;
};

/// Adds one verb to those of the library.
using AddLibraryVerb =
    std::function<CLI::App*(const char* name, const char* what, const std::function<int(const LibraryChoice&, const Print&)>& run)>;

/// Adds `export` and `import`.
void addExchange(const AddLibraryVerb& add);

}  // namespace bw

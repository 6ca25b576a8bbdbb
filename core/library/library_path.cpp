// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/library_path.h"

#include "core/files/project_file.h"

#include <cstdlib>

namespace fs = std::filesystem;

namespace bw {
namespace {

/// A folder of the environment; what is not absolute does not count (XDG Base Directory Specification 0.8).
fs::path folderIn(const char* variable) {
  const char* value = std::getenv(variable);
  const fs::path path = value ? value : "";
  return path.is_absolute() ? path : fs::path();
}

}  // namespace

fs::path defaultLibraryPath() {
  fs::path data = folderIn("XDG_DATA_HOME");
  if (const fs::path home = folderIn("HOME"); data.empty() && !home.empty()) data = home / ".local" / "share";
  if (data.empty()) throw FileError("the library: neither XDG_DATA_HOME nor HOME names a folder; --library PATH is accepted");
  return data / "barewright" / "library.sqlite";
}

}  // namespace bw

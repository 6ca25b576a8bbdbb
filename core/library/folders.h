// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/library_error.h"

#include <filesystem>
#include <string_view>

namespace bw {

/// Makes the folder and those above it. Throws LibraryError.
void makeFolder(const std::filesystem::path& folder);

/// Makes names in the folder last through a power cut, where the file system can.
void syncFolder(const std::filesystem::path& folder);
void syncFile(const std::filesystem::path& file);

/// A name beside `target` that is still free, and gone again with whatever lies there when this ends.
class TemporaryPath {
 public:
  explicit TemporaryPath(const std::filesystem::path& target);
  TemporaryPath(const TemporaryPath&) = delete;
  TemporaryPath& operator=(const TemporaryPath&) = delete;
  ~TemporaryPath();
  const std::filesystem::path& path() const { return m_path; }

  /// Gives the file its name, in the place of what had it.
  void giveName(const std::filesystem::path& name) const;
  /// The same, unless something has that name: then nothing happens.
  void giveNameUnlessTaken(const std::filesystem::path& name) const;

 private:
  std::filesystem::path m_path;
};

/// Throws Full, ReadOnly or Io for the reason the system gives.
[[noreturn]] void failBySystem(const std::filesystem::path& path, int code);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/bundle_file.h"
#include "core/files/file_io.h"

namespace bw {

Bundle openBundle(const std::filesystem::path& path) {
  BundleReadResult result = readBundle(readWholeFile(path, largestBundle_bytes, "a bundle"));
  if (!result.problems.empty()) throw FileError(shownPath(path) + ": " + summary(result.problems));
  return std::move(result.bundle);
}

}  // namespace bw

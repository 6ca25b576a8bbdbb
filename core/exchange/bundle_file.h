// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/bundle.h"
#include "core/files/project_file.h"

#include <cstdint>
#include <filesystem>
#include <string_view>

namespace bw {

/// What a bundle may hold at most, so that a hostile one cannot fill the memory. Writing keeps to it as well.
inline constexpr std::uintmax_t largestBundle_bytes = 256u * 1024 * 1024;
inline constexpr std::size_t mostBundleValues = 4'000'000;
inline constexpr std::uintmax_t largestBundledFile_bytes = 32u * 1024 * 1024;

/// Why so much cannot stand in one bundle.
std::string tooLargeBundle(std::uintmax_t size_bytes);

/// A bundle as read, and everything that is wrong with it. Where problems is not empty the bundle is not to be used.
struct BundleReadResult {
  Bundle bundle;
  std::vector<Problem> problems;
};

/// Reads a bundle from JSON text. Never throws for bad content: says it in `problems` (at most 100), each with its place.
BundleReadResult readBundle(std::string_view text);

/// Reads the file at `path`; throws FileError with the first problem and how many more there are.
Bundle openBundle(const std::filesystem::path& path);

/// The file text of a bundle, the same for the same bundle. Throws FileError where it would be past what can be read again.
std::string writeBundle(const Bundle& bundle);

}  // namespace bw

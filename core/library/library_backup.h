// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace bw {

/// A copy of the library made by the program, in the folder "<library>.backups" beside it.
struct LibraryBackup {
  std::filesystem::path path;
  int sequence = 0;  // tells the order, which a clock cannot
  std::string date;  // ISO 8601 date, as the clock said
  std::uintmax_t size_bytes = 0;
};

inline constexpr std::size_t keptBackups = 14;

/// Newest first. No library need be there any more.
std::vector<LibraryBackup> backupsOf(const std::filesystem::path& library);

/// Copies the library while others work on it, checks the copy, and only then drops the oldest beyond `keep`. Opens its own connection:
/// call it on any thread. Attachments are not copied: they are never overwritten. Throws LibraryError; a damaged library is not copied.
LibraryBackup backUp(const std::filesystem::path& library, std::chrono::system_clock::time_point now, std::size_t keep = keptBackups);

/// The same, unless there is one of the same date already, or no library.
std::optional<LibraryBackup> backUpDaily(const std::filesystem::path& library, std::chrono::system_clock::time_point now,
                                         std::size_t keep = keptBackups);

/// Puts a backup in the library's place and returns where the file that stood there was put aside, nothing if there was none. The store
/// must be closed in this program; if another program has the library open it is refused (Busy). If the computer stops on the way, the
/// library is as it was or as the backup; at worst its write-ahead log already lies aside, and restoring again finishes the work.
std::optional<std::filesystem::path> restoreBackup(const std::filesystem::path& library, const std::filesystem::path& backup,
                                                   std::chrono::system_clock::time_point now);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/library_store.h"
#include "core/library/sqlite.h"

#include <memory>

namespace bw {

/// Throws NotOurs, Newer or Missing by the first bytes of the file, before SQLite touches it: what is refused stays as it is.
void demandLibraryFile(const std::filesystem::path& path);

/// The library, made first where there is none and `options` allow, brought up to date and set up for use.
std::unique_ptr<Database> openLibrary(const std::filesystem::path& path, const LibraryOptions& options);

/// A connection for copying and checking: nothing is written, not even the write-ahead log.
std::unique_ptr<Database> openLibraryToRead(const std::filesystem::path& path, std::chrono::milliseconds patience);

}  // namespace bw

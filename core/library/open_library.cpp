// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/open_library.h"

#include "core/files/file_io.h"
#include "core/library/folders.h"
#include "core/library/library_backup.h"
#include "core/library/schema.h"

#include <sys/vfs.h>
#include <system_error>
#include <unistd.h>

namespace fs = std::filesystem;

namespace bw {
namespace {

[[noreturn]] void refuse(LibraryTrouble trouble, const fs::path& path, const std::string& why) {
  throw LibraryError(trouble, shownPath(path) + ": " + why);
}

constexpr const char* newer =
    "was written by a newer version of this program and is left as it is; a library of this version or an older one is accepted";
constexpr const char* notOurs = "is no library of recipes and is left as it is; the path of a library, or of no file yet, is accepted";

constexpr std::size_t headerSize = 100;

/// Big-endian, as the file format has it (SQLite, "Database File Format", section 1.3).
std::int64_t wordAt(const std::string& header, std::size_t offset) {
  std::int64_t word = 0;
  for (std::size_t i = 0; i < 4; ++i) word = word * 256 + static_cast<unsigned char>(header[offset + i]);
  return word;
}

void demandOurs(const fs::path& path, std::int64_t applicationId, std::int64_t schema) {
  if (applicationId != libraryApplicationId) refuse(LibraryTrouble::NotOurs, path, notOurs);
  if (schema > latestSchema()) refuse(LibraryTrouble::Newer, path, newer);
}

/// Network file systems, on which programs of two computers share no memory (numbers: Linux, statfs(2) and linux/magic.h).
bool isOnNetwork(const fs::path& path) {
  struct statfs status {};
  if (statfs(path.c_str(), &status) != 0) return false;
  switch (static_cast<unsigned long>(status.f_type) & 0xffffffffUL) {
    case 0x6969:      // NFS
    case 0x517b:      // SMB
    case 0xff534d42:  // CIFS
    case 0xfe534d42:  // SMB 2
    case 0x65735546:  // FUSE, often a share
    case 0x01021997:  // 9P
    case 0x5346414f:  // AFS
    case 0x00c36400:  // Ceph
    case 0x73757245:  // Coda
      return true;
    default:
      return false;
  }
}

void setJournal(Database& database, JournalMode wanted) {
  const bool rollback = wanted == JournalMode::Rollback || (wanted == JournalMode::Automatic && isOnNetwork(database.path()));
  const std::string mode = rollback ? "delete" : "wal";
  if (database.text("PRAGMA journal_mode") == mode) return;
  try {
    database.text("PRAGMA journal_mode = " + mode);  // where it cannot, the old mode stays, which does as well
  } catch (const LibraryError& error) {
    if (error.trouble() != LibraryTrouble::Busy) throw;
  }
}

void setUp(Database& database, const LibraryOptions& options) {
  database.run("PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL; PRAGMA temp_store = MEMORY; PRAGMA cache_size = -16000");
  if (options.mostPages > 0) database.number("PRAGMA max_page_count = " + std::to_string(options.mostPages));
  if (!database.readOnly()) setJournal(database, options.journal);
}

/// Complete before it gets its name, so that no half-made library is ever found, and whoever is quicker wins.
void makeLibrary(const fs::path& path, const LibraryOptions& options) {
  makeFolder(path.parent_path());
  const TemporaryPath temporary(path);
  {
    Database database(temporary.path(), DatabaseAccess::Create, options.patience);
    database.run("PRAGMA journal_mode = memory; PRAGMA synchronous = off");  // nobody knows it yet; flushed once, below
    if (options.mostPages > 0) database.number("PRAGMA max_page_count = " + std::to_string(options.mostPages));
    database.run("PRAGMA application_id = " + std::to_string(libraryApplicationId));
    bringUpToDate(database);
  }
  syncFile(temporary.path());
  temporary.giveNameUnlessTaken(path);
}

/// A write-ahead log needs a folder that can be written, even for reading. Where it cannot, and nothing waits in the log, the file alone
/// is the library.
std::unique_ptr<Database> openProtected(const fs::path& path, const LibraryOptions& options) {
  std::error_code ignored;
  const auto waiting = fs::file_size(path.string() + "-wal", ignored);
  if (!ignored && waiting > 0) {
    refuse(LibraryTrouble::ReadOnly, path,
           "cannot be opened in a folder that may not be written, for its last changes still wait in the log "
           "beside it; open it once where it can be written, or copy both files there");
  }
  return std::make_unique<Database>(path, DatabaseAccess::Unchanging, options.patience);
}

std::int64_t schemaOf(Database& database) {
  demandOurs(database.path(), database.number("PRAGMA application_id"), database.number("PRAGMA user_version"));
  return database.number("PRAGMA user_version");
}

std::unique_ptr<Database> connect(const fs::path& path, const LibraryOptions& options) {
  try {
    auto database =
        std::make_unique<Database>(path, options.readOnly ? DatabaseAccess::ReadOnly : DatabaseAccess::ReadWrite, options.patience);
    database->leaveLogWhenClosed(true);  // until it is known to be ours
    schemaOf(*database);
    return database;
  } catch (const LibraryError& error) {
    if (error.trouble() != LibraryTrouble::Io && error.trouble() != LibraryTrouble::ReadOnly) throw;
    if (!options.readOnly && access(path.parent_path().c_str(), W_OK) == 0) throw;
  }
  return openProtected(path, options);
}

void migrate(Database& database, const LibraryOptions& options) {
  if (schemaOf(database) == latestSchema()) return;
  if (database.readOnly()) {
    refuse(LibraryTrouble::ReadOnly, database.path(),
           "is of an older version, which has to be written anew, and may only be read; a library "
           "that can be written is accepted, or a copy of it");
  }
  backUp(database.path(), options.now ? options.now() : std::chrono::system_clock::now());
  bringUpToDate(database);
}

}  // namespace

void demandLibraryFile(const fs::path& path) {
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (status.type() == fs::file_type::not_found) refuse(LibraryTrouble::Missing, path, "there is no library; the path of one is accepted");
  if (fs::is_directory(status)) refuse(LibraryTrouble::NotOurs, path, "is a folder; the path of a library is accepted");
  if (error) refuse(LibraryTrouble::Io, path, "cannot be read (" + error.message() + "); check the disk or the network and try again");
  if (!fs::is_regular_file(status)) refuse(LibraryTrouble::NotOurs, path, "is a device or pipe; the path of a library is accepted");

  const std::string header = Database(path, DatabaseAccess::ReadOnly, std::chrono::milliseconds(0)).firstBytes(headerSize);
  if (header.empty()) {
    refuse(LibraryTrouble::NotOurs, path, "is empty and is left as it is; restore a backup, or remove it to begin a new library");
  }
  if (header.size() < headerSize || !header.starts_with(std::string_view("SQLite format 3", 16)))
    refuse(LibraryTrouble::NotOurs, path, notOurs);
  demandOurs(path, wordAt(header, 68), wordAt(header, 60));
}

std::unique_ptr<Database> openLibrary(const fs::path& path, const LibraryOptions& options) {
  const bool missing = fs::symlink_status(path).type() == fs::file_type::not_found;
  if (missing && options.create && !options.readOnly) makeLibrary(path, options);
  demandLibraryFile(path);
  auto database = connect(path, options);
  migrate(*database, options);
  setUp(*database, options);
  database->leaveLogWhenClosed(false);
  return database;
}

std::unique_ptr<Database> openLibraryToRead(const fs::path& path, std::chrono::milliseconds patience) {
  demandLibraryFile(path);
  LibraryOptions options;
  options.readOnly = true;
  options.patience = patience;
  return connect(path, options);
}

}  // namespace bw

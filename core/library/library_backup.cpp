// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/library_backup.h"

#include "core/files/file_io.h"
#include "core/library/folders.h"
#include "core/library/iso_time.h"
#include "core/library/open_library.h"

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <cstdio>
#include <fcntl.h>
#include <sqlite3.h>
#include <unistd.h>

namespace fs = std::filesystem;

namespace bw {
namespace {

constexpr std::chrono::milliseconds patience{5000};
constexpr std::string_view ending = ".sqlite";
constexpr std::size_t dateLength = 10;

fs::path folderOf(const fs::path& library) { return library.string() + ".backups"; }

/// "library-000012-2026-11-26.sqlite".
fs::path nameOf(const fs::path& library, int sequence, const std::string& date) {
  char number[16];
  std::snprintf(number, sizeof number, "%06d", sequence);
  return folderOf(library) / (library.stem().string() + "-" + number + "-" + date + std::string(ending));
}

std::optional<LibraryBackup> parsed(const fs::path& library, const fs::path& file) {
  const std::string stem = library.stem().string() + "-";
  std::string name = file.filename().string();
  if (!name.starts_with(stem) || !name.ends_with(ending)) return {};
  name = name.substr(stem.size(), name.size() - stem.size() - ending.size());
  LibraryBackup backup;
  const auto [end, error] = std::from_chars(name.data(), name.data() + name.size(), backup.sequence);
  if (error != std::errc() || backup.sequence <= 0 || end == name.data() + name.size() || *end != '-') return {};
  backup.date = name.substr(static_cast<std::size_t>(end - name.data()) + 1);
  if (backup.date.size() != dateLength) return {};
  std::error_code ignored;
  backup.size_bytes = fs::file_size(file, ignored);
  backup.path = file;
  return backup;
}

/// Page by page while others write; where they write too often, the rest in one piece.
void copyPages(Database& from, Database& to) {
  constexpr int pagesAtOnce = 4000;
  constexpr int mostPieces = 2000;
  sqlite3_backup* copy = sqlite3_backup_init(to.handle(), "main", from.handle(), "main");
  if (!copy) to.fail(sqlite3_errcode(to.handle()));
  int code = SQLITE_OK;
  for (int piece = 0; code == SQLITE_OK || code == SQLITE_BUSY || code == SQLITE_LOCKED; ++piece) {
    code = sqlite3_backup_step(copy, piece < mostPieces ? pagesAtOnce : -1);
    if (code == SQLITE_BUSY || code == SQLITE_LOCKED) sqlite3_sleep(20);
    if (piece > 2 * mostPieces) break;
  }
  sqlite3_backup_finish(copy);
  if (code != SQLITE_DONE) (code == SQLITE_BUSY || code == SQLITE_LOCKED ? from : to).fail(code);
}

void demandSound(Database& copy, const fs::path& original) {
  const std::string verdict = copy.text("PRAGMA integrity_check(1)");
  if (verdict == "ok") return;
  throw LibraryError(LibraryTrouble::Corrupt, shownPath(original) + ": is damaged (" + verdict.substr(0, 200) +
                                                  ") and was not copied; earlier backups are kept: restore one of them");
}

void dropOldest(const fs::path& library, std::size_t keep) {
  const std::vector<LibraryBackup> backups = backupsOf(library);
  std::error_code ignored;
  for (std::size_t i = std::max<std::size_t>(keep, 1); i < backups.size(); ++i) fs::remove(backups[i].path, ignored);
}

/// Keeps every other program from a library while its file is changed, by the locks SQLite itself uses (SQLite, os_unix.c: the pending,
/// reserved and shared bytes from 0x40000000 on). Works on a file that is too damaged to be opened.
class WholeFileLock {
 public:
  explicit WholeFileLock(const fs::path& path) : m_descriptor(open(path.c_str(), O_RDWR | O_CLOEXEC)) {
    if (m_descriptor < 0) failBySystem(path, errno);
    struct flock range {};
    range.l_type = F_WRLCK;
    range.l_whence = SEEK_SET;
    range.l_start = 0x40000000;
    range.l_len = 512;
    if (fcntl(m_descriptor, F_SETLK, &range) == 0) return;
    const int code = errno;
    close(m_descriptor);
    if (code != EACCES && code != EAGAIN) failBySystem(path, code);
    throw LibraryError(LibraryTrouble::Busy, shownPath(path) + ": is open in another program; close it there and restore again");
  }
  WholeFileLock(const WholeFileLock&) = delete;
  WholeFileLock& operator=(const WholeFileLock&) = delete;
  ~WholeFileLock() { close(m_descriptor); }

 private:
  int m_descriptor;
};

fs::path asideOf(const fs::path& library, const std::string& date) {
  for (int n = 1;; ++n) {
    fs::path aside = library.string() + ".aside-" + date + "-" + std::to_string(n);
    if (!fs::exists(fs::symlink_status(aside))) return aside;
  }
}

void moveIfThere(const std::string& from, const std::string& to) {
  if (rename(from.c_str(), to.c_str()) != 0 && errno != ENOENT) failBySystem(from, errno);
}

/// The file under a second name; its logs, which must not meet another file, go there too.
void putAside(const fs::path& library, const fs::path& aside) {
  std::error_code error;
  fs::create_hard_link(library, aside, error);
  if (error) fs::copy_file(library, aside, error);  // a file system without links
  if (error) failBySystem(aside, error.value());
  for (const char* log : {"-wal", "-journal"}) moveIfThere(library.string() + log, aside.string() + log);
  fs::remove(library.string() + "-shm", error);
  syncFolder(library.parent_path());
}

}  // namespace

std::vector<LibraryBackup> backupsOf(const fs::path& library) {
  std::vector<LibraryBackup> backups;
  std::error_code none;
  for (const fs::directory_entry& entry : fs::directory_iterator(folderOf(library), none)) {
    if (auto backup = parsed(library, entry.path())) backups.push_back(std::move(*backup));
  }
  std::ranges::sort(backups, std::ranges::greater{}, &LibraryBackup::sequence);
  return backups;
}

LibraryBackup backUp(const fs::path& library, std::chrono::system_clock::time_point now, std::size_t keep) {
  const auto source = openLibraryToRead(library, patience);
  const std::vector<LibraryBackup> before = backupsOf(library);
  const fs::path name = nameOf(library, before.empty() ? 1 : before.front().sequence + 1, isoDate(now));
  makeFolder(name.parent_path());
  const TemporaryPath temporary(name);
  {
    Database copy(temporary.path(), DatabaseAccess::Create, patience);
    copyPages(*source, copy);
    copy.text("PRAGMA journal_mode = delete");  // one file, no log beside it
    demandSound(copy, library);
  }
  syncFile(temporary.path());
  temporary.giveNameUnlessTaken(name);
  dropOldest(library, keep);
  return parsed(library, name).value_or(LibraryBackup{name, 0, isoDate(now), 0});
}

std::optional<LibraryBackup> backUpDaily(const fs::path& library, std::chrono::system_clock::time_point now, std::size_t keep) {
  const std::vector<LibraryBackup> backups = backupsOf(library);
  if (std::ranges::find(backups, isoDate(now), &LibraryBackup::date) != backups.end()) return {};
  if (!fs::exists(fs::symlink_status(library))) return {};
  return backUp(library, now, keep);
}

std::optional<fs::path> restoreBackup(const fs::path& library, const fs::path& backup, std::chrono::system_clock::time_point now) {
  demandSound(*openLibraryToRead(backup, patience), backup);
  const bool replaces = fs::exists(fs::symlink_status(library));
  if (fs::is_directory(library))
    throw LibraryError(LibraryTrouble::NotOurs, shownPath(library) + ": is a folder; the path of a library is accepted");
  if (Database::isOpenHere(library)) {
    throw LibraryError(LibraryTrouble::Busy, shownPath(library) + ": is still open in this program; close it and restore again");
  }
  std::optional<WholeFileLock> lock;
  if (replaces)
    lock.emplace(library);
  else
    makeFolder(library.parent_path());

  const TemporaryPath temporary(library);
  std::error_code error;
  fs::copy_file(backup, temporary.path(), error);
  if (error) failBySystem(temporary.path(), error.value());
  syncFile(temporary.path());
  std::optional<fs::path> aside;
  if (replaces) putAside(library, aside.emplace(asideOf(library, isoDate(now))));
  temporary.giveName(library);
  return aside;
}

}  // namespace bw

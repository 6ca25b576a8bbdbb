// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/folders.h"

#include "core/files/file_io.h"

#include <atomic>
#include <cerrno>
#include <fcntl.h>
#include <string>
#include <system_error>
#include <unistd.h>

namespace fs = std::filesystem;

namespace bw {
namespace {

void sync(const fs::path& path, int flags) {
  const int descriptor = open(path.c_str(), O_RDONLY | O_CLOEXEC | flags);
  if (descriptor < 0) return;
  const int code = fsync(descriptor) == 0 ? 0 : errno;
  close(descriptor);
  if (code == EIO || code == ENOSPC || code == EDQUOT) failBySystem(path, code);  // others: not every file system can
}

}  // namespace

void failBySystem(const fs::path& path, int code) {
  const std::string at = shownPath(path) + ": ";
  const std::string reason = " (" + std::generic_category().message(code) + ")";
  if (code == ENOSPC || code == EDQUOT || code == EFBIG) {
    throw LibraryError(LibraryTrouble::Full, at + "no room is left for it" + reason + "; make room on the disk and try again");
  }
  if (code == EACCES || code == EPERM || code == EROFS) {
    throw LibraryError(LibraryTrouble::ReadOnly, at + "cannot be written" + reason + "; a folder that can be written is accepted");
  }
  throw LibraryError(LibraryTrouble::Io, at + "cannot be read or written" + reason + "; check the disk or the network and try again");
}

void makeFolder(const fs::path& folder) {
  std::error_code error;
  fs::create_directories(folder.empty() ? fs::path(".") : folder, error);
  if (error) failBySystem(folder, error.value());
}

void syncFolder(const fs::path& folder) { sync(folder.empty() ? fs::path(".") : folder, O_DIRECTORY); }
void syncFile(const fs::path& file) { sync(file, 0); }

TemporaryPath::TemporaryPath(const fs::path& target) {
  static std::atomic<unsigned> count = 0;
  const std::string stem = ".barewright-" + std::to_string(getpid()) + "-";
  do m_path = target.parent_path() / (stem + std::to_string(count++) + ".tmp");
  while (fs::exists(fs::symlink_status(m_path)));
}

TemporaryPath::~TemporaryPath() {
  for (const char* beside : {"", "-journal", "-wal", "-shm"}) unlink((m_path.string() + beside).c_str());
}

void TemporaryPath::giveName(const fs::path& name) const {
  if (rename(m_path.c_str(), name.c_str()) != 0) failBySystem(name, errno);
  syncFolder(name.parent_path());
}

void TemporaryPath::giveNameUnlessTaken(const fs::path& name) const {
  if (link(m_path.c_str(), name.c_str()) != 0) {
    if (errno == EEXIST) return;
    if (fs::exists(fs::symlink_status(name))) return;
    if (rename(m_path.c_str(), name.c_str()) != 0) failBySystem(name, errno);  // a file system without links
  }
  syncFolder(name.parent_path());
}

}  // namespace bw

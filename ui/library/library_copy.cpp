// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/library/library_copy.h"

#include "core/library/attachments.h"
#include "core/library/folders.h"
#include "core/library/library_backup.h"

namespace fs = std::filesystem;

namespace bw {
namespace {

void copyAttachments(const fs::path& from, const fs::path& to) {
  const fs::path folder = attachmentFolder(from);
  std::error_code none;
  if (!fs::exists(folder, none)) return;
  std::error_code error;
  fs::copy(folder, attachmentFolder(to), fs::copy_options::recursive | fs::copy_options::skip_existing, error);
  if (error) failBySystem(attachmentFolder(to), error.value());
}

}  // namespace

void copyLibrary(const fs::path& from, const fs::path& to, std::chrono::system_clock::time_point now) {
  if (fs::exists(to)) {
    throw LibraryError(
        LibraryTrouble::Refused,
        to.string() + ": a file lies there already and is left as it is; the name of a file that is not there yet is accepted");
  }
  makeFolder(to.parent_path());
  copyAttachments(from, to);  // before the library that names them
  const LibraryBackup whole = backUp(from, now);
  const TemporaryPath temporary(to);
  std::error_code error;
  fs::copy_file(whole.path, temporary.path(), error);
  if (error) failBySystem(to, error.value());
  syncFile(temporary.path());
  temporary.giveNameUnlessTaken(to);
  syncFolder(to.parent_path());
}

}  // namespace bw

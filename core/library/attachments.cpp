// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/attachments.h"

#include "core/files/file_io.h"
#include "core/library/folders.h"
#include "core/library/sha256.h"
#include "core/library/stored_json.h"

#include <cerrno>
#include <fstream>

namespace fs = std::filesystem;

namespace bw {
namespace {

void writeNew(const fs::path& path, const std::string& content) {
  std::ofstream stream(path, std::ios::binary);
  errno = 0;
  stream.write(content.data(), static_cast<std::streamsize>(content.size()));
  stream.close();
  if (!stream) failBySystem(path, errno);
  syncFile(path);
}

/// Whether the file is there and whole. One that is damaged is replaced by the content that is at hand.
bool isWhole(const fs::path& path, const std::string& hash) {
  std::error_code ignored;
  return fs::is_regular_file(path, ignored) && sha256OfFile(path) == hash;
}

}  // namespace

fs::path attachmentFolder(const fs::path& library) { return library.string() + ".files"; }

fs::path attachmentFile(const fs::path& library, const std::string& hash) { return attachmentFolder(library) / hash.substr(0, 2) / hash; }

Attachment keepAttachment(Database& database, const std::string& content, const std::string& name, const std::string& time) {
  demandText(Json(name), shownPath(database.path()) + ": name of an attachment");
  const std::string hash = sha256(content);
  const fs::path file = attachmentFile(database.path(), hash);
  if (!isWhole(file, hash)) {
    makeFolder(file.parent_path());
    const TemporaryPath temporary(file);
    writeNew(temporary.path(), content);
    temporary.giveName(file);
  }
  Statement insert = database.prepare("INSERT OR IGNORE INTO attachment VALUES (?, ?, ?, ?)");
  insert.with(hash).with(static_cast<std::int64_t>(content.size())).with(name).with(time).run();
  Attachment attachment;
  attachment.sha256 = hash;
  attachment.name = name;
  return attachment;
}

std::string readAttachment(const fs::path& file) {
  std::error_code error;
  if (!fs::is_regular_file(file, error)) {
    throw LibraryError(LibraryTrouble::Refused,
                       shownPath(file) + ": is no file that can be attached; the path of a photo or document is accepted");
  }
  const std::uintmax_t size = fs::file_size(file, error);
  if (error) failBySystem(file, error.value());
  if (size > largestAttachment_bytes) {
    throw LibraryError(LibraryTrouble::Refused, shownPath(file) + ": is too large to be attached; up to " +
                                                    std::to_string(largestAttachment_bytes >> 20) + " MB is accepted");
  }
  std::string content(static_cast<std::size_t>(size), '\0');
  std::ifstream stream(file, std::ios::binary);
  stream.read(content.data(), static_cast<std::streamsize>(content.size()));
  if (!stream) failBySystem(file, errno);
  return content;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/file_io.h"

#include "core/files/project_file.h"

#include <cerrno>
#include <fcntl.h>
#include <fstream>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace fs = std::filesystem;

namespace bw {
namespace {

[[noreturn]] void fail(const fs::path& path, const std::string& why) { throw FileError(shownPath(path) + ": " + why); }

std::string systemReason() { return std::generic_category().message(errno); }

/// A file being written beside the one it shall replace; gone again unless it was kept.
class TemporaryFile {
 public:
  explicit TemporaryFile(const fs::path& target) : m_target(target) {
    for (int attempt = 0; m_descriptor < 0 && attempt < 1000; ++attempt) {
      m_path = target.parent_path() / (".barewright-" + std::to_string(getpid()) + "-" + std::to_string(attempt) + ".tmp");
      m_descriptor = open(m_path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
      if (m_descriptor < 0 && errno != EEXIST) break;
    }
    if (m_descriptor < 0) fail(target, "cannot write into its folder (" + systemReason() + "); a folder that can be written is accepted");
  }
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  ~TemporaryFile() {
    if (m_descriptor >= 0) close(m_descriptor);
    if (!m_kept) unlink(m_path.c_str());
  }

  void keepPermissionsOf(const fs::path& old) const {
    struct stat status {};
    if (stat(old.c_str(), &status) == 0 && fchmod(m_descriptor, status.st_mode & 07777) != 0) cannotWrite();
  }
  void write(std::string_view text) const {
    while (!text.empty()) {
      const ssize_t written = ::write(m_descriptor, text.data(), text.size());
      if (written < 0 && errno == EINTR) continue;
      if (written <= 0) cannotWrite();
      text.remove_prefix(static_cast<std::size_t>(written));
    }
    if (fsync(m_descriptor) != 0) cannotWrite();
  }
  void replaceTarget() {
    const int descriptor = std::exchange(m_descriptor, -1);
    if (close(descriptor) != 0 || rename(m_path.c_str(), m_target.c_str()) != 0) cannotWrite();
    m_kept = true;
  }

 private:
  [[noreturn]] void cannotWrite() const { fail(m_target, "cannot be written (" + systemReason() + "); what it held before is untouched"); }

  fs::path m_target;
  fs::path m_path;
  int m_descriptor = -1;
  bool m_kept = false;
};

/// Makes the new name last through a power cut. Not every file system can; the file itself is already safe.
void syncFolder(const fs::path& folder) {
  const int descriptor = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return;
  fsync(descriptor);
  close(descriptor);
}

/// Pipes and devices cannot be replaced, only written to.
void writeThrough(std::string_view text, const fs::path& path) {
  std::ofstream stream(path, std::ios::binary);
  stream.write(text.data(), static_cast<std::streamsize>(text.size()));
  stream.flush();
  if (!stream) fail(path, "cannot be written (" + systemReason() + ")");
}

}  // namespace

std::string shownPath(const fs::path& path) {
  std::string text = path.string();
  for (char& c : text) {
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) c = '?';
  }
  return text.empty() ? "(no name)" : text;
}

std::string readWholeFile(const fs::path& path, std::uintmax_t largest_bytes, const std::string& kind) {
  const std::string wanted = "the path of " + kind + " is accepted";
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (status.type() == fs::file_type::not_found) fail(path, "there is no such file; " + wanted);
  if (status.type() == fs::file_type::directory) fail(path, "is a folder; " + wanted);
  if (error) fail(path, "cannot be read (" + error.message() + "); a file that can be read is accepted");
  if (status.type() != fs::file_type::regular) fail(path, "is a device or pipe; " + wanted);
  const auto size = fs::file_size(path, error);
  if (error) fail(path, "cannot be read (" + error.message() + "); a file that can be read is accepted");
  if (size > largest_bytes) {
    const std::string most = std::to_string(largest_bytes / 1000000);
    fail(path, "holds " + std::to_string(size / 1000000) + " MB; up to " + most + " MB is accepted");
  }
  std::string text(static_cast<std::size_t>(size), '\0');
  std::ifstream stream(path, std::ios::binary);
  stream.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (!stream) fail(path, "cannot be read (" + systemReason() + "); a file that can be read is accepted");
  return text;
}

void writeFileAtomically(std::string_view text, const fs::path& path) {
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (status.type() == fs::file_type::directory) fail(path, "is a folder; the path of a file is accepted");
  if (fs::exists(status) && !fs::is_regular_file(status)) return writeThrough(text, path);
  if (fs::exists(status) && access(path.c_str(), W_OK) != 0) fail(path, "is write-protected; a file that can be written is accepted");
  const fs::path target = fs::exists(status) ? fs::canonical(path) : fs::absolute(path);  // a link stays a link
  TemporaryFile file(target);
  if (fs::exists(status)) file.keepPermissionsOf(target);
  file.write(text);
  file.replaceTarget();
  syncFolder(target.parent_path());
}

}  // namespace bw

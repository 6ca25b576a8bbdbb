// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/project.h"

#include <cstdint>
#include <filesystem>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace bw {

/// One thing wrong in a file: where (JSON path such as "$.coat[1].thickness_um"), what, and what is accepted.
struct Problem {
  std::string path;
  std::string message;
  bool operator==(const Problem&) const = default;
};

/// Thrown when a file cannot be read or written; what() is one clear line: what, where, what is accepted.
class FileError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// A project as read, and everything that is wrong with it. Where problems is not empty the project is not to be assessed.
struct ReadResult {
  Project project;
  std::vector<Problem> problems;
};

/// The first problem and how many more there are, on one line. `problems` must hold one.
std::string summary(const std::vector<Problem>& problems);

inline constexpr std::size_t largestProjectFile_bytes = 32u * 1024 * 1024;
inline constexpr int deepestNesting = 64;

/// Reads a project from JSON text. Never throws for bad content: says it in `problems` (at most 100).
/// `shipped` tells which coatings and substrates exist.
ReadResult readProject(std::string_view text, const Library& shipped);

/// The file at `path`, read whole. Throws FileError: missing, unreadable, too large, a folder. `kind` names what is accepted.
std::string readWholeFile(const std::filesystem::path& path, std::uintmax_t largest_bytes = largestProjectFile_bytes,
                          const std::string& kind = "a project file");

/// Reads and validates; throws FileError with the first problem and how many more there are.
Project openProject(const std::filesystem::path& path, const Library& shipped);

/// The file text of a project: UTF-8 JSON, with the library entries it names copied in. Reading it back gives an equal project.
std::string writeProject(const Project& project, const Library& shipped);

/// Writes through a temporary file beside `path`, so that a crash or full disk leaves the old file whole. Throws FileError.
void saveProject(const Project& project, const std::filesystem::path& path, const Library& shipped);

/// The same for any text.
void writeFileAtomically(std::string_view text, const std::filesystem::path& path);

/// Everything wrong with a project that was made in memory: the same rules as for a file.
std::vector<Problem> validate(const Project& project, const Library& shipped);

}  // namespace bw

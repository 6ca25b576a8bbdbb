// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace bw::test {

/// What a run of the program left behind.
struct Run {
  int status = -1;
  std::string output;
  std::string errors;
};

/// Runs the real program without a display. `redirection` goes to the shell as it stands.
Run run(const std::vector<std::string>& arguments, const std::string& redirection = "");

/// A folder of its own for a test's files, gone afterwards.
class Folder {
 public:
  Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder();

  std::string path(const std::string& name) const { return (m_path / name).string(); }
  std::string write(const std::string& name, const std::string& text) const;
  std::size_t entries() const;

 private:
  std::filesystem::path m_path;
};

std::string textOf(const std::string& path);

/// The text with its one occurrence of `old` replaced; throws where there is none, so that a test cannot pass by doing nothing.
std::string replaced(std::string text, const std::string& old, const std::string& replacement);

/// A project that is as it should be.
std::string goodProject();

}  // namespace bw::test

// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/run.h"

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <stdlib.h>
#include <sys/wait.h>

namespace fs = std::filesystem;

namespace bw::test {
namespace {

std::string quoted(const std::string& argument) {
  std::string text = "'";
  for (const char c : argument) text += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return text + "'";
}

}  // namespace

Run run(const std::vector<std::string>& arguments, const std::string& redirection) {
  const Folder folder;
  std::string command = "env -u DISPLAY -u WAYLAND_DISPLAY -u QT_QPA_PLATFORM " + quoted(BAREWRIGHT_PROGRAM);
  for (const std::string& argument : arguments) command += ' ' + quoted(argument);
  command += " </dev/null >" + quoted(folder.path("out")) + " 2>" + quoted(folder.path("err")) + ' ' + redirection;
  const int status = std::system(command.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, textOf(folder.path("out")), textOf(folder.path("err"))};
}

Folder::Folder() {
  std::string name = (fs::temp_directory_path() / "barewright-cli-XXXXXX").string();
  m_path = mkdtemp(name.data());
}

Folder::~Folder() { fs::remove_all(m_path); }

std::string Folder::write(const std::string& name, const std::string& text) const {
  std::ofstream(m_path / name, std::ios::binary) << text;
  return path(name);
}

std::size_t Folder::entries() const {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(m_path), fs::directory_iterator()));
}

std::string textOf(const std::string& path) {
  std::ifstream stream(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

std::string replaced(std::string text, const std::string& old, const std::string& replacement) {
  const std::size_t at = text.find(old);
  if (at == std::string::npos) throw std::logic_error("not in the text: " + old);
  return text.replace(at, old.size(), replacement);
}

std::string goodProject() { return textOf(std::string(BAREWRIGHT_SOURCE_DIR) + "/tests/data/project_v1.bwright"); }

}  // namespace bw::test

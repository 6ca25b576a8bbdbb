// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/project_file.h"
#include "tests/core/files/small_library.h"
#include "tests/support/catch.h"

#include <csignal>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

namespace fs = std::filesystem;
using namespace bw;
using namespace bw::test;

namespace {

/// An empty folder of its own, gone afterwards.
class Folder {
 public:
  Folder() {
    std::string name = (fs::temp_directory_path() / "barewright-test-XXXXXX").string();
    m_path = mkdtemp(name.data());
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() { fs::remove_all(m_path); }
  fs::path operator/(const char* name) const { return m_path / name; }
  std::size_t entries() const { return static_cast<std::size_t>(std::distance(fs::directory_iterator(m_path), fs::directory_iterator())); }

 private:
  fs::path m_path;
};

/// A disc that is full after some bytes: the system refuses to let a file grow past the limit.
class FullDisc {
 public:
  explicit FullDisc(rlim_t bytes) {
    getrlimit(RLIMIT_FSIZE, &m_old);
    m_oldHandler = std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{bytes, m_old.rlim_max};
    setrlimit(RLIMIT_FSIZE, &limit);
  }
  FullDisc(const FullDisc&) = delete;
  FullDisc& operator=(const FullDisc&) = delete;
  ~FullDisc() {
    setrlimit(RLIMIT_FSIZE, &m_old);
    std::signal(SIGXFSZ, m_oldHandler);
  }

 private:
  rlimit m_old{};
  void (*m_oldHandler)(int) = nullptr;
};

std::string whyUnreadable(const fs::path& path) {
  try {
    readWholeFile(path);
  } catch (const FileError& error) {
    return error.what();
  }
  return "read";
}

}  // namespace

TEST_CASE("A file that cannot be read says why in one line", "[files]") {
  const Folder folder;
  const fs::path pipe = folder / "pipe";
  REQUIRE(mkfifo(pipe.c_str(), 0600) == 0);
  const fs::path huge = folder / "huge.bwright";
  writeFileAtomically("{", huge);
  fs::resize_file(huge, 100'000'000);
  CHECK_THAT(whyUnreadable(folder / "none.bwright"), Catch::Matchers::Contains("none.bwright: there is no such file"));
  CHECK_THAT(whyUnreadable(folder / "."), Catch::Matchers::Contains("is a folder"));
  CHECK_THAT(whyUnreadable(pipe), Catch::Matchers::Contains("is a device or pipe"));
  CHECK_THAT(whyUnreadable(huge), Catch::Matchers::Contains("holds 100 MB; up to 33 MB is accepted"));
  CHECK_THAT(whyUnreadable(""), Catch::Matchers::Contains("(no name)"));
  CHECK_THAT(whyUnreadable(folder / "two\nlines"), Catch::Matchers::Contains("two?lines"));
}

TEST_CASE("A file without permission is refused", "[files]") {
  const Folder folder;
  writeFileAtomically("{}", folder / "secret");
  fs::permissions(folder / "secret", fs::perms::none);
  if (geteuid() == 0) WARN("run as root, who may read and write everything: not tested");
  else {
    CHECK_THAT(whyUnreadable(folder / "secret"), Catch::Matchers::Contains("cannot be read"));
    CHECK_THROWS_AS(writeFileAtomically("new", folder / "secret"), FileError);
  }
}

TEST_CASE("Saving replaces the file whole and leaves nothing beside it", "[files]") {
  const Folder folder;
  const fs::path file = folder / "a.bwright";
  writeFileAtomically("first", file);
  writeFileAtomically("second, longer", file);
  CHECK(textOf(file) == "second, longer");
  CHECK(folder.entries() == 1);
}

TEST_CASE("Saving keeps permissions and links", "[files]") {
  const Folder folder;
  const fs::path file = folder / "a.bwright";
  const fs::path link = folder / "link.bwright";
  writeFileAtomically("old", file);
  fs::permissions(file, fs::perms::owner_read | fs::perms::owner_write | fs::perms::group_read);
  fs::create_symlink("a.bwright", link);
  writeFileAtomically("new", link);
  CHECK(fs::is_symlink(link));
  CHECK(textOf(file) == "new");
  CHECK(fs::status(file).permissions() == (fs::perms::owner_read | fs::perms::owner_write | fs::perms::group_read));
}

TEST_CASE("A full disc leaves the old file whole", "[files]") {
  const Folder folder;
  const fs::path file = folder / "a.bwright";
  writeFileAtomically("the old text", file);
  {
    const FullDisc disc(1000);
    CHECK_THROWS_WITH(writeFileAtomically(std::string(5000, 'x'), file), Catch::Matchers::Contains("cannot be written"));
  }
  CHECK(textOf(file) == "the old text");
  CHECK(folder.entries() == 1);
}

TEST_CASE("Devices are written to, not replaced", "[files]") {
  writeFileAtomically("gone", "/dev/null");
  CHECK(fs::is_character_file("/dev/null"));
  CHECK_THROWS_AS(writeFileAtomically("gone", "/dev/full"), FileError);
}

TEST_CASE("A folder that cannot hold the file is named", "[files]") {
  const Folder folder;
  CHECK_THROWS_WITH(writeFileAtomically("x", folder / "."), Catch::Matchers::Contains("is a folder"));
  CHECK_THROWS_WITH(writeFileAtomically("x", folder / "no/such/file"), Catch::Matchers::Contains("cannot write into its folder"));
}

TEST_CASE("Opening a bad project names file, path and how much more is wrong", "[files]") {
  const Folder folder;
  const fs::path file = folder / "bad.bwright";
  std::string text = sampleText();
  text.replace(text.find("\"thickness_mm\": 1.2"), 19, "\"thickness_mm\": -1");
  text.replace(text.find("\"M2\": 1.8"), 9, "\"M2\": 0");
  writeFileAtomically(text, file);
  CHECK_THROWS_WITH(openProject(file, smallLibrary()),
                    Catch::Matchers::Contains("bad.bwright: $.part.thickness_mm: -1 is not a thickness") && Catch::Matchers::EndsWith("(and 1 more)"));
}

TEST_CASE("A saved project opens as it was", "[files]") {
  const Folder folder;
  const Project project = readProject(sampleText(), smallLibrary()).project;
  saveProject(project, folder / "a.bwright", smallLibrary());
  Project again = openProject(folder / "a.bwright", smallLibrary());
  CHECK(again.library.coatings.size() == 3);
  again.library = project.library;
  CHECK(again == project);
}

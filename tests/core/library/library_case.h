// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/library_store.h"
#include "tests/core/files/small_library.h"
#include "tests/support/catch.h"
#include "tests/support/scratch_folder.h"
#include "tests/support/some_recipes.h"

namespace bw::test {

inline std::chrono::system_clock::time_point day(int n) {
  return std::chrono::sys_days(std::chrono::year(2026) / 3 / 1) + std::chrono::days(n) + std::chrono::hours(9);
}

/// A library in a folder of its own, with a clock that the test sets.
struct LibraryCase {
  ScratchFolder folder;
  std::filesystem::path path = folder / "library.sqlite";
  std::chrono::system_clock::time_point clock = day(0);

  LibraryOptions options() {
    LibraryOptions options;
    options.now = [this] { return clock; };
    return options;
  }
  LibraryStore open() { return LibraryStore(path, options()); }
};

/// The kind of trouble that `work` ends in; fails the test where it ends in none.
template <class Work>
LibraryTrouble troubleOf(Work work, std::string* message = nullptr) {
  try {
    work();
  } catch (const LibraryError& error) {
    if (message) *message = error.what();
    CAPTURE(error.what());
    CHECK(std::string(error.what()).find('\n') == std::string::npos);
    return error.trouble();
  }
  FAIL("nothing was refused");
  throw std::logic_error("unreachable");
}

}  // namespace bw::test

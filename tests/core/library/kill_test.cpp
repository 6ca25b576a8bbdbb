// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/library_check.h"
#include "tests/core/library/library_case.h"

#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <random>

using namespace bw;
using namespace bw::test;

namespace {

/// What a writer says after each save: that this version is kept.
struct Acknowledged {
  char id[37] = {};
  int version = 0;
};

/// Saves new recipes and new versions of its first one until it is killed.
[[noreturn]] void writeUntilKilled(const std::filesystem::path& path, int pipe, unsigned seed) {
  try {
    LibraryStore store(path);
    Recipe mine = SomeRecipes::number(seed);
    for (unsigned n = 0;; ++n) {
      const SavedRecipe saved = store.saveRecipe(n % 2 == 0 ? mine : SomeRecipes::number(seed + n));
      if (n == 0) mine.id = saved.id;
      if (n % 2 == 0) mine.version.number = saved.version;
      Acknowledged said;
      saved.id.copy(said.id, 36);
      said.version = saved.version;
      if (write(pipe, &said, sizeof said) != sizeof said) _exit(2);
    }
  } catch (...) {
  }
  _exit(1);
}

}  // namespace

TEST_CASE("A writer killed at any of 300 moments loses nothing that was acknowledged", "[library]") {
  LibraryCase test;
  std::mt19937 random(20260314);
  std::size_t acknowledged = 0, killedEarly = 0;
  for (unsigned round = 0; round < 300; ++round) {
    CAPTURE(round);
    if (round % 60 == 0) test.path = test.folder / ("library-" + std::to_string(round) + ".sqlite");  // being made is among the moments
    int pipes[2];
    REQUIRE(pipe(pipes) == 0);
    const pid_t writer = fork();
    if (writer == 0) {
      close(pipes[0]);
      writeUntilKilled(test.path, pipes[1], round * 1000);
    }
    close(pipes[1]);
    usleep(std::uniform_int_distribution<useconds_t>(0, 40000)(random));
    kill(writer, SIGKILL);
    int status = 0;
    waitpid(writer, &status, 0);
    CHECK(WIFSIGNALED(status));  // it never ended by itself

    std::vector<Acknowledged> said;
    for (Acknowledged one; read(pipes[0], &one, sizeof one) == sizeof one;) said.push_back(one);
    close(pipes[0]);
    LibraryStore store = test.open();
    for (const Acknowledged& one : said) {
      CAPTURE(one.id, one.version);
      CHECK_NOTHROW(store.version(one.id, one.version));
    }
    acknowledged += said.size();
    if (said.empty()) ++killedEarly;
    if (round % 30 == 29) CHECK(checkLibrary(test.path).sound());
  }
  // The moments were spread over opening and writing, or the test would prove little.
  CHECK(acknowledged > 100);
  CHECK(killedEarly < 250);
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/library_backup.h"
#include "core/library/library_check.h"
#include "core/library/schema.h"
#include "tests/core/library/library_case.h"

#include <sqlite3.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>

using namespace bw;
using namespace bw::test;

namespace {

/// Everything in the folder, by name: to tell that nothing was touched.
std::map<std::string, std::string> everythingIn(const std::filesystem::path& folder) {
  std::map<std::string, std::string> files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
    if (entry.is_regular_file()) files[entry.path().string()] = bytesOf(entry.path());
  }
  return files;
}

/// Runs plain SQL on the file, as another program would.
void sql(const std::filesystem::path& path, const std::string& statements) {
  Database(path, DatabaseAccess::Create, std::chrono::seconds(1)).run(statements);
}

/// Runs `work` in a process of its own and returns what it ended with: 0 where it returned, 9 where it threw.
template <class Work>
int inOwnProcess(Work work) {
  const pid_t child = fork();
  if (child == 0) {
    int code = 9;
    try {
      code = work();
    } catch (...) {
    }
    _exit(code);
  }
  int status = 0;
  waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : 128;
}

}  // namespace

TEST_CASE("What is no library is refused in a sentence and left as it is", "[library]") {
  LibraryCase test;
  const auto refused = [&](LibraryTrouble trouble, const std::string& words) {
    const auto before = everythingIn(test.folder.path());
    for (const bool readOnly : {false, true}) {
      LibraryOptions options = test.options();
      options.readOnly = readOnly;
      std::string message;
      CHECK(troubleOf([&] { LibraryStore(test.path, options); }, &message) == trouble);
      CHECK_THAT(message, Catch::Matchers::StartsWith(test.path.string()) && Catch::Matchers::Contains(words));
    }
    CHECK(troubleOf([&] { checkLibrary(test.path); }) == trouble);
    CHECK(troubleOf([&] { backUp(test.path, day(0)); }) == trouble);
    CHECK(everythingIn(test.folder.path()) == before);
  };
  SECTION("an empty file") {
    writeBytes(test.path, "");
    refused(LibraryTrouble::NotOurs, "is empty");
  }
  SECTION("a text") {
    writeBytes(test.path, "dear diary");
    refused(LibraryTrouble::NotOurs, "is no library");
  }
  SECTION("a long file of anything") {
    writeBytes(test.path, std::string(100000, 'x'));
    refused(LibraryTrouble::NotOurs, "is no library");
  }
  SECTION("a database of another program") {
    sql(test.path, "CREATE TABLE recipe (cake TEXT); INSERT INTO recipe VALUES ('sponge')");
    refused(LibraryTrouble::NotOurs, "is no library");
  }
  SECTION("a database of another program with its write-ahead log waiting") {
    const std::filesystem::path other = test.folder / "other.sqlite";
    {
      Database database(other, DatabaseAccess::Create, std::chrono::seconds(1));
      database.run("PRAGMA journal_mode = wal; CREATE TABLE recipe (cake TEXT)");
      std::filesystem::copy(other, test.path);
      std::filesystem::copy(other.string() + "-wal", test.path.string() + "-wal");
    }
    refused(LibraryTrouble::NotOurs, "is no library");
  }
  SECTION("a library of a newer version") {
    test.open().saveRecipe(SomeRecipes::number(1));
    sql(test.path, "PRAGMA journal_mode = delete; PRAGMA user_version = 99");
    refused(LibraryTrouble::Newer, "newer version");
  }
  SECTION("a folder") {
    std::filesystem::create_directory(test.path);
    refused(LibraryTrouble::NotOurs, "is a folder");
  }
}

TEST_CASE("A newer library whose number waits in the log is left as it is", "[library]") {
  LibraryCase test;
  test.open().saveRecipe(SomeRecipes::number(1));
  const std::filesystem::path other = test.folder / "other.sqlite";
  std::filesystem::copy(test.path, other);
  {
    Database database(other, DatabaseAccess::ReadWrite, std::chrono::seconds(1));
    database.run("PRAGMA user_version = 99");
    std::filesystem::copy(other, test.path, std::filesystem::copy_options::overwrite_existing);
    std::filesystem::copy(other.string() + "-wal", test.path.string() + "-wal");
  }
  const std::string file = bytesOf(test.path), log = bytesOf(test.path.string() + "-wal");
  CHECK(troubleOf([&] { test.open(); }) == LibraryTrouble::Newer);
  CHECK(bytesOf(test.path) == file);
  CHECK(bytesOf(test.path.string() + "-wal") == log);
}

TEST_CASE("Where there is no library one is made, folders included, or it is said", "[library]") {
  LibraryCase test;
  test.path = test.folder / "a/b/library.sqlite";
  LibraryOptions options = test.options();
  options.create = false;
  CHECK(troubleOf([&] { LibraryStore(test.path, options); }) == LibraryTrouble::Missing);
  CHECK_FALSE(std::filesystem::exists(test.path.parent_path()));
  CHECK(test.open().recipeCount() == 0);
  CHECK(std::filesystem::exists(test.path));
  CHECK(test.open().libraryId().size() == 32);
  CHECK(checkLibrary(test.path).sound());
}

TEST_CASE("A path with any characters is the file of that name and no option", "[library]") {
  LibraryCase test;
  test.path = test.folder / "a?mode=memory&x#y%20z \xc3\xa4.sqlite";
  const std::string id = test.open().saveRecipe(SomeRecipes::number(1)).id;
  CHECK(std::filesystem::exists(test.path));
  CHECK(test.open().findRecipe(id));
}

TEST_CASE("A full disk loses nothing and says so", "[library]") {
  LibraryCase test;
  const std::string id = test.open().saveRecipe(SomeRecipes::number(1)).id;
  SECTION("a limit of pages") {
    LibraryOptions options = test.options();
    options.mostPages = static_cast<int>(std::filesystem::file_size(test.path) / 4096 + 4);
    LibraryStore store(test.path, options);
    std::vector<std::string> saved{id};
    const auto fill = [&] {
      for (unsigned n = 2; n < 1000; ++n) saved.push_back(store.saveRecipe(SomeRecipes::number(n)).id);
    };
    CHECK(troubleOf(fill) == LibraryTrouble::Full);
    CHECK(store.recipeIds() == saved);  // the store is still good
    CHECK(test.open().recipeIds() == saved);
  }
  SECTION("a limit of the file's size, met in the middle of a write") {
    int pipes[2];
    REQUIRE(pipe(pipes) == 0);
    const int code = inOwnProcess([&] {
      std::signal(SIGXFSZ, SIG_IGN);
      const rlimit limit{400000, 400000};
      setrlimit(RLIMIT_FSIZE, &limit);
      LibraryStore store = test.open();
      try {
        for (unsigned n = 2; n < 1000; ++n) {
          store.saveRecipe(SomeRecipes::number(n));
          if (write(pipes[1], "x", 1) != 1) return 3;
        }
      } catch (const LibraryError& error) {
        // SQLite does not say that a limit of the size was the reason, only that writing failed.
        return error.trouble() == LibraryTrouble::Full || error.trouble() == LibraryTrouble::Io ? 0 : 2;
      }
      return 1;
    });
    CHECK(code == 0);
    close(pipes[1]);
    std::size_t acknowledged = 0;
    for (char c = 0; read(pipes[0], &c, 1) == 1;) ++acknowledged;
    close(pipes[0]);
    CHECK(acknowledged > 3);
    CHECK(test.open().recipeCount() == acknowledged + 1);
  }
  CHECK(checkLibrary(test.path).sound());
}

TEST_CASE("A write-protected library can be read, and a save says why it cannot be", "[library]") {
  LibraryCase test;
  const std::string id = test.open().saveRecipe(SomeRecipes::number(1)).id;
  const auto look = [&](LibraryStore& store) {
    if (!store.readOnly()) return 1;
    if (!store.findRecipe(id) || store.find({}).total != 1) return 2;
    try {
      store.saveRecipe(SomeRecipes::number(2));
    } catch (const LibraryError& error) {
      return error.trouble() == LibraryTrouble::ReadOnly ? 0 : 3;
    }
    return 4;
  };
  SECTION("as asked for") {
    LibraryOptions options = test.options();
    options.readOnly = true;
    LibraryStore store(test.path, options);
    CHECK(look(store) == 0);
  }
  // The rest as a user whom the protection binds.
  const auto asSomebody = [&] {
    return inOwnProcess([&] {
      if (geteuid() == 0 && setuid(65534) != 0) return 8;
      LibraryStore store = test.open();
      return look(store);
    });
  };
  using std::filesystem::perms;
  const perms readable = perms::owner_read | perms::group_read | perms::others_read;
  const perms enterable = readable | perms::owner_exec | perms::group_exec | perms::others_exec;
  SECTION("by the file") {
    std::filesystem::permissions(test.folder.path(), perms::all);
    std::filesystem::permissions(test.path, readable);
    CHECK(asSomebody() == 0);
  }
  SECTION("by file and folder") {
    std::filesystem::permissions(test.path, readable);
    std::filesystem::permissions(test.folder.path(), enterable);
    const std::string before = bytesOf(test.path);
    CHECK(asSomebody() == 0);
    CHECK(bytesOf(test.path) == before);
  }
}

TEST_CASE("A damaged library is told from a good one, and its good parts can be read", "[library]") {
  LibraryCase test;
  {
    LibraryStore store = test.open();
    for (unsigned n = 0; n < 40; ++n) store.saveRecipe(SomeRecipes::number(n));
  }
  CHECK(checkLibrary(test.path).sound());
  const std::string good = bytesOf(test.path);
  // Each page in its turn, overwritten by noise: nothing crashes, everything that fails says Corrupt, and what is wrong is found.
  std::size_t told = 0, found = 0;
  const std::size_t pages = good.size() / 4096;
  for (std::size_t page = 1; page < pages; page += 3) {
    CAPTURE(page);
    std::string bad = good;
    for (std::size_t i = 0; i < 4096; ++i) bad[page * 4096 + i] = static_cast<char>(i * 131 + page * 17);
    writeBytes(test.path, bad);
    try {
      if (!checkLibrary(test.path).sound()) ++found;
      LibraryOptions options = test.options();
      options.readOnly = true;
      LibraryStore store(test.path, options);
      RecipeQuery query;
      query.text = "carriage";
      store.find(query);
      for (const std::string& id : store.recipeIds()) store.recipe(id);
    } catch (const LibraryError& error) {
      CAPTURE(error.what());
      const auto trouble = error.trouble();
      CHECK((trouble == LibraryTrouble::Corrupt || trouble == LibraryTrouble::NotOurs || trouble == LibraryTrouble::Missing));
      ++told;
    }
    CHECK(bytesOf(test.path) == bad);
  }
  CHECK(told > pages / 10);
  CHECK(found > pages / 5);
}

TEST_CASE("A library in the rollback mode of a network share works alike", "[library]") {
  LibraryCase test;
  LibraryOptions options = test.options();
  options.journal = JournalMode::Rollback;
  LibraryStore here(test.path, options), there(test.path, options);
  const std::string id = here.saveRecipe(SomeRecipes::number(1)).id;
  CHECK_FALSE(std::filesystem::exists(test.path.string() + "-wal"));
  CHECK(there.changedByOthers());
  CHECK(there.findRecipe(id));
  CHECK(there.find({}).total == 1);
}

TEST_CASE("Two programs that write at once both get their recipes in", "[library]") {
  for (const JournalMode mode : {JournalMode::WriteAhead, JournalMode::Rollback}) {
    LibraryCase test;
    LibraryOptions options = test.options();
    options.journal = mode;
    options.patience = std::chrono::seconds(20);
    constexpr int each = 40;
    std::vector<pid_t> writers;
    for (unsigned writer = 0; writer < 3; ++writer) {
      const pid_t child = fork();
      if (child == 0) {
        int code = 0;
        try {
          LibraryStore store(test.path, options);  // made by whoever is first
          for (unsigned n = 0; n < each; ++n) store.saveRecipe(SomeRecipes::number(writer * 1000 + n));
        } catch (...) {
          code = 1;
        }
        _exit(code);
      }
      writers.push_back(child);
    }
    for (const pid_t writer : writers) {
      int status = -1;
      waitpid(writer, &status, 0);
      CHECK(status == 0);
    }
    CHECK(LibraryStore(test.path, options).recipeCount() == 3 * each);
    CHECK(checkLibrary(test.path).sound());
  }
}

TEST_CASE("Another program that keeps writing is waited for, then said", "[library]") {
  LibraryCase test;
  LibraryOptions options = test.options();
  options.patience = std::chrono::milliseconds(50);
  LibraryStore store(test.path, options);
  Database other(test.path, DatabaseAccess::ReadWrite, std::chrono::seconds(1));
  {
    const Transaction writing(other);
    CHECK(troubleOf([&] { store.saveRecipe(SomeRecipes::number(1)); }) == LibraryTrouble::Busy);
    CHECK(store.recipeCount() == 0);
  }
  CHECK(store.saveRecipe(SomeRecipes::number(1)).version == 1);
}

TEST_CASE("A clock that was set back is said, and does not change the order", "[library]") {
  LibraryCase test;
  test.clock = day(10);
  LibraryStore store = test.open();
  Recipe recipe = SomeRecipes::number(1);
  recipe.id = store.saveRecipe(recipe).id;
  CHECK(store.clockNotice().empty());
  test.clock = day(3);
  CHECK_THAT(store.clockNotice(), Catch::Matchers::Contains("2026-03-04T09:00:00Z") && Catch::Matchers::Contains("2026-03-11T09:00:00Z"));
  recipe.version.number = 1;
  recipe.version.note = "later, by an earlier clock";
  store.saveRecipe(recipe);
  CHECK(store.recipe(recipe.id).version.note == "later, by an earlier clock");
  CHECK(store.versions(recipe.id).back().number == 2);
  store.saveRecipe(SomeRecipes::number(2));
  CHECK(store.find({}).rows.front().name == SomeRecipes::number(2).version.name);
  CHECK_FALSE(test.open().clockNotice().empty());
  test.clock = day(10) - std::chrono::minutes(2);
  CHECK(store.clockNotice().empty());
}

TEST_CASE("Names are data whatever they hold, or are refused in a sentence", "[library]") {
  LibraryCase test;
  LibraryStore store = test.open();
  const std::vector<std::string> odd{"'; DROP TABLE recipe; --",
                                     "\"*\" OR 1=1",
                                     "name:x NOT y",
                                     "%_%",
                                     "\xf0\x9f\x94\xa5 \xc3\x9f \xe6\xbc\x86",
                                     "a\nb\tc",
                                     "NEAR(a b)",
                                     "{\"a\": [1"};
  for (const std::string& name : odd) {
    CAPTURE(name);
    Recipe recipe = SomeRecipes::number(1);
    recipe.version.name = recipe.version.note = recipe.version.part.areas.front().name = name;
    recipe.version.machines.front().name = name;
    recipe.id = "id " + name;
    CHECK(store.saveRecipe(recipe).id == recipe.id);
    CHECK(store.recipe(recipe.id).version.name == name);
    CHECK(store.recipe(recipe.id).version.machines.front().name == name);
    RecipeQuery query;
    query.text = name;
    CHECK_NOTHROW(store.find(query));
    query.substrates = {name};
    query.coatings = {name};
    CHECK(store.find(query).total == 0);
  }
  CHECK(store.recipeCount() == odd.size());

  using std::string_literals::operator""s;
  for (const std::string& bad : {"a\0b"s, "\xff"s, "\xc3"s, "\xed\xa0\x80"s, "\xf5\x80\x80\x80"s, "\xc0\xaf"s}) {
    const auto refused = [&](auto change) {
      Recipe recipe = SomeRecipes::number(2);
      change(recipe);
      CHECK(troubleOf([&] { store.saveRecipe(recipe); }) == LibraryTrouble::Refused);
      CHECK(store.recipeCount() == odd.size());
    };
    refused([&](Recipe& recipe) { recipe.version.name = bad; });
    refused([&](Recipe& recipe) { recipe.version.note = bad; });
    refused([&](Recipe& recipe) { recipe.id = bad; });
    refused([&](Recipe& recipe) { recipe.version.savedBy = bad; });
    refused([&](Recipe& recipe) { recipe.reason = bad; });
    refused([&](Recipe& recipe) { recipe.version.coat.front().name = bad; });
    refused([&](Recipe& recipe) { recipe.version.machines.front().name = bad; });
    refused([&](Recipe& recipe) { recipe.version.part.limits[bad] = 3; });
    CHECK(troubleOf([&] { store.attach("photo", bad); }) == LibraryTrouble::Refused);
    RecipeQuery query;
    query.text = bad;
    CHECK_NOTHROW(store.find(query));
  }
  Recipe recipe = SomeRecipes::number(3);
  recipe.version.name.clear();
  CHECK(troubleOf([&] { store.saveRecipe(recipe); }) == LibraryTrouble::Refused);
  recipe.version.name = std::string(201, 'x');
  CHECK(troubleOf([&] { store.saveRecipe(recipe); }) == LibraryTrouble::Refused);
  recipe.version.name = "good";
  recipe.version.part.thickness_m = Range::exact(-1);
  CHECK(troubleOf([&] { store.saveRecipe(recipe); }) == LibraryTrouble::Refused);
  CHECK(checkLibrary(test.path).sound());
}

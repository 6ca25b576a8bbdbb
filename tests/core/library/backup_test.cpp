// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/attachments.h"
#include "core/library/library_backup.h"
#include "core/library/library_check.h"
#include "core/library/schema.h"
#include "core/library/sha256.h"
#include "tests/core/library/library_case.h"

#include <sys/wait.h>
#include <unistd.h>

#include <csignal>

using namespace bw;
using namespace bw::test;

TEST_CASE("A daily backup is made once a day, kept in a bounded number, and holds what was saved", "[library]") {
  LibraryCase test;
  CHECK_FALSE(backUpDaily(test.path, day(0)));  // nothing to copy
  LibraryStore store = test.open();
  for (int n = 0; n < 20; ++n) {
    store.saveRecipe(SomeRecipes::number(static_cast<unsigned>(n)));
    REQUIRE(backUpDaily(test.path, day(n)));  // while the store is open
    CHECK_FALSE(backUpDaily(test.path, day(n) + std::chrono::hours(3)));
  }
  const std::vector<LibraryBackup> backups = backupsOf(test.path);
  REQUIRE(backups.size() == keptBackups);
  CHECK(backups.front().date == "2026-03-20");
  CHECK(backups.front().sequence == 20);
  CHECK(std::ranges::is_sorted(backups, std::ranges::greater{}, &LibraryBackup::sequence));
  CHECK(backups.front().size_bytes > 4096);
  LibraryOptions readOnly;
  readOnly.readOnly = true;
  CHECK(LibraryStore(backups.front().path, readOnly).recipeCount() == 20);
  CHECK(LibraryStore(backups.back().path, readOnly).recipeCount() == 20 - keptBackups + 1);
}

TEST_CASE("A clock set back does not mix up backups", "[library]") {
  LibraryCase test;
  test.open().saveRecipe(SomeRecipes::number(1));
  for (const int n : {5, 6, 2, 3}) CHECK(backUpDaily(test.path, day(n), 3));
  const std::vector<LibraryBackup> backups = backupsOf(test.path);
  REQUIRE(backups.size() == 3);
  CHECK(backups[0].date == "2026-03-04");
  CHECK(backups[2].date == "2026-03-07");
}

TEST_CASE("A damaged library is not copied over good backups, and one of them takes its place in one call", "[library]") {
  LibraryCase test;
  {
    LibraryStore store = test.open();
    for (unsigned n = 0; n < 30; ++n) store.saveRecipe(SomeRecipes::number(n));
  }
  const LibraryBackup good = backUp(test.path, day(0));
  std::string bytes = bytesOf(test.path);
  for (std::size_t i = 4096 * 3; i < 4096 * 30; ++i) bytes[i] = static_cast<char>(i * 7);
  writeBytes(test.path, bytes);
  CHECK(troubleOf([&] { backUp(test.path, day(1)); }) == LibraryTrouble::Corrupt);
  CHECK(backupsOf(test.path).size() == 1);
  CHECK_FALSE(checkLibrary(test.path).sound());

  const auto aside = restoreBackup(test.path, good.path, day(1));
  REQUIRE(aside);
  CHECK(bytesOf(*aside) == bytes);
  CHECK(checkLibrary(test.path).sound());
  CHECK(test.open().recipeCount() == 30);
  CHECK(std::filesystem::exists(good.path));

  std::filesystem::remove(test.path);  // lost altogether
  CHECK_FALSE(restoreBackup(test.path, good.path, day(2)));
  CHECK(test.open().recipeCount() == 30);
  writeBytes(test.path, "");  // emptied by something
  CHECK(restoreBackup(test.path, good.path, day(2)));
  CHECK(test.open().recipeCount() == 30);
}

TEST_CASE("Changes in the log go aside with the file they belong to", "[library]") {
  LibraryCase test;
  test.open().saveRecipe(SomeRecipes::number(1));
  const LibraryBackup backup = backUp(test.path, day(0));
  const pid_t child = fork();
  if (child == 0) {  // ends without tidying up, as a crash does
    LibraryStore store = test.open();
    store.saveRecipe(SomeRecipes::number(2));
    _exit(0);
  }
  int status = 0;
  waitpid(child, &status, 0);
  REQUIRE(std::filesystem::file_size(test.path.string() + "-wal") > 0);
  const auto aside = restoreBackup(test.path, backup.path, day(0));
  CHECK(test.open().recipeCount() == 1);
  CHECK(LibraryStore(*aside).recipeCount() == 2);
}

TEST_CASE("Restoring is refused while the library is open, and where the backup is none", "[library]") {
  LibraryCase test;
  test.open().saveRecipe(SomeRecipes::number(1));
  const LibraryBackup backup = backUp(test.path, day(0));
  {
    LibraryStore store = test.open();
    CHECK(troubleOf([&] { restoreBackup(test.path, backup.path, day(0)); }) == LibraryTrouble::Busy);
    CHECK(store.saveRecipe(SomeRecipes::number(2)).version == 1);
  }
  int pipes[2];
  REQUIRE(pipe(pipes) == 0);
  const pid_t child = fork();
  if (child == 0) {
    LibraryStore store = test.open();
    if (write(pipes[1], "x", 1) != 1) _exit(1);
    pause();
  }
  char c = 0;
  REQUIRE(read(pipes[0], &c, 1) == 1);
  CHECK(troubleOf([&] { restoreBackup(test.path, backup.path, day(0)); }) == LibraryTrouble::Busy);
  kill(child, SIGKILL);
  int status = 0;
  waitpid(child, &status, 0);
  close(pipes[0]);
  close(pipes[1]);

  writeBytes(test.folder / "holiday.sqlite", "photos");
  const std::string before = bytesOf(test.path);
  CHECK(troubleOf([&] { restoreBackup(test.path, test.folder / "holiday.sqlite", day(0)); }) == LibraryTrouble::NotOurs);
  CHECK(troubleOf([&] { restoreBackup(test.path, test.folder / "none", day(0)); }) == LibraryTrouble::Missing);
  CHECK(bytesOf(test.path) == before);
  CHECK(test.open().recipeCount() == 2);
}

TEST_CASE("Copying and checking do not take away the locks of a store that is at work", "[library]") {
  LibraryCase test;
  LibraryOptions options = test.options();
  options.journal = JournalMode::Rollback;
  LibraryStore store(test.path, options);
  store.saveRecipe(SomeRecipes::number(1));
  store.inOneGo([&] {
    store.saveRecipe(SomeRecipes::number(2));  // holds the lock of a writer
    checkLibrary(test.path);
    backUp(test.path, day(0));
    LibraryOptions impatient = options;
    impatient.patience = std::chrono::milliseconds(10);
    const pid_t child = fork();
    if (child == 0) {
      int code = 1;
      try {
        LibraryStore other(test.path, impatient);
        other.saveRecipe(SomeRecipes::number(3));
      } catch (const LibraryError& error) {
        code = error.trouble() == LibraryTrouble::Busy ? 0 : 2;
      }
      _exit(code);
    }
    int status = -1;
    waitpid(child, &status, 0);
    CHECK(status == 0);
  });
  CHECK(store.recipeCount() == 2);
}

TEST_CASE("Attachments are kept by what they hold, and a missing or changed one is found", "[library]") {
  LibraryCase test;
  LibraryStore store = test.open();
  const Attachment photo = store.attach("a photo", "panel.jpg");
  CHECK(photo.sha256 == sha256("a photo"));
  CHECK(store.attach("a photo", "the same.jpg").sha256 == photo.sha256);
  writeBytes(test.folder / "door.jpg", "another photo");
  const Attachment door = store.attach(test.folder / "door.jpg");
  CHECK(door.name == "door.jpg");
  CHECK(bytesOf(store.attachmentPath(door.sha256)) == "another photo");
  CHECK(troubleOf([&] { store.attach(test.folder / "none.jpg"); }) == LibraryTrouble::Refused);
  CHECK(troubleOf([&] { store.attach(test.folder.path()); }) == LibraryTrouble::Refused);
  for (const char* bad : {"", "../../etc/passwd", "ab", "/etc/passwd"})
    CHECK(troubleOf([&] { store.attachmentPath(bad); }) == LibraryTrouble::Refused);
  CHECK(troubleOf([&] { store.attachmentPath(std::string(64, '0')); }) == LibraryTrouble::Missing);

  Recipe recipe = SomeRecipes::number(4);
  recipe.version.proof->attachments = {photo};
  recipe.id = store.saveRecipe(recipe).id;
  CHECK(store.recipe(recipe.id).version.proof->attachments.front().name == "panel.jpg");
  Recipe strange = SomeRecipes::number(8);
  strange.version.proof->attachments.emplace_back().sha256 = std::string(64, 'a');
  CHECK(troubleOf([&] { store.saveRecipe(strange); }) == LibraryTrouble::Missing);
  CHECK(store.recipeCount() == 1);

  LibraryCheck check = checkLibrary(test.path);
  CHECK(check.sound());
  CHECK(check.attachments == 2);
  CHECK(check.recipes == 1);
  writeBytes(store.attachmentPath(photo.sha256), "an altered photo");
  std::filesystem::remove(store.attachmentPath(door.sha256));
  check = checkLibrary(test.path);
  REQUIRE(check.findings.size() == 2);
  CHECK(store.attach("a photo", "panel.jpg").sha256 == photo.sha256);  // mended by attaching it again
  CHECK(bytesOf(store.attachmentPath(photo.sha256)) == "a photo");
}

TEST_CASE("SHA-256 gives the published values", "[library]") {
  // FIPS 180-4 example values, as published by NIST ("SHA-256 Example", one and two blocks), and of the empty text (from memory).
  CHECK(sha256("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  CHECK(sha256("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  const ScratchFolder folder;
  const std::string million(1000000, 'a');
  writeBytes(folder / "million", million);
  CHECK(sha256OfFile(folder / "million") == "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
  CHECK(troubleOf([&] { sha256OfFile(folder / "none"); }) == LibraryTrouble::Io);
  CHECK(isSha256(sha256("x")));
  CHECK_FALSE(isSha256(std::string(63, 'a')));
  CHECK_FALSE(isSha256(std::string(63, 'a') + "G"));
}

TEST_CASE("A library of any earlier version is brought up to date, after a copy of it was made", "[library]") {
  for (int version = 1; version < latestSchema(); ++version) {
    CAPTURE(version);
    LibraryCase test;
    {
      // As that version would have left it: its tables, and one recipe in them.
      Database database(test.path, DatabaseAccess::Create, std::chrono::seconds(1));
      database.run("PRAGMA application_id = " + std::to_string(libraryApplicationId));
      bringUpToDate(database, version);
      LibraryCase now;
      const Recipe recipe = SomeRecipes::number(1);
      now.open().saveRecipe(recipe);
      database.run("ATTACH '" + now.path.string() + "' AS made");
      for (const char* table : {"term", "content", "recipe", "recipe_version", "recipe_facts", "version_content"}) {
        database.run(std::string("INSERT INTO main.") + table + " SELECT * FROM made." + table);
      }
      database.run("UPDATE main.recipe SET uid = 'old one'");
    }
    const std::string before = bytesOf(test.path);
    LibraryStore store = test.open();
    CHECK(store.recipe("old one").version.name == SomeRecipes::number(1).version.name);
    RecipeQuery query;
    query.text = SomeRecipes::number(1).version.name;
    CHECK(store.find(query).total == 1);
    CHECK(store.attach("x", "x").sha256.size() == 64);
    CHECK(store.saveRecipe(SomeRecipes::number(2)).version == 1);
    CHECK(checkLibrary(test.path).sound());
    REQUIRE(backupsOf(test.path).size() == 1);

    LibraryOptions readOnly;
    readOnly.readOnly = true;
    CHECK(troubleOf([&] { LibraryStore(backupsOf(test.path).front().path, readOnly); }) == LibraryTrouble::ReadOnly);
  }
}

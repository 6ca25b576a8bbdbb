// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/library_backup.h"
#include "tests/support/some_recipes.h"
#include "tests/ui/recipes/recipe_support.h"
#include "ui/library/library_jobs.h"

#include "tests/support/catch.h"

#include <QSignalSpy>
#include <QTemporaryDir>
#include <QtTest>

#include <thread>

using namespace bw;

namespace {

struct Desk {
  QTemporaryDir folder;
  LibraryDesk desk;
  std::vector<LibraryProblem> problems;

  Desk() {
    QObject::connect(&desk, &LibraryDesk::failed, &desk, [this](const LibraryProblem& problem) { problems.push_back(problem); });
  }
  QString path(const char* name = "library.sqlite") const { return folder.filePath(QLatin1String(name)); }
  void settle() {
    REQUIRE(QTest::qWaitFor([this] { return !desk.isBusy(); }, 20000));
  }
  void open(const QString& where, LibraryAccess access = LibraryAccess::ReadWrite) {
    desk.open(where, access);
    settle();
  }
};

void writeFile(const QString& path, const QByteArray& content) {
  QFile file(path);
  REQUIRE(file.open(QIODevice::WriteOnly));
  file.write(content);
}

}  // namespace

TEST_CASE("The library is asked off the interface's thread, and its answers come back to it", "[recipes]") {
  Desk test;
  test.open(test.path());
  REQUIRE(test.desk.state().open);
  std::thread::id asked, answered;
  test.desk.ask(LibraryDesk::Lane::Each, [&](LibraryStore&) -> LibraryDesk::Delivery {
    asked = std::this_thread::get_id();
    return [&] { answered = std::this_thread::get_id(); };
  });
  test.settle();
  CHECK(asked != std::this_thread::get_id());
  CHECK(answered == std::this_thread::get_id());
}

TEST_CASE("Of searches that overtake each other only the newest is delivered", "[recipes]") {
  Desk test;
  test.open(test.path());
  QStringList delivered;
  int run = 0;
  for (int number = 0; number < 50; ++number) {
    test.desk.ask(LibraryDesk::Lane::Search, [&, number](LibraryStore&) -> LibraryDesk::Delivery {
      ++run;
      return [&, number] { delivered << QString::number(number); };
    });
  }
  test.settle();
  CHECK(delivered == QStringList{"49"});
  CHECK(run <= 50);
}

TEST_CASE("What was given to be kept is kept, even when the desk goes at once", "[recipes]") {
  const QTemporaryDir folder;
  const QString path = folder.filePath("library.sqlite");
  {
    LibraryDesk desk;
    desk.open(path);
    for (unsigned number = 0; number < 5; ++number) {
      desk.write([number](LibraryStore& store) -> LibraryDesk::Delivery {
        store.saveRecipe(test::SomeRecipes::number(number));
        return {};
      });
    }
  }
  CHECK(LibraryStore(path.toStdString()).recipeCount() == 5);
}

TEST_CASE("A file that is no library is said in a sentence, and left as it is", "[recipes]") {
  Desk test;
  writeFile(test.path(), "a letter to the boiler inspector, long enough to be looked at as if it were a library of recipes");
  test.open(test.path());
  REQUIRE(test.problems.size() == 1);
  CHECK(test.problems[0].trouble == LibraryTrouble::NotOurs);
  CHECK(test.problems[0].opening);
  CHECK(test.problems[0].sentence.contains(test.path()));
  CHECK_FALSE(test.desk.state().open);
  QFile file(test.path());
  REQUIRE(file.open(QIODevice::ReadOnly));
  CHECK(file.readAll().startsWith("a letter"));
}

TEST_CASE("A library that is not open keeps nothing, and says so", "[recipes]") {
  Desk test;
  writeFile(test.path(), "no library");
  test.open(test.path());
  test.desk.write([](LibraryStore&) { return LibraryDesk::Delivery(); });
  test.settle();
  REQUIRE(test.problems.size() == 2);
  CHECK(test.problems[1].sentence.contains("not open"));
}

TEST_CASE("A damaged library offers its backup, and the backup restores it", "[recipes]") {
  Desk test;
  test::makeLibrary(test.path(), 30);
  test.open(test.path());  // makes the day's backup
  REQUIRE(backupsOf(test.path().toStdString()).size() == 1);
  test.open(test.path("other.sqlite"));
  QFile file(test.path());
  REQUIRE(file.open(QIODevice::ReadWrite));
  const qint64 size = file.size();
  file.seek(100);
  file.write(QByteArray(static_cast<qsizetype>(size - 100), '\x5a'));
  file.close();
  test.open(test.path());
  REQUIRE(test.problems.size() == 1);
  CHECK(test.problems[0].trouble == LibraryTrouble::Corrupt);
  REQUIRE_FALSE(test.problems[0].backup.isEmpty());
  test.desk.restore(test.problems[0].backup);
  test.settle();
  CHECK(test.desk.state().open);
  CHECK(test.desk.state().recipes == 30);
}

TEST_CASE("A copy at another place has the recipes and the photos, and is used from then on", "[recipes]") {
  Desk test;
  test.open(test.path());
  std::string hash;
  test.desk.write([&hash](LibraryStore& store) -> LibraryDesk::Delivery {
    Recipe recipe = test::SomeRecipes::number(4);
    const Attachment photo = store.attach("not really a photo", "patch.jpg");
    hash = photo.sha256;
    recipe.version.proof->attachments.push_back(photo);
    store.saveRecipe(recipe);
    return {};
  });
  test.desk.copyTo(test.path("share.sqlite"));
  test.settle();
  CHECK(test.problems.empty());
  CHECK(test.desk.state().path == test.path("share.sqlite"));
  CHECK(test.desk.state().recipes == 1);
  LibraryStore store(test.path("share.sqlite").toStdString());
  CHECK(std::filesystem::exists(store.attachmentPath(hash)));
  CHECK(QFile::exists(test.path()));
  test.desk.copyTo(test.path());
  test.settle();
  REQUIRE(test.problems.size() == 1);
  CHECK(test.problems[0].sentence.contains("lies there already"));
}

TEST_CASE("What another program saves is noticed", "[recipes]") {
  Desk test;
  test.open(test.path());
  QSignalSpy changed(&test.desk, &LibraryDesk::libraryChanged);
  test.desk.watch(true);
  LibraryStore(test.path().toStdString()).saveRecipe(test::SomeRecipes::number(1));
  CHECK(QTest::qWaitFor([&] { return !changed.empty() && test.desk.state().recipes == 1; }, 10000));
}

TEST_CASE("Whoever saves on an old version is told, and nothing is overwritten", "[recipes]") {
  Desk test;
  test.open(test.path());
  test::makeLibrary(test.path(), 2);
  LibraryStore other(test.path().toStdString());
  const std::string id = other.recipeIds()[1];
  const Judgement judgement{test::SomeRecipes::proofOf(other.recipe(id).version).trials, "2026-03-14", "mk", {}};
  CHECK(keepTrials(other, id, 1, judgement).version == 2);
  test.desk.write([&](LibraryStore& store) -> LibraryDesk::Delivery {
    addPhoto(store, id, 1, test.path(), "seam", "hs");
    return {};
  });
  test.settle();
  REQUIRE(test.problems.size() == 1);
  CHECK(test.problems[0].trouble == LibraryTrouble::Conflict);
  CHECK(other.recipe(id).version.number == 2);
}

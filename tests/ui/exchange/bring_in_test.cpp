// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "tests/ui/exchange/bundle_window.h"

#include "core/library/iso_time.h"
#include "ui/exchange/import_dialog.h"
#include "ui/exchange/sides_model.h"
#include "ui/recipes/find_panel.h"

#include <QAbstractItemModelTester>
#include <QDragEnterEvent>
#include <QMimeData>
#include <QRadioButton>
#include <QTableView>
#include <QtTest>

using namespace bw;
using namespace bw::test;

namespace {

/// Both shops have the recipes "door" and "lid"; each went on by itself. A coating of the bundle collides with a shipped one.
class Parted : public BundleWindow {
 public:
  Parted() {
    {
      LibraryStore mine = reader();
      for (const char* id : {"door", "lid"}) mine.saveRecipe(recipeCalled(id, *id == 'd' ? 4 : 2));
      for (const char* id : {"door", "lid"}) goOn(mine, id, "mine two");
    }
    m_file = fromOther([](LibraryStore& store) {
      for (const char* id : {"door", "lid"}) store.saveRecipe(recipeCalled(id, *id == 'd' ? 4 : 2));
      for (const char* id : {"door", "lid"}) goOn(store, id, "theirs two");
      store.saveRecipe(recipeCalled("vent", 3));
    });
    QTest::qWait(0);
    answered();
  }
  const QString& file() const { return m_file; }
  QDialog* open() { return bringIn(m_file); }

 private:
  QString m_file;
};

QString cell(const QAbstractItemModel* model, int row, int column) { return model->index(row, column).data().toString(); }

int rowOf(BundleWindow& window, QDialog* dialog, const std::string& id) { return window.entries(dialog)->rowOf(BundlePart::Recipe, id); }

}  // namespace

TEST_CASE("What differs comes first, nothing is decided for it, and nothing comes in until it is", "[bundles][window]") {
  Parted window;
  const std::string before = contentOf(window.libraryPath());
  QDialog* dialog = window.open();
  ImportModel* model = window.entries(dialog);
  QAbstractItemModelTester tester(model, QAbstractItemModelTester::FailureReportingMode::Fatal);
  REQUIRE(model->rowCount() == 3);
  CHECK(cell(model, 0, ImportModel::State) == "both changed");
  CHECK(cell(model, 0, ImportModel::Fate) == "open: decide");
  CHECK(cell(model, 2, ImportModel::State) == "new");
  CHECK(cell(model, 2, ImportModel::Fate) == "comes in");
  CHECK(window.textOf(dialog, "importCounts") == "2 differ from yours and want a decision; 1 is new.");
  CHECK_FALSE(window.mayDoIt(dialog));
  CHECK(window.textOf(dialog, "missing") == "2 entries that differ are still open: decide each, or the same for all of them.");
  for (const char* button : {"decideMine", "decideTheirs", "decideBoth"})
    CHECK_FALSE(window.part<QRadioButton>(dialog, button)->isChecked());

  const auto* sides = window.part<QTableView>(dialog, "importSides")->model();
  CHECK(cell(sides, 0, SidesModel::Yours).startsWith("version 2 of "));
  CHECK(cell(sides, 1, SidesModel::Place) == "note");
  CHECK(cell(sides, 1, SidesModel::Yours) == "mine two");
  CHECK(cell(sides, 1, SidesModel::Theirs) == "theirs two");

  window.decide(dialog, 0, "decideMine");
  CHECK_FALSE(window.mayDoIt(dialog));
  CHECK(window.textOf(dialog, "missing") == "One entry that differs is still open: keep mine, take theirs, or keep both.");
  QTest::keyClick(dialog, Qt::Key_Return);
  QTest::keyClick(dialog, Qt::Key_Escape);
  window.answered();
  CHECK(contentOf(window.libraryPath()) == before);
}

TEST_CASE("A recipe that both changed is decided each of the three ways", "[bundles][window]") {
  Parted window;
  LibraryStore store = window.reader();
  const std::string first = notesOf(store, "door").at(0);
  QDialog* dialog = window.open();
  window.decide(dialog, rowOf(window, dialog, "lid"), "decideMine");
  const int door = rowOf(window, dialog, "door");
  SECTION("mine") {
    window.decide(dialog, door, "decideMine");
    window.accept(dialog);
    CHECK(notesOf(store, "door") == std::vector<std::string>{first, "mine two"});
    CHECK(window.bandText() == "Brought in from theirs.bwbundle: 1 recipe. 2 entries of the bundle changed nothing.");
  }
  SECTION("theirs") {
    window.decide(dialog, door, "decideTheirs");
    window.accept(dialog);
    CHECK(notesOf(store, "door") == std::vector<std::string>{first, "mine two", "theirs two"});
    CHECK(window.bandText().contains("1 recipe and 1 later version of a recipe that was there."));
  }
  SECTION("both") {
    window.decide(dialog, door, "decideBoth");
    window.accept(dialog);
    CHECK(notesOf(store, "door") == std::vector<std::string>{first, "mine two"});
    CHECK(notesOf(store, "door-imported") == std::vector<std::string>{first, "theirs two"});
    CHECK(window.bandText().contains("2 recipes."));
  }
  CHECK(notesOf(store, "lid").back() == "mine two");
  CHECK(store.findRecipe("vent"));
}

TEST_CASE("All that is open is decided at once; what was decided before stays so", "[bundles][window]") {
  Parted window;
  QDialog* dialog = window.open();
  window.decide(dialog, rowOf(window, dialog, "lid"), "decideMine");
  window.part<QPushButton>(dialog, "allTheirs")->click();
  CHECK(window.mayDoIt(dialog));
  CHECK_FALSE(window.part<QPushButton>(dialog, "allBoth")->isEnabled());
  window.accept(dialog);
  LibraryStore store = window.reader();
  CHECK(notesOf(store, "door").back() == "theirs two");
  CHECK(notesOf(store, "lid").back() == "mine two");
}

TEST_CASE("What is new may stay out", "[bundles][window]") {
  Parted window;
  QDialog* dialog = window.open();
  window.part<QPushButton>(dialog, "allMine")->click();
  window.decide(dialog, rowOf(window, dialog, "vent"), "decideMine");
  CHECK(cell(window.entries(dialog), rowOf(window, dialog, "vent"), ImportModel::Fate) == "stays out");
  window.accept(dialog);
  CHECK_FALSE(window.reader().findRecipe("vent"));
  CHECK(window.bandText() == "Nothing came in from theirs.bwbundle: your library stays as it was.");
}

TEST_CASE("A material that differs from the shipped one comes in only when told to", "[bundles][window]") {
  BundleWindow window(1);
  const Coating shipped = shippedLibrary().coatings.front();
  const QString file = window.fromOther([&](LibraryStore& store) {
    Coating changed = shipped;
    changed.absorptance.range = Range::exact(0.42);
    store.saveCoating(changed, 0);
  });
  QDialog* dialog = window.bringIn(file);
  CHECK(cell(window.entries(dialog), 0, ImportModel::State) == "differs from yours");
  const auto* sides = window.part<QTableView>(dialog, "importSides")->model();
  CHECK(cell(sides, 0, SidesModel::Yours) == "as shipped");
  CHECK_FALSE(window.mayDoIt(dialog));
  window.decide(dialog, 0, "decideTheirs");
  window.accept(dialog);
  LibraryStore store = window.reader();
  const Library materials = store.materials();
  CHECK(findCoating(materials, shipped.id)->absorptance.range == Range::exact(0.42));
}

TEST_CASE("When the library changes while all is looked at, decisions that still fit stay", "[bundles][window]") {
  Parted window;
  QDialog* dialog = window.open();
  window.decide(dialog, rowOf(window, dialog, "door"), "decideTheirs");
  window.decide(dialog, rowOf(window, dialog, "lid"), "decideTheirs");
  REQUIRE(window.mayDoIt(dialog));
  LibraryStore desk = window.reader();
  const auto said = [&] { return window.part<QLabel>(dialog, "importMeanwhile")->isVisible(); };
  SECTION("seen before it is brought in") {
    goOn(desk, "lid", "saved at the other desk");
    REQUIRE(QTest::qWaitFor(said, 20000));
  }
  SECTION("seen only by bringing in") {
    window.recipes().desk().watch(false);
    goOn(desk, "lid", "saved at the other desk");
    window.accept(dialog);
    REQUIRE(QTest::qWaitFor(said, 20000));
    CHECK(notesOf(desk, "door").back() == "mine two");  // whole or not at all
  }
  window.answered();
  CHECK(window.textOf(dialog, "importMeanwhile").contains("One decision no longer fits"));
  CHECK_FALSE(window.mayDoIt(dialog));
  CHECK(window.entries(dialog)->decision(rowOf(window, dialog, "door")) == ImportDecision::Theirs);
  CHECK(window.entries(dialog)->isOpen(rowOf(window, dialog, "lid")));
  CHECK(notesOf(desk, "lid").back() == "saved at the other desk");
  window.decide(dialog, rowOf(window, dialog, "lid"), "decideMine");
  window.accept(dialog);
  CHECK(notesOf(desk, "door").back() == "theirs two");
  CHECK(notesOf(desk, "lid").back() == "saved at the other desk");
}

TEST_CASE("A bundle that is there already brings nothing, and says so", "[bundles][window]") {
  Parted window;
  QDialog* dialog = window.open();
  window.part<QPushButton>(dialog, "allTheirs")->click();
  window.accept(dialog);
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
  QDialog* again = window.open();
  CHECK_FALSE(window.mayDoIt(again));
  CHECK(window.textOf(again, "missing") == "Your library has all of it already: there is nothing to bring in.");
}

TEST_CASE("The newest backup is named where there is one", "[bundles][window]") {
  Parted window;
  QDialog* dialog = window.open();
  const QString today = QString::fromStdString(isoDate(std::chrono::system_clock::now()));
  const QString sentence = window.textOf(dialog, "importBackup");
  const QDir backups(window.libraryPath() + ".backups");
  CAPTURE(sentence.toStdString());
  if (backups.exists())
    CHECK(sentence == "There is no undo for this; the newest backup of the library is of " + today + ".");
  else
    CHECK(sentence == "There is no undo for this, and no backup of the library yet.");
}

TEST_CASE("A library that may only be read shows what would come, and why it does not", "[bundles][window]") {
  Parted window;
  window.recipes().desk().open(window.libraryPath(), LibraryAccess::ReadOnly);
  window.answered();
  QDialog* dialog = window.open();
  window.part<QPushButton>(dialog, "allBoth")->click();
  CHECK(window.entries(dialog)->rowCount() == 3);
  CHECK_FALSE(window.mayDoIt(dialog));
  CHECK(window.textOf(dialog, "missing") == "Your library may be read but not written, so this is only to look at.");
  CHECK_FALSE(window.part<QLabel>(dialog, "importBackup")->isVisible());
}

TEST_CASE("A bundle dropped on the recipes is brought in; a project is left to the window", "[bundles][window]") {
  Parted window;
  QMimeData data;
  const auto enters = [&](const QString& file) {
    data.setUrls({QUrl::fromLocalFile(file)});
    QDragEnterEvent event({40, 40}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    event.ignore();
    QCoreApplication::sendEvent(&window.recipes(), &event);
    return event.isAccepted();
  };
  const auto drop = [&](const QString& file) {
    REQUIRE(enters(file));  // the recipes or the window around them
    QDropEvent event(QPointF(40, 40), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QCoreApplication::sendEvent(&window.recipes(), &event);
  };
  drop(window.path("part.bwright"));
  CHECK_FALSE(window.find<QDialog>("importDialog"));
  drop(window.file());
  CHECK(window.entries(window.importing())->rowCount() == 3);
}

TEST_CASE("All is decided by the keyboard alone", "[bundles][window]") {
  Parted window;
  QDialog* dialog = window.open();
  const ImportModel* model = window.entries(dialog);
  const auto* table = window.part<QTableView>(dialog, "importEntries");
  CHECK(table->hasFocus());
  CHECK(table->currentIndex().row() == 0);
  // A button that is pressed by its letter is seen to go down, and acts a moment later.
  QTest::keyClick(dialog, Qt::Key_T, Qt::AltModifier);
  REQUIRE(QTest::qWaitFor([&] { return model->decision(0) == ImportDecision::Theirs; }, 5000));
  QTest::keyClick(dialog, Qt::Key_N, Qt::AltModifier);
  REQUIRE(QTest::qWaitFor([&] { return table->currentIndex().row() == 1; }, 5000));
  QTest::keyClick(dialog, Qt::Key_B, Qt::AltModifier);
  REQUIRE(QTest::qWaitFor([&] { return model->decision(1) == ImportDecision::Both; }, 5000));
  CHECK(window.mayDoIt(dialog));
  QTest::keyClick(dialog, Qt::Key_Return);
  window.answered();
  CHECK(window.reader().recipeCount() == 4);
}

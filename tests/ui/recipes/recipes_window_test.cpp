// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/recipes/recipe_support.h"
#include "ui/library/library_band.h"
#include "ui/recipes/facet_button.h"
#include "ui/recipes/find_panel.h"
#include "ui/recipes/recipe_list_model.h"

#include "tests/support/catch.h"

#include <QCheckBox>
#include <QLabel>
#include <QLineEdit>
#include <QListView>
#include <QPushButton>
#include <QtTest>

using namespace bw;
using test::RecipesWindow;

TEST_CASE("An empty library says what to do first", "[recipes][window]") {
  RecipesWindow window(0);
  CHECK(window.find<QLabel>("emptyLibrary")->isVisible());
  CHECK(window.find<QPushButton>("keepFirst")->isVisible());
  CHECK(window.find<QPushButton>("examples")->isVisible());
  CHECK(QFile::exists(window.libraryPath()));
}

TEST_CASE("The library is made when it is looked at, not before", "[recipes][window]") {
  test::Window window;
  CHECK_FALSE(QFile::exists(window.libraryPath()));
}

TEST_CASE("Results come as one types, and the facets count what they would leave", "[recipes][window]") {
  RecipesWindow window(200);
  const RecipeListModel* model = window.recipes().find()->model();
  CHECK(model->total() == 200);
  CHECK(window.find<QLineEdit>("recipeSearch")->hasFocus());
  QTest::keyClicks(window.find<QLineEdit>("recipeSearch"), "tender brack");
  window.answered();
  REQUIRE(model->total() > 0);
  REQUIRE(model->total() < 200);
  for (int row = 0; row < model->rowCount(); ++row) {
    INFO(model->item(row).found.row.name);
    CHECK(model->item(row).found.row.name.find("tender bracket") != std::string::npos);
  }
  CHECK(window.find<QLabel>("foundSummary")->text() == QString("%1 of 200 recipes").arg(model->total()));
  QTest::keyClick(window.find<QLineEdit>("recipeSearch"), Qt::Key_Escape);
  window.answered();
  CHECK(model->total() == 200);
  auto* proven = window.find<QCheckBox>("provenOnly");
  const QString text = proven->text();
  proven->click();
  window.answered();
  CHECK(text == QString("Proven only (%1)").arg(model->total()));
  auto* machine = window.find<FacetButton>("facetMachine");
  machine->toggle("continuous");
  window.answered();
  REQUIRE(model->rowCount() > 0);
  CHECK(model->item(0).found.row.machineKind == MachineKind::Continuous);
  CHECK(model->item(0).found.row.state == RecipeState::Proven);
  window.click(window.find<QPushButton>("showAll"));
  window.answered();
  CHECK(model->total() == 200);
  CHECK(machine->chosen().empty());
}

TEST_CASE("A thickness range narrows, and nothing found is a way out", "[recipes][window]") {
  RecipesWindow window(60);
  const RecipeListModel* model = window.recipes().find()->model();
  QTest::keyClicks(window.find<QLineEdit>("facetCoat"), "50..100");
  window.answered();
  REQUIRE(model->rowCount() > 0);
  for (int row = 0; row < model->rowCount(); ++row) {
    CHECK(model->item(row).found.row.coat_m >= 49.7e-6);
    CHECK(model->item(row).found.row.coat_m <= 100.6e-6);
  }
  QTest::keyClicks(window.find<QLineEdit>("recipeSearch"), "zeppelin");
  window.answered();
  CHECK(model->rowCount() == 0);
  CHECK(window.find<QPushButton>("unfilter")->isVisible());
  CHECK_FALSE(window.find<QPushButton>("keepFirst")->isVisible());
  window.click(window.find<QPushButton>("unfilter"));
  window.answered();
  CHECK(model->total() == 60);
}

TEST_CASE("What is nearest to the open part comes first and says what differs", "[recipes][window]") {
  RecipesWindow window(40);
  window.recipes().desk().write([project = window.document().project()](LibraryStore& store) -> LibraryDesk::Delivery {
    Recipe recipe;
    recipe.version = recipeFrom(project, {}, store.materials());
    recipe.version.name = "the same panel";
    store.saveRecipe(recipe);
    return {};
  });
  window.find<QCheckBox>("nearest")->click();
  window.answered();
  const RecipeListModel* model = window.recipes().find()->model();
  REQUIRE(model->rowCount() > 5);
  CHECK(model->item(0).found.row.name == "the same panel");
  CHECK(*model->item(0).found.distance < 1e-3);  // thicknesses are held in single precision
  CHECK(*model->item(5).found.distance > 0);
  CHECK_FALSE(nearWords(model->item(5).found).isEmpty());
  CHECK_FALSE(window.find<QWidget>("facetMetal")->isEnabled());
  window.recipes().find()->list()->setCurrentIndex(model->index(5));
  window.answered();
  CHECK(window.pageTexts().contains(QString::fromStdString(model->item(5).found.parts.front().words)));
  QTest::keyClicks(window.find<QLineEdit>("recipeSearch"), "x");
  CHECK_FALSE(window.find<QCheckBox>("nearest")->isChecked());
}

TEST_CASE("The keyboard goes from the search field through the list and shows each recipe", "[recipes][window]") {
  RecipesWindow window(20);
  auto* search = window.find<QLineEdit>("recipeSearch");
  QTest::keyClick(search, Qt::Key_Down);
  auto* list = window.find<QListView>("recipeList");
  REQUIRE(list->hasFocus());
  QTest::keyClick(list, Qt::Key_Down);
  window.answered();
  CHECK(list->currentIndex().row() == 1);
  CHECK(window.recipes().page()->detail()->recipe.id == window.recipes().find()->model()->item(1).found.row.id);
}

TEST_CASE("The end of the list brings the next ones", "[recipes][window]") {
  RecipesWindow window(130);
  auto* list = window.find<QListView>("recipeList");
  const RecipeListModel* model = window.recipes().find()->model();
  for (int tries = 0; tries < 10 && model->rowCount() < 130; ++tries) {
    list->scrollToBottom();
    window.answered();
  }
  CHECK(model->rowCount() == 130);
}

TEST_CASE("A file that is no library is said in the band, and another can be used", "[recipes][window]") {
  RecipesWindow window(3);
  const QString letter = QFileInfo(window.libraryPath()).dir().filePath("letter.txt");
  QFile file(letter);
  REQUIRE(file.open(QIODevice::WriteOnly));
  file.write("a letter to the boiler inspector");
  file.close();
  window.asker.paths = {letter, window.libraryPath()};
  window.click(window.find<QPushButton>("useAnother"));
  window.answered();
  CHECK(window.find<QWidget>("libraryBand")->isVisible());
  CHECK(window.find<QLabel>("libraryProblem")->text().contains("letter.txt"));
  CHECK(window.recipes().find()->model()->rowCount() == 0);
  CHECK_FALSE(window.recipes().page()->detail());
  window.click(window.find<QPushButton>("anotherLibrary"));
  window.answered();
  CHECK_FALSE(window.find<QWidget>("libraryBand")->isVisible());
  CHECK(window.recipes().find()->model()->rowCount() == 3);
}

TEST_CASE("A moved library stays where it was too, and is found again at the next start", "[recipes][window]") {
  RecipesWindow window(3);
  const QString moved = QFileInfo(window.libraryPath()).dir().filePath("share/library.sqlite");
  window.asker.paths = {moved};
  window.click(window.find<QPushButton>("moveLibrary"));
  window.answered();
  CHECK(window.find<QLabel>("libraryProblem")->text().contains(moved));
  CHECK(window.recipes().desk().state().path == moved);
  CHECK(QSettings().value("libraryPath").toString() == moved);
  CHECK(QFile::exists(window.libraryPath()));
  QSettings().remove("libraryPath");
}

TEST_CASE("The workspaces are words of the bar, by click and by key", "[recipes][window]") {
  test::Window window;
  auto* recipes = window.find<QAbstractButton>("workspace1");
  window.click(recipes);
  CHECK(window->recipes()->isVisible());
  CHECK(recipes->isChecked());
  QTest::keyClick(window.operator->(), Qt::Key_1, Qt::ControlModifier);
  CHECK(window.find<QWidget>("planWorkspace")->isVisible());
  CHECK_FALSE(recipes->isChecked());
  QTest::keyClick(window.operator->(), Qt::Key_5, Qt::ControlModifier);
  CHECK(window->recipes()->isVisible());
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/some_recipes.h"
#include "tests/ui/recipes/recipe_support.h"
#include "tests/ui/remembered_model.h"
#include "ui/document/edits.h"
#include "ui/recipes/find_panel.h"

#include "tests/support/catch.h"

#include <QCheckBox>
#include <QDialog>
#include <QImage>
#include <QLabel>
#include <QPushButton>
#include <QTableView>
#include <QToolButton>
#include <QtTest>

#include <algorithm>

using namespace bw;
using test::RecipesWindow;

namespace {

bool someText(RecipesWindow& window, const QString& part) {
  const QStringList texts = window.pageTexts();
  return std::any_of(texts.begin(), texts.end(), [&](const QString& text) { return text.contains(part); });
}

/// Keeps the open plan by the dialog.
void keepOne(RecipesWindow& window) {
  window.click(window.find<QPushButton>("keepFirst"));
  QDialog* dialog = window.dialog("keepDialog");
  window.fill(dialog, "name", "Side panel, bulk");
  window.fill(dialog, "note", "keep the hand moving");
  window.fill(dialog, "initials", "hs");
  QTest::keyClick(dialog->findChild<QWidget*>("initials"), Qt::Key_Return);
  window.answered();
}

void prove(RecipesWindow& window) {
  window.click(window.find<QPushButton>("addTrial"));
  QDialog* dialog = window.dialog("proveDialog");
  const QLayout& column = *dialog->layout();
  for (int i = 0; i + 1 < column.count(); ++i)  // none lies on the next
    CHECK(column.itemAt(i)->geometry().bottom() < column.itemAt(i + 1)->geometry().top());
  CHECK(dialog->height() >= column.totalMinimumHeightForWidth(dialog->width()));
  window.fill(dialog, "initials", "mk");
  auto* button = dialog->findChild<QPushButton*>("doIt");
  CHECK_FALSE(button->isEnabled());  // no trial yet
  window.fill(dialog, "trialWhere", "behind the hinge");
  dialog->findChild<QCheckBox*>("seen0")->click();
  auto* readings = dialog->findChild<QTableView*>("trialReadings");
  readings->setFocus();
  readings->setCurrentIndex(readings->model()->index(2, 1));  // the back face's value
  QTest::keyClick(readings, Qt::Key_1);                       // opens the cell
  auto* cell = readings->viewport()->findChild<QLineEdit*>();  // whether or not the display has made the window the active one
  REQUIRE(cell);
  QTest::keyClicks(cell, "04");
  QTest::keyClick(cell, Qt::Key_Return);
  QCoreApplication::processEvents();  // the cell closes first
  window.accept(dialog);
}

}  // namespace

TEST_CASE("The open plan is kept as a draft with its prediction, and shown", "[recipes][window]") {
  RecipesWindow window(0);
  keepOne(window);
  auto store = window.reader();
  REQUIRE(store.recipeCount() == 1);
  const Recipe recipe = store.recipe(store.recipeIds()[0]);
  CHECK(recipe.state == RecipeState::Draft);
  CHECK(recipe.version.name == "Side panel, bulk");
  CHECK(recipe.version.note == "keep the hand moving");
  CHECK(recipe.version.savedBy == "hs");
  CHECK(recipe.version.predicted.modelVersion == modelVersion);
  CHECK(recipe.version.predicted.fails == std::vector<std::string>{"message"});  // of the quick model's verdict
  CHECK(recipe.version.plan.settings == window.document().settings());
  REQUIRE(window.recipes().page()->detail());
  CHECK(window.recipes().page()->detail()->recipe.id == recipe.id);
  CHECK(someText(window, "Planned, not proven"));
}

TEST_CASE("A recipe without a name or initials is not kept", "[recipes][window]") {
  RecipesWindow window(0);
  QSettings().remove("initials");
  window.click(window.find<QPushButton>("keepFirst"));
  QDialog* dialog = window.dialog("keepDialog");
  auto* button = dialog->findChild<QPushButton*>("doIt");
  CHECK_FALSE(button->isEnabled());
  CHECK(dialog->findChild<QLabel*>("missing")->text().contains("initials"));
  CHECK(dialog->focusWidget() == dialog->findChild<QWidget*>("initials"));  // all else is filled in already
  window.fill(dialog, "initials", "hs");
  CHECK(button->isEnabled());
  QTest::keyClick(dialog, Qt::Key_Escape);
  window.answered();
  CHECK(window.reader().recipeCount() == 0);
}

TEST_CASE("Proof takes a trial and initials; a new version keeps the old one readable", "[recipes][window]") {
  RecipesWindow window(0);
  keepOne(window);
  prove(window);
  auto store = window.reader();
  const std::string id = store.recipeIds()[0];
  Recipe recipe = store.recipe(id);
  CHECK(recipe.state == RecipeState::Proven);
  CHECK(recipe.version.number == 2);
  REQUIRE(recipe.version.proof);
  REQUIRE_FALSE(recipe.version.proof->trials.empty());
  const Trial& trial = recipe.version.proof->trials.back();
  CHECK(trial.where == "behind the hinge");
  CHECK(trial.settings == recipe.version.plan.settings);
  CHECK(trial.seen == std::vector<Seen>{Seen::Cleared});
  REQUIRE(trial.readings.size() == 1);
  CHECK(trial.readings[0].kind == "back_C");
  CHECK(trial.readings[0].value == 104);
  CHECK(window.find<QLabel>("recipeState")->text() == "proven");
  CHECK(someText(window, QString("104\u00a0°C")));

  edits::setPasses(window.document(), 17);
  window.settle();
  window.click(window.find<QPushButton>("newVersion"));
  window.accept(window.dialog("versionDialog"));
  recipe = store.recipe(id);
  CHECK(recipe.version.number == 3);
  CHECK(recipe.state == RecipeState::Draft);
  CHECK(recipe.version.plan.settings.passes == 17);
  window.find<QPushButton>("version2")->click();
  window.answered();
  CHECK(window.recipes().page()->detail()->shown.number == 2);
  CHECK(someText(window, "This is version 2; the newest is version 3."));
  CHECK_FALSE(window.find<QPushButton>("addTrial")->isEnabled());
}

TEST_CASE("A trial that did not clear is kept and earns no badge", "[recipes][window]") {
  RecipesWindow window(0);
  keepOne(window);
  for (const auto& [box, outcome] : {std::pair("seen2", "failed"), {"seen1", "partly cleared"}, {"seen4", "unfinished"}}) {
    window.click(window.find<QPushButton>("addTrial"));
    QDialog* dialog = window.dialog("proveDialog");
    window.fill(dialog, "initials", "mk");
    dialog->findChild<QCheckBox*>(box)->click();
    CHECK(dialog->findChild<QLabel*>("missing")->text().contains(outcome));
    CHECK(dialog->findChild<QPushButton*>("doIt")->text() == "Keep the trial");
    window.accept(dialog);
    CHECK(window.find<QLabel>("recipeState")->text() == "draft");
    CHECK(someText(window, "Planned, not proven"));
    CHECK(someText(window, outcome));
  }
  auto store = window.reader();
  Recipe recipe = store.recipe(store.recipeIds()[0]);
  CHECK(recipe.state == RecipeState::Draft);
  CHECK(recipe.version.proof->trials.size() == 3);
  prove(window);
  recipe = store.recipe(recipe.id);
  CHECK(recipe.state == RecipeState::Proven);
  CHECK(recipe.version.proof->trials.size() == 4);  // none was dropped
}

TEST_CASE("A withdrawn recipe keeps its reason, and the withdrawal can be taken back", "[recipes][window]") {
  RecipesWindow window(0);
  keepOne(window);
  window.click(window.find<QPushButton>("withdraw"));
  QDialog* dialog = window.dialog("withdrawDialog");
  CHECK_FALSE(dialog->findChild<QPushButton*>("doIt")->isEnabled());
  window.fill(dialog, "reason", "not with this beam");
  window.accept(dialog);
  auto store = window.reader();
  const std::string id = store.recipeIds()[0];
  CHECK(store.recipe(id).state == RecipeState::Withdrawn);
  CHECK(store.recipe(id).reason == "not with this beam");
  CHECK(someText(window, "not with this beam"));
  CHECK_FALSE(window.find<QPushButton>("withdraw")->isVisible());
  window.click(window.find<QPushButton>("takeBack"));
  window.accept(window.dialog("takeBackDialog"));
  CHECK(store.recipe(id).state == RecipeState::Draft);
}

TEST_CASE("A photo is kept beside the library and shown small, then large", "[recipes][window]") {
  RecipesWindow window(0);
  keepOne(window);
  const QString file = QFileInfo(window.libraryPath()).dir().filePath("patch.png");
  QImage image(800, 600, QImage::Format_RGB32);
  image.fill(Qt::darkCyan);
  REQUIRE(image.save(file));
  window.asker.paths = {file};
  window.click(window.find<QPushButton>("addPhoto"));
  QDialog* dialog = window.dialog("photoDialog");
  window.fill(dialog, "note", "after pass 3");
  window.accept(dialog);
  auto* photo = window.find<QToolButton>("photo");
  REQUIRE(photo);
  CHECK(photo->accessibleName() == "Photo: after pass 3");
  CHECK(QFile::remove(file));  // the copy is enough
  photo->click();
  window.dialog("largePhoto")->reject();
  const Recipe recipe = window.reader().recipe(window.reader().recipeIds()[0]);
  REQUIRE(recipe.version.proof);
  CHECK(recipe.version.proof->attachments[0].name == "patch.png");
  CHECK(recipe.state == RecipeState::Draft);
}

TEST_CASE("Applying shows what changes, changes nothing before it is accepted, and is one undo", "[recipes][window]") {
  RecipesWindow window(12);
  window.chooseFirst(RecipeState::Draft);
  const Project before = window.document().project();
  window.click(window.find<QPushButton>("applyRecipe"));
  QDialog* dialog = window.dialog("applyDialog");
  auto* table = dialog->findChild<QTableView*>("recipeChanges");
  REQUIRE(table->model()->rowCount() > 0);
  CHECK(window.document().project() == before);
  QTest::keyClick(dialog, Qt::Key_Escape);
  CHECK(window.document().project() == before);
  window.click(window.find<QPushButton>("applyRecipe"));
  QDialog* again = nullptr;
  REQUIRE(QTest::qWaitFor([&] { return (again = window.find<QDialog>("applyDialog")) && again->isVisible(); }, 5000));
  const Settings wanted = window.recipes().page()->detail()->shown.plan.settings;
  QTest::keyClick(again, Qt::Key_Return);
  window.settle();
  CHECK(window.document().settings() == wanted);
  CHECK(window.document().undoStack().count() == 1);
  CHECK(window.find<QWidget>("planWorkspace")->isVisible());  // where the effect shows
  window.document().undoStack().undo();
  CHECK(window.document().project() == before);
}

TEST_CASE("An edit while the changes are shown closes them: they would be others now", "[recipes][window]") {
  RecipesWindow window(12);
  window.click(window.find<QPushButton>("applyRecipe"));
  const QPointer<QDialog> dialog = window.dialog("applyDialog");
  edits::setPasses(window.document(), 19);
  CHECK((!dialog || !dialog->isVisible()));
  CHECK(window.document().undoStack().count() == 1);
}

TEST_CASE("A stale proof says why", "[recipes][window]") {
  RecipesWindow window(0);
  window.recipes().desk().write([](LibraryStore& store) -> LibraryDesk::Delivery {
    Recipe recipe = test::SomeRecipes::number(4);
    recipe.version.proof->modelVersion = "an older one";
    store.saveRecipe(recipe);
    return {};
  });
  window.answered();
  window.chooseFirst(RecipeState::Proven);
  CHECK(window.find<QLabel>("recipeState")->text() == "proven, but stale");
  REQUIRE(window.find<QWidget>("staleReasons"));
  CHECK(window.find<QWidget>("staleReasons")->accessibleName().contains("The model is of version"));
}

TEST_CASE("The invented examples lie apart, are marked, and lead back", "[recipes][window]") {
  RecipesWindow window(0, test::pictureModel());
  window.click(window.find<QPushButton>("examples"));
  REQUIRE(QTest::qWaitFor([&] { return window.recipes().desk().state().invented; }, 120000));
  window.answered();
  CHECK(window.recipes().desk().state().recipes == 5);
  CHECK(window.find<QLabel>("libraryProblem")->text().contains("invented"));
  CHECK_FALSE(window.find<QPushButton>("withdraw")->isEnabled());
  window.click(window.find<QPushButton>("ownLibrary"));
  window.answered();
  CHECK(window.recipes().desk().state().path == window.libraryPath());
  CHECK(window.reader().recipeCount() == 0);
}

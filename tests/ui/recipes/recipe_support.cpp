// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/recipes/recipe_support.h"

#include "tests/support/some_recipes.h"
#include "ui/recipes/find_panel.h"
#include "ui/recipes/recipe_list_model.h"

#include "tests/support/catch.h"

#include <QDialog>
#include <QLabel>
#include <QLineEdit>
#include <QListView>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QtTest>

namespace bw::test {

void makeLibrary(const QString& path, unsigned recipes) {
  LibraryStore store(path.toStdString());
  store.inOneGo([&] {
    for (unsigned number = 0; number < recipes; ++number) store.saveRecipe(SomeRecipes::number(number));
  });
}

RecipesWindow::RecipesWindow(unsigned recipes, AssessmentRunner::Model model) : Window(std::move(model)) {
  if (recipes > 0) makeLibrary(libraryPath(), recipes);
  (*this)->showWorkspace(MainWindow::RecipesWord);
  answered();
}

void RecipesWindow::answered() {
  const auto idle = [this] {
    QCoreApplication::processEvents();
    return !recipes().desk().isBusy();
  };
  REQUIRE(QTest::qWaitFor(idle, 30000));
}

QString RecipesWindow::chooseFirst(RecipeState state) {
  const RecipeListModel* model = recipes().find()->model();
  for (int row = 0; row < model->rowCount(); ++row) {
    if (model->item(row).found.row.state != state) continue;
    recipes().find()->list()->setCurrentIndex(model->index(row));
    answered();
    return QString::fromStdString(model->item(row).found.row.id);
  }
  FAIL("no such recipe in the list");
  return {};
}

QDialog* RecipesWindow::dialog(const char* name) {
  QDialog* found = find<QDialog>(name);
  REQUIRE(found);
  REQUIRE(QTest::qWaitForWindowExposed(found));
  return found;
}

void RecipesWindow::fill(QDialog* dialog, const char* field, const QString& text) {
  if (auto* line = dialog->findChild<QLineEdit*>(QLatin1String(field))) {
    line->setFocus();
    line->selectAll();
    QTest::keyClicks(line, text);
    return;
  }
  auto* lines = dialog->findChild<QPlainTextEdit*>(QLatin1String(field));
  REQUIRE(lines);
  lines->setFocus();
  lines->selectAll();
  QTest::keyClicks(lines, text);
}

void RecipesWindow::accept(QDialog* dialog) {
  auto* button = dialog->findChild<QPushButton*>(QStringLiteral("doIt"));
  REQUIRE(button);
  REQUIRE(QTest::qWaitFor([&] { return button->isEnabled(); }, 5000));
  QTest::mouseClick(button, Qt::LeftButton);
  answered();
}

QStringList RecipesWindow::pageTexts() {
  QStringList texts;
  for (const QLabel* label : find<QWidget>("recipePage")->findChildren<QLabel*>()) texts << label->text();
  return texts;
}

LibraryStore RecipesWindow::reader() { return LibraryStore(libraryPath().toStdString()); }

}  // namespace bw::test

// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "tests/ui/exchange/bundle_window.h"

#include "core/exchange/export.h"
#include "ui/exchange/import_dialog.h"

#include <QFile>
#include <QRadioButton>
#include <QTableView>
#include <QtTest>

namespace bw::test {
namespace {

std::string everythingOf(LibraryStore& store) {
  ExportChoice choice;
  choice.all = true;
  return writeBundle(exportBundle(store, choice).bundle);
}

}  // namespace

void goOn(LibraryStore& store, const std::string& id, const std::string& note) {
  Recipe recipe = store.recipe(id);
  recipe.version.note = note;
  store.saveRecipe(recipe);
}

std::vector<std::string> notesOf(LibraryStore& store, const std::string& id) {
  std::vector<std::string> notes;
  for (const RecipeVersion& version : store.versions(id)) notes.push_back(version.note);
  return notes;
}

std::string contentOf(const QString& library) {
  LibraryStore store(library.toStdString());
  return everythingOf(store);
}

QString BundleWindow::fromOther(const std::function<void(LibraryStore&)>& fill, const char* name) {
  LibraryStore other(m_other.filePath(QStringLiteral("other.sqlite")).toStdString());
  fill(other);
  writeFile(path(name), everythingOf(other));
  return path(name);
}

void BundleWindow::writeFile(const QString& path, const std::string& text) {
  QFile file(path);
  REQUIRE(file.open(QIODevice::WriteOnly));
  REQUIRE(file.write(text.data(), static_cast<qint64>(text.size())) == static_cast<qint64>(text.size()));
}

QDialog* BundleWindow::exporting() {
  QDialog* found = dialog("exportDialog");
  answered();
  return found;
}

QDialog* BundleWindow::importing() {
  QDialog* found = dialog("importDialog");
  found->activateWindow();
  REQUIRE(QTest::qWaitForWindowActive(found));
  answered();
  return found;
}

QDialog* BundleWindow::bringIn(const QString& file) {
  asker.paths = {file};
  click(find<QPushButton>("bringIn"));
  return importing();
}

ImportModel* BundleWindow::entries(QDialog* dialog) { return qobject_cast<ImportDialog*>(dialog)->model(); }

void BundleWindow::decide(QDialog* dialog, int row, const char* button) {
  auto* table = part<QTableView>(dialog, "importEntries");
  table->setCurrentIndex(table->model()->index(row, 0));
  auto* choice = part<QRadioButton>(dialog, button);
  REQUIRE(choice->isVisible());
  choice->click();
}

}  // namespace bw::test

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/bundle_file.h"
#include "tests/support/some_recipes.h"
#include "tests/ui/recipes/recipe_support.h"
#include "ui/exchange/import_model.h"

#include <QLabel>
#include <QPushButton>

namespace bw::test {

inline Recipe recipeCalled(const std::string& id, unsigned number) {
  Recipe recipe = SomeRecipes::number(number);
  recipe.id = id;
  return recipe;
}

/// The next version of a recipe, with that note.
void goOn(LibraryStore& store, const std::string& id, const std::string& note);
std::vector<std::string> notesOf(LibraryStore& store, const std::string& id);
/// All that is in the library, as text.
std::string contentOf(const QString& library);

/// A window on its recipes, and a folder in which bundles go to and fro.
class BundleWindow : public RecipesWindow {
 public:
  explicit BundleWindow(unsigned recipes = 0) : RecipesWindow(recipes) {}

  QString path(const char* name) const { return m_bundles.filePath(QLatin1String(name)); }
  /// Writes what `fill` puts into another shop's library as a bundle; its path.
  QString fromOther(const std::function<void(LibraryStore&)>& fill, const char* name = "theirs.bwbundle");
  void writeFile(const QString& path, const std::string& text);

  /// The open dialog once the library has answered; its parts by name.
  QDialog* exporting();
  QDialog* importing();
  QDialog* bringIn(const QString& file);
  template <typename T>
  T* part(QDialog* dialog, const char* name) {
    T* found = dialog->findChild<T*>(QLatin1String(name));
    REQUIRE(found);
    return found;
  }
  QString textOf(QDialog* dialog, const char* label) { return part<QLabel>(dialog, label)->text(); }
  bool mayDoIt(QDialog* dialog) { return part<QPushButton>(dialog, "doIt")->isEnabled(); }
  ImportModel* entries(QDialog* dialog);
  /// Chooses the entry and decides by the button of that name.
  void decide(QDialog* dialog, int row, const char* button);
  QString bandText() { return find<QLabel>("libraryProblem")->text(); }

 private:
  QTemporaryDir m_bundles;
  QTemporaryDir m_other;
};

}  // namespace bw::test

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/ui/support.h"
#include "ui/library/library_desk.h"
#include "ui/recipes_workspace.h"

namespace bw::test {

/// A library with so many invented recipes at the path.
void makeLibrary(const QString& path, unsigned recipes);

/// A window on its Recipes workspace, with a library of its own that holds so many invented recipes.
class RecipesWindow : public Window {
 public:
  explicit RecipesWindow(unsigned recipes, AssessmentRunner::Model model = quickModel());
  RecipesWorkspace& recipes() { return *(*this)->recipes(); }
  /// Waits until the library has answered everything.
  void answered();
  /// Chooses the first recipe of that state in the list; its id.
  QString chooseFirst(RecipeState state);
  /// The open dialog of that name.
  QDialog* dialog(const char* name);
  void fill(QDialog* dialog, const char* field, const QString& text);
  void accept(QDialog* dialog);
  /// All that stands on the recipe's page.
  QStringList pageTexts();
  /// A second look at the same file.
  LibraryStore reader();
};

}  // namespace bw::test

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/bundle_file.h"
#include "core/exchange/export.h"
#include "core/exchange/import_apply.h"
#include "tests/core/library/library_case.h"

namespace bw::test {

/// Two shops with a library each.
struct ExchangeCase {
  LibraryCase ours;
  LibraryCase theirs;
  LibraryStore mine = ours.open();
  LibraryStore other = theirs.open();

  ExchangeCase() = default;

  static ExportChoice everything() {
    ExportChoice choice;
    choice.all = true;
    return choice;
  }
  static std::string textOf(LibraryStore& store, const ExportChoice& choice = everything()) {
    return writeBundle(exportBundle(store, choice).bundle);
  }
  /// Out of the other shop's library as text, and read again.
  Bundle fromOther(const ExportChoice& choice = everything()) { return read(textOf(other, choice)); }
  static Bundle read(const std::string& text) {
    BundleReadResult result = readBundle(text);
    for (const Problem& problem : result.problems) UNSCOPED_INFO(problem.path << ": " << problem.message);
    REQUIRE(result.problems.empty());
    return std::move(result.bundle);
  }
  ImportPlan plan() { return planImport(mine, fromOther()); }
  ImportOutcome bringIn(ImportDecision decision = ImportDecision::Open) {
    const ImportPlan found = plan();
    return applyImport(mine, found, decideAll(found, decision));
  }
};

/// The same recipe under a name and id that the test knows.
inline Recipe recipeNamed(const std::string& id, unsigned number) {
  Recipe recipe = SomeRecipes::number(number);
  recipe.id = id;
  return recipe;
}

inline int saveNext(LibraryStore& store, const std::string& id, const std::string& note) {
  Recipe recipe = store.recipe(id);
  recipe.version.note = note;
  return store.saveRecipe(recipe).version;
}

inline std::vector<std::string> notesOf(LibraryStore& store, const std::string& id) {
  std::vector<std::string> notes;
  for (const RecipeVersion& version : store.versions(id)) notes.push_back(version.note);
  return notes;
}

}  // namespace bw::test

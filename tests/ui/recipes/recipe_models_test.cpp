// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/some_recipes.h"
#include "tests/ui/recipes/recipe_support.h"
#include "ui/recipes/change_model.h"
#include "ui/recipes/recipe_list_model.h"

#include "tests/support/catch.h"

#include <QAbstractItemModelTester>
#include <QSignalSpy>
#include <QTemporaryDir>

using namespace bw;

namespace {

int modelComplaints = 0;
QtMessageHandler handlerBefore = nullptr;

void countComplaint(QtMsgType type, const QMessageLogContext& context, const QString& text) {
  if (QLatin1String(context.category) == QLatin1String("qt.modeltest")) ++modelComplaints;
  if (handlerBefore) handlerBefore(type, context, text);
}

struct ModelWatch {
  ModelWatch() {
    modelComplaints = 0;
    handlerBefore = qInstallMessageHandler(countComplaint);
  }
  ~ModelWatch() { qInstallMessageHandler(handlerBefore); }
};

}  // namespace

TEST_CASE("The found recipes are a proper model, through searching, going on and details", "[recipes][models]") {
  const ModelWatch watch;
  const QTemporaryDir folder;
  const QString path = folder.filePath("library.sqlite");
  test::makeLibrary(path, 120);
  LibraryStore store(path.toStdString());
  RecipeListModel model;
  QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::Warning);
  QSignalSpy more(&model, &RecipeListModel::moreWanted);
  WantedRecipes wanted;
  model.show(findRecipes(store, wanted));
  CHECK(model.rowCount() == 50);
  if (model.canFetchMore({})) model.fetchMore({});  // the tester may have done so already
  REQUIRE(more.size() == 1);
  CHECK_FALSE(model.canFetchMore({}));  // until they are there
  wanted.query.skip = 50;
  model.show(findRecipes(store, wanted));
  CHECK(model.rowCount() == 100);
  CHECK(model.withoutDetails().size() == 100);
  model.addDetails(rowDetails(store, model.withoutDetails()));
  CHECK(model.withoutDetails().empty());
  CHECK(model.rowOf(model.data(model.index(70), RecipeListModel::IdRole).toString()) == 70);
  wanted.query = {};
  wanted.query.text = "no such words anywhere";
  model.show(findRecipes(store, wanted));
  CHECK(model.rowCount() == 0);
  CHECK(modelComplaints == 0);
}

TEST_CASE("A row says its state, what it was for and the layers from the top", "[recipes][models]") {
  const QTemporaryDir folder;
  LibraryStore store(folder.filePath("library.sqlite").toStdString());
  Recipe recipe = test::SomeRecipes::number(5);  // withdrawn
  store.saveRecipe(recipe);
  RecipeListModel model;
  model.show(findRecipes(store, {}));
  model.addDetails(rowDetails(store, model.withoutDetails()));
  const QString spoken = model.data(model.index(0), Qt::AccessibleTextRole).toString();
  CHECK(spoken.contains(QString::fromStdString(recipe.version.name)));
  CHECK(spoken.contains("withdrawn"));
  CHECK(spoken.contains("not with this beam"));
  CHECK(spoken.contains(QString::fromStdString(mainMachine(recipe.version)->name)));
  CHECK(model.item(0).layers.size() == recipe.version.coat.size());
  CHECK(model.item(0).layers[0].thickness_m == Catch::Approx(recipe.version.coat[0].thickness_m.likely));
}

TEST_CASE("A proof that went stale is told in the list once the row is looked into", "[recipes][models]") {
  const QTemporaryDir folder;
  LibraryStore store(folder.filePath("library.sqlite").toStdString());
  Recipe recipe = test::SomeRecipes::number(4);
  recipe.version.proof->modelVersion = modelVersion;
  store.saveRecipe(recipe);
  recipe.version.proof->modelVersion = "an older one";
  store.saveRecipe(recipe);
  RecipeListModel model;
  model.show(findRecipes(store, {}));
  model.addDetails(rowDetails(store, model.withoutDetails()));
  CHECK(model.item(0).stale);  // the last saved comes first
  CHECK_FALSE(model.item(1).stale);
}

TEST_CASE("The changes of a recipe are a proper model", "[recipes][models]") {
  const ModelWatch watch;
  ChangeModel model;
  QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::Warning);
  model.setChanges({{"Power", "80 %", "60 %"}, {"Edge trim", {}, "1 mm"}});
  CHECK(model.rowCount() == 2);
  CHECK(model.data(model.index(1, ChangeModel::Now), Qt::DisplayRole) == "not set");
  CHECK(model.data(model.index(0, ChangeModel::Then), Qt::DisplayRole) == "60 %");
  model.setChanges({});
  CHECK(model.rowCount() == 0);
  CHECK(modelComplaints == 0);
}

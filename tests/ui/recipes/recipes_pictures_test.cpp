// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/some_recipes.h"
#include "tests/ui/keep_picture.h"
#include "tests/ui/recipes/recipe_support.h"
#include "tests/ui/remembered_model.h"
#include "ui/recipes/find_panel.h"
#include "ui/start/example.h"

#include "tests/support/catch.h"

#include <QCheckBox>
#include <QDialog>
#include <QImage>
#include <QLineEdit>
#include <QPainter>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QtTest>

using namespace bw;
using test::keepPicture;
using test::RecipesWindow;

namespace {

QString photoFile(const QString& folder) {
  QImage image(640, 480, QImage::Format_RGB32);
  image.fill(QColor("#7c3a34"));
  QPainter(&image).fillRect(200, 120, 240, 240, QColor("#b9bec2"));
  const QString file = folder + QStringLiteral("/patch.png");
  REQUIRE(image.save(file));
  return file;
}

/// A proven recipe of the open project with two photos, beside the invented ones.
void addProven(RecipesWindow& window) {
  const QString photo = photoFile(QFileInfo(window.libraryPath()).path());
  window.recipes().desk().write([project = window.document().project(), photo](LibraryStore& store) -> LibraryDesk::Delivery {
    const OpenPlan open{std::make_shared<const Project>(project), project.plans.front().name, nullptr};
    const std::string id = keepPlan(store, open, {"Carriage side panel, bulk and clean-up", "Wait until the back is hand-warm.", "mk"}).id;
    Judgement judgement{test::SomeRecipes::proofOf(store.recipe(id).version).trials, "2026-03-14", "mk", "even, no tint"};
    keepTrials(store, id, 1, judgement);
    addPhoto(store, id, 2, photo, "patch after pass 5", "mk");
    return {};
  });
  window.answered();
}

}  // namespace

TEST_CASE("Pictures of the recipes, light and dark, small and large", "[screenshots][recipes]") {
  for (const Theme theme : test::pictureThemes()) {
    test::useStableLook(theme);
    const QString shade = test::shadeOf(theme);
    RecipesWindow window(60, test::pictureModel());
    window->openExample();
    window.settle();
    window->showWorkspace(MainWindow::RecipesWord);
    addProven(window);
    for (const QSize size : test::pictureSizes({QSize(1280, 800), QSize(1920, 1080), QSize(1024, 700)})) {
      const QString ending = QStringLiteral("-%1-").arg(size.width()) + shade;
      window->resize(size);
      window.recipes().find()->reset();
      window.answered();
      window.chooseFirst(RecipeState::Proven);
      keepPicture(window.operator->(), QStringLiteral("recipes-proven") + ending);
      auto* bar = window.find<QScrollArea>("recipeScroll")->verticalScrollBar();
      bar->setValue(bar->maximum());
      keepPicture(window.operator->(), QStringLiteral("recipes-end") + ending);
      const Recipe withdrawn = test::SomeRecipes::number(5);
      window.find<QLineEdit>("recipeSearch")->setText(QString::fromStdString(withdrawn.version.name));
      window.answered();
      window.chooseFirst(RecipeState::Withdrawn);
      keepPicture(window.operator->(), QStringLiteral("recipes-withdrawn") + ending);
      window.find<QCheckBox>("nearest")->setChecked(true);
      window.answered();
      keepPicture(window.operator->(), QStringLiteral("recipes-nearest") + ending);
      window.find<QPushButton>("applyRecipe")->click();
      keepPicture(window.dialog("applyDialog"), QStringLiteral("recipes-apply") + ending);
      window.dialog("applyDialog")->reject();
      QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    }
    window.find<QPushButton>("addTrial")->click();
    keepPicture(window.dialog("proveDialog"), QStringLiteral("recipes-prove-") + shade);
    window.dialog("proveDialog")->reject();
    window.find<QPushButton>("keepPlan")->click();
    keepPicture(window.dialog("keepDialog"), QStringLiteral("recipes-keep-") + shade);
    window.dialog("keepDialog")->reject();
  }
  test::useStableLook(Theme::Light);
}

TEST_CASE("Pictures of an empty library, of one that is none, and of the examples", "[screenshots][recipes]") {
  for (const Theme theme : test::pictureThemes()) {
    test::useStableLook(theme);
    const QString shade = test::shadeOf(theme);
    RecipesWindow window(0, test::pictureModel());
    window->resize(1280, 800);
    keepPicture(window.operator->(), QStringLiteral("recipes-empty-") + shade);
    if (theme == Theme::Light) {
      window.click(window.find<QPushButton>("examples"));
      REQUIRE(QTest::qWaitFor([&] { return window.recipes().desk().state().invented; }, 120000));
      window.answered();
      keepPicture(window.operator->(), QStringLiteral("recipes-examples-") + shade);
    }
    const QString letter = QFileInfo(window.libraryPath()).dir().filePath("letter.txt");
    QFile file(letter);
    REQUIRE(file.open(QIODevice::WriteOnly));
    file.write("a letter to the boiler inspector");
    file.close();
    window.asker.paths = {letter};
    window.click(window.find<QPushButton>("useAnother"));
    window.answered();
    keepPicture(window.operator->(), QStringLiteral("recipes-band-") + shade);
    QSettings().remove("libraryPath");
  }
  test::useStableLook(Theme::Light);
}

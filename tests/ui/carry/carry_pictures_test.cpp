// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/keep_picture.h"
#include "tests/ui/recipes/recipe_support.h"
#include "tests/ui/remembered_model.h"
#include "ui/carry/carry_dialog.h"
#include "ui/start/example.h"

#include "tests/support/catch.h"

#include <QListWidget>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QtTest>

using namespace bw;
using test::keepPicture;
using test::RecipesWindow;

TEST_CASE("Pictures of a recipe on another machine, light and dark, small and large", "[screenshots][carry]") {
  for (const Theme theme : test::pictureThemes()) {
    test::useStableLook(theme);
    const QString shade = test::shadeOf(theme);
    RecipesWindow window(12, test::pictureModel());
    window->openExample();
    window.settle();
    window->showWorkspace(MainWindow::RecipesWord);
    window.recipes().desk().write([project = window.document().project()](LibraryStore& store) -> LibraryDesk::Delivery {
      keepPlan(store, {std::make_shared<const Project>(project), project.plans.front().name, nullptr},
               {"Carriage side panel, bulk", "", "mk"});
      return {};
    });
    window.answered();
    for (const QSize size : test::pictureSizes({QSize(1024, 700), QSize(1600, 1000)})) {
      const QString ending = QStringLiteral("-%1-").arg(size.width()) + shade;
      window->resize(size);
      window.chooseFirst(RecipeState::Draft);
      keepPicture(window.operator->(), QStringLiteral("carry-page") + ending);
      window.click(window.find<QPushButton>("carryOver"));
      window.answered();
      auto* dialog = static_cast<CarryDialog*>(window.dialog("carryDialog"));
      auto* list = dialog->findChild<QListWidget*>("carryMachines");
      auto* bar = dialog->findChild<QScrollArea*>("carryScroll")->verticalScrollBar();
      for (const int row : {0, list->count() - 1}) {
        list->setCurrentRow(row);
        if (row == 0) keepPicture(dialog, QStringLiteral("carry-early") + ending);
        const auto known = [&] { return dialog->work().forecastAfter().complete && dialog->work().forecastBefore().complete; };
        REQUIRE(QTest::qWaitFor(known, 120000));
        bar->setValue(0);
        keepPicture(dialog, QStringLiteral("carry-%1").arg(row == 0 ? "first" : "last") + ending);
        bar->setValue(bar->maximum());
        keepPicture(dialog, QStringLiteral("carry-%1-end").arg(row == 0 ? "first" : "last") + ending);
      }
      window.click(dialog->findChild<QPushButton*>("carryKeep"));
      keepPicture(window.dialog("carryKeepDialog"), QStringLiteral("carry-keep") + ending);
      window.dialog("carryKeepDialog")->reject();
      dialog->reject();
      QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    }
  }
  test::useStableLook(Theme::Light);
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"
#include "tests/ui/recipes/recipe_support.h"
#include "ui/library/library_desk.h"
#include "ui/recipes_workspace.h"

#include <QDir>
#include <QPushButton>

using namespace bw;
using test::RecipesWindow;

namespace {

void keepForReadme(RecipesWindow& window, const char* name) {
  const QString folder = qEnvironmentVariable("BAREWRIGHT_PICTURES");
  REQUIRE_FALSE(folder.isEmpty());
  QCoreApplication::processEvents();
  QTest::qWait(200);
  const QImage picture = window->grab().toImage().convertToFormat(QImage::Format_RGB888);
  CHECK(picture.save(QDir(folder).filePath(QLatin1String(name)), "PNG", 0));
}

}  // namespace

TEST_CASE("The readme's pictures, one of each workspace", "[.][readme]") {
  test::useStableLook(Theme::Light);
  RecipesWindow window(0, shippedModel());
  window->resize(1440, 810);
  window->openExample();
  window.settle();
  REQUIRE(QTest::qWaitFor([&] { return !window->remedies().empty() && !window->runner().isLookingDeeper(); }, 120000));
  keepForReadme(window, "plan-workspace.png");
  window->showWorkspace(MainWindow::RecipesWord);
  window.answered();
  window.click(window.find<QPushButton>("examples"));
  REQUIRE(QTest::qWaitFor([&] { return window.recipes().desk().state().invented; }, 120000));
  window.answered();
  window.chooseFirst(RecipeState::Proven);
  keepForReadme(window, "recipes-workspace.png");
}

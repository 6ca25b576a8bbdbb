// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/support.h"
#include "ui/fields/division.h"
#include "ui/window_place.h"

#include "tests/support/catch.h"

#include <QLabel>
#include <QSettings>
#include <QSplitter>
#include <QStatusBar>

using namespace bw;
using test::Window;

TEST_CASE("The window opens as a whole on the screen there is", "[window]") {
  for (const QSize screen : {QSize(960, 540), QSize(1280, 800), QSize(1366, 768), QSize(1920, 1080), QSize(3840, 2160)}) {
    INFO(screen.width());
    const QRect room(QPoint(0, 24), screen - QSize(0, 24));  // a bar of the desktop on top
    const QRect place = placeWithin(room, std::nullopt);
    CHECK(room.contains(place));
    CHECK(place.top() >= room.top() + 20);  // the title can be reached
    CHECK(place.width() >= std::min(1280, screen.width()));
  }
}

TEST_CASE("The window comes back where it was left, and onto a smaller screen", "[window]") {
  const QRect left(2000, 300, 1500, 1000), large(0, 0, 3840, 2160), small(0, 0, 1280, 800);
  CHECK(placeWithin(large, left) == left);
  CHECK(small.contains(placeWithin(small, left)));
  CHECK(small.contains(placeWithin(small, QRect(-400, -300, 900, 600))));
  QSettings settings;
  QWidget before, after;
  before.setGeometry(20, 60, 500, 400);
  rememberPlace(before);
  openInPlace(after);
  CHECK(after.geometry() == before.geometry());
  settings.remove(QStringLiteral("window"));
}

TEST_CASE("The whole window goes onto a full HD screen at twice the size", "[window]") {
  Window window;
  window->resize(placeWithin({0, 0, 960, 540}, std::nullopt).size());
  QCoreApplication::processEvents();
  CHECK(window->width() <= 960);
  CHECK(window->height() <= 508);
  CHECK(window->rect().contains(window->statusBar()->geometry()));
  for (const char* part : {"topBar", "planWorkspace", "recipesWorkspace", "startPage"}) {
    INFO(part);
    CHECK(window.find<QWidget>(part)->minimumSizeHint().width() <= 960);
  }
  for (const char* part : {"planWorkspace", "startPage"}) {  // below the bar, the band and the answer
    INFO(part);
    CHECK(window.find<QWidget>(part)->minimumSizeHint().height() <= 312);
  }
  window->showWorkspace(MainWindow::RecipesWord);
  auto* empty = window.find<QLabel>("emptyLibrary");  // with the longest that there is to read
  REQUIRE(QTest::qWaitFor([&] { return empty->isVisible() && empty->text().startsWith("No recipe is kept"); }));
  QCoreApplication::processEvents();
  CHECK(empty->height() >= empty->heightForWidth(empty->width()));
  auto* search = window.find<QWidget>("recipeSearch");
  CHECK(search->height() >= search->minimumSizeHint().height());
}

TEST_CASE("A splitter is divided as it was left", "[window]") {
  const auto fill = [](QSplitter& splitter) {
    splitter.addWidget(new QWidget);
    splitter.addWidget(new QWidget);
    splitter.resize(600, 200);
  };
  const QString key = QStringLiteral("window/test");
  QSplitter before, after;
  fill(before);
  CHECK_FALSE(rememberDivision(before, key));
  before.show();
  before.setSizes({200, 400});
  emit before.splitterMoved(200, 1);
  fill(after);
  CHECK(rememberDivision(after, key));
  after.show();
  CHECK(after.sizes() == before.sizes());
  QSettings().remove(key);
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/support.h"
#include "ui/fields/chooser.h"
#include "ui/plan/plan_workspace.h"

#include "tests/support/catch.h"

#include <QApplication>
#include <QDir>
#include <QProcess>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QToolButton>

using namespace bw;
using test::Window;

namespace {

/// Pictures for people to look at; the checks only see that something was drawn.
void picture(Window& window, const QString& name) {
  QCoreApplication::processEvents();
  QTest::qWait(50);
  const QPixmap pixmap = window->grab();
  CHECK(pixmap.width() == qRound(window->width() * window->devicePixelRatioF()));
  QDir().mkpath(QStringLiteral(BAREWRIGHT_SCREENSHOTS));
  CHECK(pixmap.save(QStringLiteral(BAREWRIGHT_SCREENSHOTS "/%1.png").arg(name)));
}

void openExample(Window& window, QSize size) {
  window->resize(size);
  window->openExample();
  window.settle();
  REQUIRE(QTest::qWaitFor([&] { return !window->remedies().empty(); }, 20000));
}

}  // namespace

TEST_CASE("Pictures of the plan, light and dark, small and large", "[screenshots]") {
  for (const Theme theme : {Theme::Light, Theme::Dark}) {
    test::useStableLook(theme);
    const QString shade = theme == Theme::Light ? QStringLiteral("light") : QStringLiteral("dark");
    Window window(shippedModel());
    openExample(window, {1280, 800});
    picture(window, QStringLiteral("plan-1280-") + shade);
    window->resize(1920, 1080);
    picture(window, QStringLiteral("plan-1920-") + shade);
    window->resize(1100, 760);
    picture(window, QStringLiteral("plan-narrow-") + shade);
    window->resize(1280, 1500);
    window.find<QToolButton>("allSettings")->setChecked(true);
    window.find<QToolButton>("editPart")->setChecked(true);
    window.find<QToolButton>("editCoat")->setChecked(true);
    picture(window, QStringLiteral("inputs-unfolded-") + shade);
    window->resize(1280, 800);
    window.find<QPushButton>("startMyPart")->click();
    picture(window, QStringLiteral("start-") + shade);
  }
  test::useStableLook(Theme::Light);
}

TEST_CASE("Pictures of other parts of the work, and of every pattern", "[screenshots]") {
  const auto choose = [](Chooser* chooser, int id) {
    chooser->setCurrentIndex(chooser->findData(QString::number(id)));
    emit chooser->activated(chooser->currentIndex());
  };
  for (const Theme theme : {Theme::Light, Theme::Dark}) {
    test::useStableLook(theme);
    const QString shade = theme == Theme::Light ? QStringLiteral("light") : QStringLiteral("dark");
    Window window(shippedModel());
    openExample(window, {1280, 800});
    for (const Scene scene : {Scene::OneSwath, Scene::StrokeStart, Scene::StrokeEnd, Scene::StillHand, Scene::Corner}) {
      choose(window.find<Chooser>("scene"), static_cast<int>(scene));
      window.settle();
      QTest::qWait(100);  // lines of equal dose come a moment later
      picture(window, QStringLiteral("scene-%1-").arg(static_cast<int>(scene)) + shade);
    }
    choose(window.find<Chooser>("scene"), static_cast<int>(Scene::StillHand));
    window.settle();
    window.type(window.field("stillTime"), "500");
    picture(window, QStringLiteral("scene-refused-") + shade);
    choose(window.find<Chooser>("scene"), static_cast<int>(Scene::Endless));
    window->resize(1280, 1800);
    window.find<QToolButton>("allSettings")->setChecked(true);
    for (const Pattern pattern : {Pattern::Circles, Pattern::Spiral, Pattern::TwoSine}) {
      choose(window.find<Chooser>("pattern"), static_cast<int>(pattern));
      window.settle();
      window.find<QToolButton>("playPath")->setChecked(true);
      QTest::qWait(300);
      picture(window, QStringLiteral("pattern-%1-").arg(static_cast<int>(pattern)) + shade);
    }
  }
  test::useStableLook(Theme::Light);
}

TEST_CASE("Pictures at twice the size, by a child of this program", "[screenshots]") {
  QProcess child;
  auto environment = QProcessEnvironment::systemEnvironment();
  environment.insert("QT_SCALE_FACTOR", "2");
  child.setProcessEnvironment(environment);
  child.setProcessChannelMode(QProcess::ForwardedChannels);
  child.start(QCoreApplication::applicationFilePath(), {"[scaled]"});
  REQUIRE(child.waitForFinished(60000));
  CHECK(child.exitCode() == 0);
}

TEST_CASE("A picture at the scale of the environment", "[.][scaled]") {
  Window window(shippedModel());
  openExample(window, {1280, 800});
  picture(window, QStringLiteral("plan-1280-scale-%1").arg(window->devicePixelRatioF()));
}

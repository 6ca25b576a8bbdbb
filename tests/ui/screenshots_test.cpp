// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/fake_assessment.h"
#include "tests/ui/deepened.h"
#include "tests/ui/keep_picture.h"
#include "tests/ui/remembered_model.h"
#include "tests/ui/support.h"
#include "ui/fields/chooser.h"
#include "ui/plan/plan_workspace.h"
#include "ui/plots/plot_deck.h"
#include "ui/plots/plot_view.h"

#include "tests/support/catch.h"

#include <QApplication>
#include <QProcess>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QSlider>
#include <QTabBar>
#include <QToolButton>
#include <qcustomplot.h>

using namespace bw;
using test::Window;

namespace {

void picture(Window& window, const QString& name) { test::keepPicture(window.operator->(), name); }

void openExample(Window& window, QSize size) {
  window->resize(size);
  window->openExample();
  window.settle();
  REQUIRE(QTest::qWaitFor([&] { return !window->remedies().empty(); }, 90000));
}

}  // namespace

TEST_CASE("Pictures of the plan, light and dark, small and large", "[screenshots]") {
  for (const Theme theme : test::pictureThemes()) {
    test::useStableLook(theme);
    const QString shade = test::shadeOf(theme);
    Window window(test::pictureModel());
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

TEST_CASE("Pictures of the band that fixes the first sample step by step", "[screenshots]") {
  for (const Theme theme : test::pictureThemes()) {
    test::useStableLook(theme);
    const QString shade = test::shadeOf(theme);
    Window window(test::pictureModel());
    openExample(window, {1280, 800});
    picture(window, QStringLiteral("band-offers-") + shade);
    window.click(window.find<QPushButton>("showPlace"));
    QTest::qWait(100);
    picture(window, QStringLiteral("band-shows-") + shade);
    auto* fix = window.find<QPushButton>("mend");
    if (!fix->isEnabled()) continue;
    window.click(fix);
    picture(window, QStringLiteral("band-calculates-") + shade);
    window.settle();
    REQUIRE(QTest::qWaitFor([&] { return !window->runner().isLookingDeeper(); }, 90000));
    picture(window, QStringLiteral("band-done-") + shade);
  }
  test::useStableLook(Theme::Light);
}

TEST_CASE("Pictures of other parts of the work, and of every pattern", "[screenshots]") {
  const auto choose = [](Chooser* chooser, int id) {
    chooser->setCurrentIndex(chooser->findData(QString::number(id)));
    emit chooser->activated(chooser->currentIndex());
  };
  for (const Theme theme : test::pictureThemes()) {
    test::useStableLook(theme);
    const QString shade = test::shadeOf(theme);
    Window window(test::pictureModel());
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

TEST_CASE("Pictures of what the passes leave", "[screenshots]") {
  for (const Theme theme : test::pictureThemes()) {
    test::useStableLook(theme);
    const QString shade = test::shadeOf(theme);
    Window window(test::pictureModel());
    for (const QSize size : test::pictureSizes({QSize(1024, 768), QSize(1280, 800), QSize(1920, 1080)})) {
      const QString ending = QStringLiteral("-%1-").arg(size.width()) + shade;
      openExample(window, size);
      window->plan()->showPlot(2);
      picture(window, QStringLiteral("depth") + ending);
      window->plan()->showPlot(0);
      window->plan()->plots()->showRemains(true);
      window.find<QSlider>("passStepper")->setValue(1);
      picture(window, QStringLiteral("remains") + ending);
      auto* canvas = window->plan()->plots()->plot(0)->canvas();
      QTest::mouseClick(canvas, Qt::LeftButton, Qt::NoModifier, canvas->rect().center());
      picture(window, QStringLiteral("place") + ending);
      if (auto* tabs = window.find<QTabBar>("narrowTabs")) tabs->setCurrentIndex(1);
      auto* bar = window.find<QScrollArea>("verdictScroll")->verticalScrollBar();
      bar->setValue(0);
      picture(window, QStringLiteral("verdict") + ending);
      bar->setValue(bar->maximum());
      picture(window, QStringLiteral("find-out-next") + ending);
      window->plan()->plots()->clearPlace();
      window->plan()->plots()->showRemains(false);
      window->plan()->showPlot(0);
    }
  }
  test::useStableLook(Theme::Light);
}

TEST_CASE("Pictures of the heat, drawn by hand", "[screenshots]") {
  AssessmentRunner::Model model;
  model.assess = [](const Snapshot&, std::stop_token, const TakeEarly&) { return *fake::firstGuess(); };
  model.findRemedies = [](const Snapshot&, const Assessment&, std::stop_token) { return std::vector<Remedy>(); };
  model.inDepth = [](const Snapshot&, const Assessment& first, std::stop_token) { return fake::deepened(first); };
  for (const Theme theme : test::pictureThemes()) {
    test::useStableLook(theme);
    const QString shade = test::shadeOf(theme);
    Window window(model);
    window.document().replace(fake::panel(), {});
    for (const QSize size : test::pictureSizes({QSize(1024, 768), QSize(1280, 800), QSize(1920, 1080)})) {
      const QString ending = QStringLiteral("-%1-").arg(size.width()) + shade;
      PlotDeck* deck = window->plan()->plots();
      window->resize(size);
      window.settle();
      REQUIRE(QTest::qWaitFor([&] { return !window->runner().isLookingDeeper(); }, 20000));
      window->plan()->showPlot(0);
      deck->showHeat(HeatView::Part);
      QTest::qWait(100);
      picture(window, QStringLiteral("heat-small") + ending);
      window->plan()->showPlot(3);
      deck->showHeat(HeatView::Work);
      picture(window, QStringLiteral("heat") + ending);
      deck->showHeat(HeatView::StillHand);
      picture(window, QStringLiteral("heat-still") + ending);
      deck->showHeat(HeatView::Part);
      window.find<QToolButton>("partHighest")->setChecked(true);
      QTest::qWait(100);  // the line of the limit comes a moment later
      picture(window, QStringLiteral("heat-part") + ending);
      window.find<QSlider>("partMoment")->setValue(60);
      picture(window, QStringLiteral("heat-moment") + ending);
    }
  }
  test::useStableLook(Theme::Light);
}

TEST_CASE("A picture without any spread", "[screenshots]") {
  AssessmentRunner::Model model = test::pictureModel();
  model.inDepth = {};
  Window window(model);
  openExample(window, {1280, 800});
  picture(window, QStringLiteral("no-spread"));
  window->plan()->plots()->showRemains(true);
  auto* bar = window.find<QScrollArea>("verdictScroll")->verticalScrollBar();
  bar->setValue(bar->maximum());
  picture(window, QStringLiteral("no-spread-remains"));
}

TEST_CASE("Pictures of every sample after its planned passes", "[screenshots]") {
  for (const char* name : {"lamp-bezel", "lamp-iron-bracket", "luggage-rack-bracket", "water-tank-lid"}) {
    Window window(test::pictureModel());
    window->resize(1280, 1000);
    bool looked = false;
    QObject::connect(&window->runner(), &AssessmentRunner::remediesFound, [&looked] { looked = true; });
    REQUIRE(window->openFile(test::dataFile(QStringLiteral("../../sample-projects/%1.bwright").arg(QLatin1String(name)))));
    REQUIRE(QTest::qWaitFor([&] { return looked; }, 60000));
    window->plan()->plots()->showRemains(true);
    picture(window, QStringLiteral("sample-") + QLatin1String(name));
  }
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
  Window window(test::pictureModel());
  openExample(window, {1280, 800});
  picture(window, QStringLiteral("plan-1280-scale-%1").arg(window->devicePixelRatioF()));
}

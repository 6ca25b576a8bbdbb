// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/support.h"
#include "ui/document/edits.h"
#include "ui/fields/chooser.h"
#include "ui/fields/quantity_field.h"
#include "ui/menus.h"
#include "ui/plan/plan_workspace.h"
#include "ui/plan/verdict_panel.h"
#include "ui/plots/plot_deck.h"
#include "ui/plots/plot_view.h"

#include "tests/support/catch.h"

#include <QAction>
#include <QApplication>
#include <QLabel>
#include <QLineEdit>
#include <QSlider>
#include <QTabBar>
#include <QToolButton>
#include <qcustomplot.h>

using namespace bw;
using test::Window;

TEST_CASE("In a narrow window the verdict is a tab, in a wide one a column", "[window]") {
  Window window;
  auto* tabs = window.find<QTabBar>("narrowTabs");
  auto* verdict = window->plan()->verdict();
  window->resize(1280, 800);
  QCoreApplication::processEvents();
  CHECK_FALSE(tabs->isVisible());
  CHECK(verdict->isVisible());
  CHECK(verdict->width() == PlanWorkspace::sideWidth);
  window->resize(1100, 800);
  QCoreApplication::processEvents();
  CHECK(tabs->isVisible());
  CHECK_FALSE(verdict->isVisible());
  tabs->setCurrentIndex(1);
  CHECK(verdict->isVisible());
  CHECK_FALSE(window->plan()->plots()->isVisible());
  CHECK(verdict->width() > PlanWorkspace::sideWidth);
  window->resize(1280, 800);
  QCoreApplication::processEvents();
  CHECK(verdict->isVisible());
  CHECK(window->plan()->plots()->isVisible());
}

TEST_CASE("Keys 1 to 4 bring a plot forward, but type digits in a field", "[window]") {
  Window window;
  window->setFocus();
  for (const int plot : {3, 2, 1, 0}) {
    QTest::keyClick(window.operator->(), static_cast<Qt::Key>(Qt::Key_1 + plot));
    CHECK(window->plan()->plots()->shownPlot() == plot);
  }
  auto* passes = window.field("passes");
  window.type(passes, "3");
  CHECK(window.document().settings().passes == 3);
  CHECK(window->plan()->plots()->shownPlot() == 0);
}

TEST_CASE("Plans are chosen, duplicated, renamed and deleted from the top bar", "[window]") {
  Window window;
  auto* plan = window.find<Chooser>("plan");
  CHECK(plan->currentText() == "first guess");
  window.find<QAction>("duplicatePlan")->trigger();
  CHECK(plan->count() == 3);
  CHECK(plan->currentText() == "first guess 2");
  window.asker.texts = {"slow and cool", "bold"};
  window.find<QAction>("renamePlan")->trigger();
  CHECK(window.asker.told.size() == 1);
  window.find<QAction>("renamePlan")->trigger();
  CHECK(plan->currentText() == "bold");
  window.find<QAction>("removePlan")->trigger();
  CHECK(plan->count() == 2);
  CHECK(window.document().undoStack().count() == 3);
  while (window.document().undoStack().canUndo()) window.document().undoStack().undo();
  CHECK(window.document().project() == test::panel());
}

TEST_CASE("Another plan shows its own settings, and its result", "[window]") {
  Window window;
  auto* plan = window.find<Chooser>("plan");
  plan->setCurrentIndex(1);
  emit plan->activated(1);
  window.settle();
  CHECK(window.field("passes")->edit()->text() == "5");
  CHECK(window->assessment()->plan == "slow and cool");
}

TEST_CASE("A project that cannot be assessed says why, and recovers with undo", "[window]") {
  auto model = test::quickModel();
  auto quick = model.assess;
  model.assess = [quick](const Snapshot& snapshot, std::stop_token stop, const TakeEarly& early) {
    if (snapshot.project->coat.empty()) throw Unusable("no layer: at least one is accepted");
    return quick(snapshot, stop, early);
  };
  Window window(model);
  const auto first = window->assessment();
  while (!window.document().project().coat.empty()) edits::removeLayer(window.document(), 0);
  window.settle();
  CHECK(window->assessment() != nullptr);
  window.document().undoStack().undo();
  window.settle();
  CHECK(window->assessment() != first);
}

TEST_CASE("A part of the work is asked for beside the project: the map shows it, and there is nothing to undo", "[window]") {
  Window window(shippedModel());
  auto* chooser = window.find<Chooser>("scene");
  chooser->setCurrentIndex(chooser->findData(QString::number(static_cast<int>(Scene::OneSwath))));
  emit chooser->activated(chooser->currentIndex());
  window.settle();
  CHECK(window->assessment()->scene.scene == Scene::OneSwath);
  REQUIRE(window->assessment()->sceneMap);
  CHECK(window->plan()->plots()->plot(0)->statement().contains("One swath"));
  CHECK_FALSE(window.document().undoStack().canUndo());
  CHECK_FALSE(window.document().isModified());
  window.type(window.field("passes"), "3");
  window.settle();
  CHECK(window->assessment()->scene.scene == Scene::OneSwath);  // the next edit keeps to it
}

TEST_CASE("The theme changes at run time", "[window]") {
  Window window;
  CHECK_FALSE(isDark(QApplication::palette()));
  window.find<QAction>("theme-dark")->trigger();
  QCoreApplication::processEvents();
  CHECK(isDark(window->palette()));
  for (const QWidget* part : window->findChildren<QWidget*>()) {
    if (part->property("primary").toBool()) continue;  // the accent is pale where all else is dark
    INFO(part->metaObject()->className() << ' ' << part->objectName().toStdString());
    CHECK(isDark(part->palette()));
  }
  window.find<QAction>("theme-light")->trigger();
  QCoreApplication::processEvents();
  CHECK_FALSE(isDark(window->palette()));
  test::useStableLook(Theme::Light);
}

TEST_CASE("Every field and button of the plan can be named by assistive technology and explains itself", "[window]") {
  Window window;
  window.find<QToolButton>("allSettings")->setChecked(true);
  window.find<QToolButton>("editPart")->setChecked(true);
  for (const auto* field : window->findChildren<QuantityField*>()) {
    INFO(field->objectName().toStdString());
    CHECK_FALSE(field->edit()->accessibleName().isEmpty());
    CHECK(field->edit()->toolTip().endsWith('.'));
    CHECK_FALSE(field->objectName().isEmpty());
  }
  for (const auto* button : window.find<QWidget>("topBar")->findChildren<QToolButton*>()) {
    INFO(button->objectName().toStdString());
    CHECK_FALSE(button->toolTip().isEmpty());
  }
}

TEST_CASE("The result in depth comes without moving anything: zoom, pass, place, focus and what is folded stay", "[window][remains]") {
  Window window(shippedModel());
  int arrived = 0;
  QObject::connect(&window->runner(), &AssessmentRunner::assessed, [&arrived] { ++arrived; });
  const auto inDepth = [&] { return window->assessment() != nullptr && window->assessment()->ranges.has_value(); };
  REQUIRE(QTest::qWaitFor(inDepth, 90000));
  PlotDeck* deck = window->plan()->plots();
  QTest::mouseClick(deck->plot(0)->findChild<QToolButton*>("viewRemains"), Qt::LeftButton);
  auto* stepper = window.find<QSlider>("passStepper");
  stepper->setValue(1);
  QTest::mouseClick(deck->plot(0)->canvas(), Qt::LeftButton, Qt::NoModifier, deck->plot(0)->canvas()->rect().center());
  deck->plot(0)->canvas()->xAxis->setRange(-3, 3);
  auto* words = window.find<QLabel>("coatLeft");
  CHECK(words->text().startsWith("Picked place"));
  for (auto* other : window->findChildren<QSlider*>("passStepper")) CHECK(other->value() == 1);
  arrived = 0;
  window.type(window.field("power"), "80");
  const QWidget* focus = QApplication::focusWidget();
  REQUIRE(QTest::qWaitFor([&] { return arrived == 1; }, 20000));
  QCoreApplication::processEvents();
  if (arrived == 1) {  // between the two: the old map is still there
    CHECK_FALSE(inDepth());
    CHECK(deck->plot(0)->emptyText().isEmpty());
    CHECK(deck->plot(0)->statement().startsWith("After pass 1"));
  }
  REQUIRE(QTest::qWaitFor(inDepth, 90000));
  CHECK(arrived == 2);
  CHECK(QApplication::focusWidget() == focus);
  for (auto* other : window->findChildren<QSlider*>("passStepper")) CHECK(other->value() == 1);
  CHECK(deck->plot(0)->canvas()->xAxis->range().lower == Catch::Approx(-3));
  CHECK(words->text().startsWith("Picked place"));
  window->document().replace(test::panel(), {});
  CHECK_FALSE(words->text().startsWith("Picked place"));  // the place was on another part
}

TEST_CASE("Another part or plan is opened without the errors of the one before", "[window]") {
  Window window;
  auto* passes = window.field("passes");
  window.type(passes, "many");
  REQUIRE_FALSE(passes->problem().isEmpty());
  SECTION("another part") { window.document().replace(test::panel(), {}); }
  SECTION("another plan") {
    edits::duplicatePlan(window.document());
    window.document().show({0, 0});
    window.type(passes, "many");
    window.document().show({1, 0});
  }
  CHECK(passes->problem().isEmpty());
  CHECK(passes->edit()->text() != "many");
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/support.h"
#include "ui/fields/chooser.h"
#include "ui/fields/quantity_field.h"
#include "ui/plan/plan_workspace.h"
#include "ui/plan/verdict_panel.h"
#include "ui/plots/plot_deck.h"
#include "ui/plots/plot_view.h"

#include "tests/support/catch.h"

#include <QCheckBox>
#include <QLabel>
#include <QLineEdit>
#include <QToolButton>
#include <qcustomplot.h>

using namespace bw;
using test::Window;

namespace {

/// The greatest value of any curve in the plot across the swath, read from what is drawn.
double highestDose(Window& window) {
  double highest = 0;
  const QCustomPlot* plot = window->plan()->plots()->plot(1)->canvas();
  for (int index = 0; index < plot->graphCount(); ++index) {
    bool found = false;
    const double upper = plot->graph(index)->getValueRange(found).upper;
    if (found) highest = std::max(highest, upper);
  }
  return highest;
}

}  // namespace

TEST_CASE("Typing a power is one undo step, redraws the plots, and undo restores text, value and plots", "[settings]") {
  Window window(shippedModel());
  const double before = highestDose(window);
  REQUIRE(before > 0);
  auto* power = window.field("power");
  window.type(power, "42,5");
  window.settle();
  CHECK(window.document().settings().powerFraction == Catch::Approx(0.425));
  CHECK(window.document().undoStack().count() == 1);
  CHECK(highestDose(window) == Catch::Approx(before / 2).epsilon(1e-6));  // dose is in proportion to power
  window.click(window.find<QToolButton>("undo"));
  window.settle();
  CHECK(window.document().settings().powerFraction == 0.85);
  CHECK(power->edit()->text() == "85");
  CHECK(highestDose(window) == Catch::Approx(before));
}

TEST_CASE("Ctrl+Z in a field with nothing half typed undoes the project's last edit", "[settings]") {
  Window window;
  auto* passes = window.field("passes");
  window.type(passes, "4");
  REQUIRE(window.document().settings().passes == 4);
  QTest::keyClick(passes->edit(), Qt::Key_Z, Qt::ControlModifier);
  CHECK(window.document().settings().passes == 1);
}

TEST_CASE("Steps in the window merge into one undo step", "[settings]") {
  Window window;
  auto* travel = window.field("travel");
  window.click(travel->edit());
  for (int press = 0; press < 5; ++press) QTest::keyClick(travel->edit(), Qt::Key_Up);
  CHECK(window.document().settings().travelSpeed_m_s == Catch::Approx(0.013));
  CHECK(window.document().undoStack().count() == 1);
  CHECK(window.find<QLabel>("pace")->text().startsWith("10 cm in 7"));
}

TEST_CASE("What a file may hold a field shows and steps on, one at a time", "[settings]") {
  Window window;
  Project project = window.document().project();
  Settings& settings = project.plans.at(0).settings;
  settings.passes = 500;
  settings.travelSpeed_m_s = 2.5;
  window.document().replace(project, {});
  auto* passes = window.field("passes");
  window.click(passes->edit());
  QTest::keyClick(passes->edit(), Qt::Key_Down);
  CHECK(window.document().settings().passes == 499);
  window.type(passes, "1000");
  CHECK(passes->problem().isEmpty());
  window.type(passes, "1001");
  CHECK(passes->problem().contains("1000"));
  auto* travel = window.field("travel");
  window.click(travel->edit());
  QTest::keyClick(travel->edit(), Qt::Key_Up);
  CHECK(window.document().settings().travelSpeed_m_s == Catch::Approx(2.501));
}

TEST_CASE("A field's limits are those of the optic of the step shown", "[settings]") {
  Window window;
  Project project = window.document().project();
  Plan& plan = project.plans.at(0);
  Optic wide;
  wide.id = "wide";
  wide.maxWidth_m = 0.25;
  wide.maxHeight_m = 0.2;
  const auto machine = std::ranges::find(project.machines, plan.machine, &Machine::id);
  REQUIRE(machine != project.machines.end());
  machine->optics = {wide};
  plan.steps = {{"bulk", plan.machine, "wide", {}, plan.settings, {}, {}, {}},
                {"clean-up", plan.machine, {}, {}, plan.settings, {}, {}, {}}};
  window.document().replace(project, {});
  auto* width = window.field("frameWidth");
  window.type(width, "200");
  CHECK(width->problem().isEmpty());
  CHECK(window.document().settings().width_m == Catch::Approx(0.2));
  window.document().show({0, 1});
  window.type(width, "200");
  CHECK(width->problem().contains("80"));
}

TEST_CASE("A setting past the machine's reach is refused with the reach", "[settings]") {
  Window window;
  auto* width = window.field("frameWidth");
  window.type(width, "200");
  CHECK(width->problem().contains("80"));
  CHECK(window.document().settings().width_m == Catch::Approx(0.032));
  CHECK(window.document().undoStack().count() == 0);
}

TEST_CASE("Seven settings are shown, the rest unfold", "[settings]") {
  Window window;
  const auto shownNow = [&](const char* name) { return window.find<QWidget>(name)->isVisible(); };
  for (const char* name : {"power", "repetitionRate", "frameWidth", "frameHeight", "lineSpacing", "travel", "stepOver", "passes"}) {
    INFO(name);
    CHECK(shownNow(name));
  }
  for (const char* name : {"pulseDuration", "focusOffset", "pattern", "scanSpeed", "oneWay", "edgeTrim", "beamOffInTurns", "travelAngle", "pause"}) {
    INFO(name);
    CHECK_FALSE(shownNow(name));
    window.find<QToolButton>("allSettings")->setChecked(true);
    CHECK(shownNow(name));
    window.find<QToolButton>("allSettings")->setChecked(false);
  }
}

TEST_CASE("A continuous machine has no pulses to set, and offers only the patterns of one axis", "[settings]") {
  Window window;
  window.find<QToolButton>("allSettings")->setChecked(true);
  auto* machine = window.find<Chooser>("machine");
  machine->setCurrentIndex(1);
  emit machine->activated(1);
  CHECK_FALSE(window.find<QWidget>("repetitionRate")->isVisible());
  CHECK_FALSE(window.find<QWidget>("pulseDuration")->isVisible());
  CHECK(window.find<QWidget>("duty")->isVisible());
  CHECK(window.find<Chooser>("pattern")->count() == 2);
  window.click(window.find<QToolButton>("undo"));
  CHECK(window.find<QWidget>("repetitionRate")->isVisible());
  CHECK(machine->id() == "bench-300");
}

TEST_CASE("Fields are shown exactly where the pattern heeds them", "[settings]") {
  Window window;
  window.find<QToolButton>("allSettings")->setChecked(true);
  QCoreApplication::processEvents();
  const char* fields[] = {"frameWidth",      "frameHeight", "lineSpacing", "scanSpeed",
                          "oscillationRate", "oneWay",      "edgeTrim",    "beamOffInTurns"};
  const std::pair<Pattern, const char*> shown[] = {
      {Pattern::Line, "frameWidth scanSpeed oneWay edgeTrim beamOffInTurns"},
      {Pattern::Sine, "frameWidth oscillationRate edgeTrim"},
      {Pattern::Raster, "frameWidth frameHeight lineSpacing scanSpeed oneWay edgeTrim beamOffInTurns"},
      {Pattern::Crossed, "frameWidth frameHeight lineSpacing scanSpeed oneWay edgeTrim beamOffInTurns"},
      {Pattern::Circles, "frameWidth lineSpacing scanSpeed beamOffInTurns"},
      {Pattern::Spiral, "frameWidth lineSpacing scanSpeed"},
      {Pattern::TwoSine, "frameWidth frameHeight lineSpacing oscillationRate edgeTrim"}};
  auto* pattern = window.find<Chooser>("pattern");
  for (const auto& [which, names] : shown) {
    pattern->setCurrentIndex(pattern->findData(QString::number(static_cast<int>(which))));
    emit pattern->activated(pattern->currentIndex());
    QStringList seen;
    for (const char* name : fields)
      if (window.find<QWidget>(name)->isVisible()) seen << name;
    CHECK(seen.join(' ').toStdString() == names);
    const bool round = which == Pattern::Circles || which == Pattern::Spiral;
    CHECK(window.field("frameWidth")->edit()->accessibleName() == (round ? "Diameter" : "Frame width"));
    CHECK(window.field("lineSpacing")->edit()->accessibleName() == (round ? "Ring spacing" : "Line spacing"));
  }
}

TEST_CASE("A swinging pattern starts with the rate at which its lines went to and fro, as one step", "[settings]") {
  Window window;
  const Settings before = window.document().settings();
  REQUIRE_FALSE(before.oscillationRate_Hz);
  auto* pattern = window.find<Chooser>("pattern");
  pattern->setCurrentIndex(pattern->findData(QString::number(static_cast<int>(Pattern::TwoSine))));
  emit pattern->activated(pattern->currentIndex());
  CHECK(window.document().settings().oscillationRate_Hz.value() == Catch::Approx(before.scanSpeed_m_s / before.width_m / 2));
  CHECK(window.document().undoStack().count() == 1);
  window.document().undoStack().undo();
  CHECK(window.document().settings() == before);
}

TEST_CASE("The hand's wander is typed, forgotten and undone", "[settings]") {
  Window window;
  window.find<QToolButton>("allSettings")->setChecked(true);
  QCoreApplication::processEvents();
  auto* wander = window.field("wander");
  CHECK(wander->edit()->text() == "don't know");
  window.type(wander, "15");
  CHECK(window.document().plan().hand->speedWander.value() == Catch::Approx(0.15));
  CHECK(window.document().undoStack().undoText() == "change the hand's wander");
  window.type(wander, "-");
  CHECK_FALSE(window.document().plan().hand->speedWander);
  window.type(wander, "80");
  CHECK(wander->problem().contains("60"));
  window.document().undoStack().undo();
  CHECK(wander->edit()->text() == "15");
  window.document().undoStack().undo();
  CHECK(window.document().project() == test::panel());
}

TEST_CASE("Arrows set the direction of travel", "[settings]") {
  Window window;
  window.find<QToolButton>("allSettings")->setChecked(true);
  QCoreApplication::processEvents();
  window.click(window.find<QToolButton>("travelAlong"));
  CHECK(window.document().settings().travelAngle_rad == 0);
  CHECK(window.find<QToolButton>("travelAlong")->isChecked());
  CHECK_FALSE(window.find<QToolButton>("travelAcross")->isChecked());
}

TEST_CASE("A remedy is applied as one step with its name, and undone", "[settings]") {
  Window window;
  REQUIRE(QTest::qWaitFor([&] { return window->remedies().size() == 1; }));
  emit window->plan()->verdict()->remedyChosen(0);
  CHECK(window.document().settings().beamOffInTurns);
  CHECK(window.document().undoStack().undoText() == "Beam off in turns");
  CHECK(window.find<QToolButton>("undo")->toolTip().contains("Beam off in turns"));
  window.click(window.find<QToolButton>("undo"));
  CHECK_FALSE(window.document().settings().beamOffInTurns);
}

TEST_CASE("The order of swaths is chosen among all settings, named in the menu, and undone", "[settings]") {
  Window window;
  auto* order = window.find<Chooser>("swathOrder");
  REQUIRE(order);
  CHECK_FALSE(order->isVisible());
  window.find<QToolButton>("allSettings")->setChecked(true);
  CHECK(order->isVisible());
  CHECK(order->currentText() == "side by side");
  order->setCurrentIndex(order->findText("every second first"));
  emit order->activated(order->currentIndex());
  CHECK(window.document().settings().swathOrder == SwathOrder::EverySecond);
  CHECK(window.document().undoStack().undoText() == "change the order of swaths");
  window.document().undoStack().undo();
  CHECK(window.document().settings().swathOrder == SwathOrder::SideBySide);
  CHECK(order->currentText() == "side by side");
}

TEST_CASE("A remedy on another machine takes that machine, and one undo gives it back", "[settings]") {
  AssessmentRunner::Model model = test::quickModel();
  model.findRemedies = [](const Snapshot& snapshot, const Assessment&, std::stop_token) {
    Remedy remedy;
    remedy.check = "evenness";
    remedy.label = "Take the other machine";
    remedy.machine = "yard-1500";
    remedy.settings = findPlan(*snapshot.project, snapshot.planName)->settings;
    remedy.settings.passes = 3;
    return std::vector<Remedy>{remedy};
  };
  Window window(model);
  REQUIRE(QTest::qWaitFor([&] { return window->remedies().size() == 1; }));
  emit window->plan()->verdict()->remedyChosen(0);
  CHECK(window.document().machine()->id == "yard-1500");
  CHECK(window.document().settings().passes == 3);
  CHECK(window.find<Chooser>("machine")->id() == "yard-1500");
  CHECK(window.document().undoStack().undoText() == "Take the other machine");
  window.document().undoStack().undo();
  CHECK(window.document().project() == test::panel());
  CHECK(window.find<Chooser>("machine")->id() == "bench-300");
}

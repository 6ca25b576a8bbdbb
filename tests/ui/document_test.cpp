// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/assess.h"
#include "core/library/shop_stock.h"
#include "core/start/typical_machines.h"
#include "tests/ui/support.h"
#include "ui/document/edits.h"

#include "tests/support/catch.h"

#include <QAction>

#include <memory>

using namespace bw;

namespace {

struct Opened {
  Opened() { document.replace(test::panel(), {}); }
  ProjectDocument document;
  QUndoStack& stack = document.undoStack();
  void power(double fraction, EditKind kind) { edits::setSetting(document, &Settings::powerFraction, "change the power", fraction, kind); }
};

}  // namespace

TEST_CASE("An edit is one undo step with a name, and undo restores the value", "[document]") {
  Opened opened;
  opened.power(0.5, EditKind::Whole);
  CHECK(opened.document.settings().powerFraction == 0.5);
  CHECK(opened.stack.count() == 1);
  CHECK(opened.stack.undoText() == "change the power");
  CHECK(opened.document.isModified());
  opened.stack.undo();
  CHECK(opened.document.project() == test::panel());
  CHECK_FALSE(opened.document.isModified());
}

TEST_CASE("Another project leaves nothing to undo, and the actions know", "[document]") {
  Opened opened;
  const std::unique_ptr<QAction> undo(opened.stack.createUndoAction(nullptr));
  opened.power(0.5, EditKind::Whole);
  CHECK(undo->isEnabled());
  opened.document.replace(test::panel(), {});
  CHECK_FALSE(undo->isEnabled());
}

TEST_CASE("Steps on one field merge and undo to the first value; typed values do not merge", "[document]") {
  Opened opened;
  for (const double power : {0.86, 0.87, 0.88}) opened.power(power, EditKind::Step);
  CHECK(opened.stack.count() == 1);
  opened.stack.undo();
  CHECK(opened.document.settings().powerFraction == 0.85);
  opened.power(0.5, EditKind::Whole);
  opened.power(0.6, EditKind::Whole);
  CHECK(opened.stack.count() == 2);
}

TEST_CASE("Steps do not merge over a moment that closes them", "[document]") {
  Opened opened;
  opened.power(0.86, EditKind::Step);
  opened.document.closeStep();
  opened.power(0.87, EditKind::Step);
  CHECK(opened.stack.count() == 2);
}

TEST_CASE("Steps that end where they began leave nothing to undo", "[document]") {
  Opened opened;
  opened.power(0.86, EditKind::Step);
  opened.power(0.85, EditKind::Step);
  CHECK(opened.stack.count() == 0);
  CHECK_FALSE(opened.document.isModified());
}

TEST_CASE("Steps on different fields, or on another plan, stay apart", "[document]") {
  Opened opened;
  opened.power(0.86, EditKind::Step);
  edits::setPasses(opened.document, 2, EditKind::Step);
  CHECK(opened.stack.count() == 2);
  opened.document.show({1, 0});
  edits::setPasses(opened.document, 7, EditKind::Step);
  CHECK(opened.stack.count() == 3);
}

TEST_CASE("Writing the value that is there already is no edit", "[document]") {
  Opened opened;
  opened.power(0.85, EditKind::Whole);
  CHECK(opened.stack.count() == 0);
}

TEST_CASE("Undo survives saving, and undoing past the save is unsaved again", "[document]") {
  Opened opened;
  opened.power(0.5, EditKind::Whole);
  opened.document.setSaved("/tmp/panel.bwright");
  CHECK_FALSE(opened.document.isModified());
  REQUIRE(opened.stack.canUndo());
  opened.stack.undo();
  CHECK(opened.document.isModified());
  opened.stack.redo();
  CHECK_FALSE(opened.document.isModified());
}

TEST_CASE("Undoing an edit of another plan shows that plan", "[document]") {
  Opened opened;
  opened.power(0.5, EditKind::Whole);
  opened.document.show({1, 0});
  opened.stack.undo();
  CHECK(opened.document.place().plan == 0);
}

TEST_CASE("Each edit undoes to the project it began with", "[document]") {
  Opened opened;
  ProjectDocument& document = opened.document;
  const auto layers = document.project().coat.size();
  const std::vector<std::function<void()>> all = {
      [&] { edits::rename(document, "Door"); },
      [&] { edits::setSubstrate(document, "brass"); },
      [&] {
        edits::setPartThickness(document, {0.001, 0.002, 0.003}, KnownFrom::Gauge);
      },
      [&] { edits::setPartWidth(document, 0.3); },
      [&] { edits::setPartHeight(document, 0.2); },
      [&] { edits::setFinish(document, Finish::Any); },
      [&] { edits::setBehind(document, {Behind::Foam}); },
      [&] { edits::setStartTemperature(document, 5); },
      [&] {
        ShopFacts facts = shopOf(document.project(), document.plan());
        facts.site.ambient_C = 6;
        facts.site.people = 2;
        facts.extraction.on = true;
        facts.prices.labourPerHour = 40;
        facts.currency = "EUR";
        edits::setShop(document, "change the shop", facts);
      },
      [&] {
        edits::setLayerComponents(document, 0, {{"lead", Presence::No}});
      },
      [&] {
        edits::takeMachine(document, {machineLike(MachineKind::Pulsed, 250, 1e-4), "library", 1});
      },
      [&] { edits::setLimit(document, "back_face_C", std::nullopt); },
      [&] { edits::setAreas(document, "remove an area", {}); },
      [&] { edits::addLayer(document, 2, Layer{}); },
      [&] { edits::removeLayer(document, 0); },
      [&] { edits::moveLayer(document, 0, layers - 1); },
      [&] { edits::renameLayer(document, 1, "ivory"); },
      [&] { edits::setLayerCoating(document, 1, "unknown"); },
      [&] { edits::setLayerThickness(document, 1, Range::exact(1e-4), KnownFrom::Gauge); },
      [&] { edits::setLayerKept(document, 4, true); },
      [&] { edits::setOscillationRate(document, 100); },
      [&] { edits::setPattern(document, Pattern::Spiral); },
      [&] { edits::setOneWay(document, true); },
      [&] { edits::setBeamOffInTurns(document, true); },
      [&] { edits::setSwathOrder(document, SwathOrder::EverySecond); },
      [&] { edits::applyOnMachine(document, "Another machine", "yard-1500", Settings{}); },
      [&] { edits::chooseMachine(document, "yard-1500"); },
      [&] { edits::addMachine(document, typicalMachines().back()); },
      [&] { edits::duplicatePlan(document); },
      [&] { edits::renamePlan(document, "second"); },
      [&] { edits::removePlan(document); },
  };
  for (std::size_t index = 0; index < all.size(); ++index) {
    INFO("edit " << index);
    document.show({0, 0});
    const Project before = document.project();
    all[index]();
    CHECK_FALSE(document.project() == before);
    CHECK_FALSE(opened.stack.undoText().isEmpty());
    opened.stack.undo();
    CHECK(document.project() == before);
  }
}

TEST_CASE("A machine of another kind brings settings that mean something on it", "[document]") {
  Opened opened;
  edits::chooseMachine(opened.document, "yard-1500");
  CHECK(opened.document.settings().pattern == Pattern::Line);
  CHECK(opened.document.settings().pulseDuration_s == 0);
  CHECK(opened.stack.count() == 1);
}

TEST_CASE("What helps on another machine brings machine and settings in one step", "[document]") {
  Opened opened;
  Settings settings = opened.document.settings();
  settings.passes = 9;
  edits::applyOnMachine(opened.document, "Take the yard's machine", "yard-1500", settings);
  CHECK(opened.document.machine()->id == "yard-1500");
  CHECK(opened.document.settings() == settings);
  CHECK(opened.stack.count() == 1);
  CHECK(opened.stack.undoText() == "Take the yard's machine");
  opened.stack.undo();
  CHECK(opened.document.project() == test::panel());
  edits::applyOnMachine(opened.document, "Nine passes", {}, settings);
  CHECK(opened.document.machine()->id == "bench-300");
  CHECK(opened.document.settings().passes == 9);
}

TEST_CASE("A remedy changes the step it was worked out for, whichever is shown", "[document]") {
  Opened opened;
  Project project = test::panel();
  Plan& plan = project.plans.at(0);
  plan.steps = {{"bulk", plan.machine, {}, {}, plan.settings, {}, {}, {}}, {"clean-up", plan.machine, {}, {}, plan.settings, {}, {}, {}}};
  opened.document.replace(project, {});
  opened.document.show({0, 1});
  Settings mended = plan.settings;
  mended.pause_s = 180;
  edits::applyRemedy(opened.document, Remedy{"temperature", "Wait 3 min between passes", "", mended, nullptr});
  const std::vector<Step>& steps = opened.document.plan().steps;
  CHECK(steps[0].settings.pause_s == 180);
  CHECK(steps[1].settings == plan.settings);
  CHECK(opened.document.place().step == 0);
  opened.stack.undo();
  CHECK(opened.document.project() == project);
}

TEST_CASE("In a plan of steps only the step shown changes its machine, and drops the optic of the one before", "[document]") {
  Opened opened;
  Project project = test::panel();
  Plan& plan = project.plans.at(0);
  plan.steps = {{"bulk", plan.machine, "long", {}, plan.settings, {}, {}, {}},
                {"clean-up", plan.machine, {}, {}, plan.settings, {}, {}, {}}};
  opened.document.replace(project, {});
  edits::applyOnMachine(opened.document, "Another", "yard-1500", plan.settings);
  const std::vector<Step>& steps = opened.document.plan().steps;
  CHECK(steps[0].machine == "yard-1500");
  CHECK_FALSE(steps[0].optic);
  CHECK(steps[1].machine == "bench-300");
}

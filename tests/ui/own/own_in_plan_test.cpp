// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/start/typical_machines.h"
#include "tests/ui/own/own_shop.h"
#include "tests/ui/recipes/recipe_support.h"
#include "ui/document/edits.h"
#include "ui/fields/chooser.h"
#include "ui/fields/quantity_field.h"
#include "ui/own/add_machine_page.h"
#include "ui/own/entry_editor.h"
#include "ui/own/machine_card_view.h"
#include "ui/own/machine_update_band.h"
#include "ui/own/machines_page.h"
#include "ui/own/shop_page.h"
#include "ui/start/start_page.h"
#include "ui/style/elided_label.h"

#include "tests/support/catch.h"

#include <QAbstractButton>
#include <QAction>
#include <QLineEdit>
#include <QPushButton>
#include <QRadioButton>
#include <QToolButton>

using namespace bw;
using test::RecipesWindow;

namespace {

/// As the page does it: on the desk's thread.
void saveCard(RecipesWindow& window, const Machine& machine, int revision) {
  window.recipes().desk().write([machine, revision](LibraryStore& store) -> LibraryDesk::Delivery {
    MachineCard card;
    card.machine = machine;
    store.saveMachine(card, revision);
    return {};
  });
  window.answered();
}

Machine hutMachine() {
  Machine machine = machineLike(MachineKind::Pulsed, 250, 1e-4);
  machine.id = "own-hut";
  machine.name = "hut machine";
  return machine;
}

Chooser* machineChooser(RecipesWindow& window) { return window.find<Chooser>("machine"); }

void chooseEntry(Chooser* chooser, const QString& text) {
  const int index = chooser->findText(text);
  INFO(text.toStdString());
  REQUIRE(index >= 0);
  chooser->setCurrentIndex(index);
  emit chooser->activated(index);
}

QStringList startOffers(QWidget* page) {
  QStringList offers;
  for (const auto* button : page->findChildren<QRadioButton*>()) {
    if (button->text().contains("spot ")) offers << button->text();
  }
  return offers;
}

}  // namespace

TEST_CASE("A machine of the shop is offered before the typical ones and is copied into the project in one step", "[own][choosers]") {
  RecipesWindow window(1);
  saveCard(window, hutMachine(), 0);
  window->showWorkspace(MainWindow::PlanWord);
  Chooser* chooser = machineChooser(window);
  const int own = chooser->findText("My shop: hut machine");
  REQUIRE(own > 0);
  CHECK(own < chooser->findText("Typical: 100 W pulsed"));
  const Project before = window.document().project();
  chooseEntry(chooser, "My shop: hut machine");
  CHECK(window.document().plan().machine == "own-hut");
  CHECK(chooser->currentText() == "hut machine");
  CHECK(chooser->findText("My shop: hut machine") < 0);
  REQUIRE(window.document().project().machineOrigins.size() == 1);
  CHECK(window.document().project().machineOrigins[0].revision == 1);
  CHECK(window.document().undoStack().count() == 1);
  window.document().undoStack().undo();
  CHECK(window.document().project() == before);
  CHECK(chooser->findText("My shop: hut machine") > 0);
}

TEST_CASE("The shop's copy of a typical machine comes beside the project's of the same id", "[own][choosers]") {
  RecipesWindow window(1);
  edits::addMachine(window.document(), typicalMachines()[1]);
  Machine own = typicalMachines()[1];
  own.M2 = 2.4;
  saveCard(window, own, 0);
  chooseEntry(machineChooser(window), "My shop: 300 W pulsed");
  CHECK(window.document().machine()->M2 == 2.4);
  CHECK(window.document().machine()->name == "300 W pulsed (2)");
  CHECK(findMachine(window.document().project(), "typical-300")->M2 == 1.8);
}

TEST_CASE("Add a machine is the last entry, leads to its page, and the machine can be chosen at once", "[own][choosers]") {
  RecipesWindow window(0);
  window->showWorkspace(MainWindow::PlanWord);
  Chooser* chooser = machineChooser(window);
  CHECK(chooser->itemText(chooser->count() - 1) == QString::fromUtf8("Add a machine…"));
  const QString before = chooser->id();
  chooseEntry(chooser, chooser->itemText(chooser->count() - 1));
  CHECK(chooser->id() == before);
  window.answered();
  auto* page = window.recipes().own()->newMachine();
  REQUIRE(page->isVisible());
  auto* make = page->findChild<QPushButton*>("makeMachine");
  window.click(make);
  CHECK(page->isVisible());  // it has no name yet
  QTest::keyClicks(page->findChild<QLineEdit*>("newMachineName"), "yard laser");
  window.type(window.field("newMachineWatts"), "350");
  window.click(make);
  window.answered();
  window.answered();
  EntryEditor* editor = window.recipes().own()->machineEditor();
  CHECK(editor->isVisible());
  CHECK(std::get<MachineCard>(editor->model().entry()).machine.name == "yard laser");
  CHECK(std::get<MachineCard>(editor->model().entry()).machine.ratedPower_W == 350);
  CHECK(chooser->findText("My shop: yard laser") > 0);
  window.click(window.find<QPushButton>("useEdited"));
  window.answered();
  CHECK(window.document().machine()->ratedPower_W == 350);
  CHECK(window.find<QWidget>("planWorkspace")->isVisible());
}

TEST_CASE("A card's machine goes into the open plan from where it is described", "[own][choosers]") {
  RecipesWindow window(1);
  saveCard(window, hutMachine(), 0);
  window.recipes().showOwn();
  window.answered();
  auto* card = window.recipes().own()->machines()->card("own-hut");
  REQUIRE(card);
  card->findChild<QPushButton*>("useMachine")->click();
  window.answered();
  CHECK(window.document().plan().machine == "own-hut");
  CHECK(window.find<QWidget>("planWorkspace")->isVisible());
}

TEST_CASE("A card that is saved on the way into the plan goes there as it was saved", "[own][choosers]") {
  RecipesWindow window(1);
  window.recipes().showOwn();
  window.answered();
  OwnPage* own = window.recipes().own();
  own->editMachine("typical-300");
  EntryEditor* editor = own->machineEditor();
  editor->findChild<QPushButton*>("makeOwnCopy")->click();
  EntryModel& model = editor->model();
  model.setData(model.index(model.rowOf("machine.hourly_cost"), model.valueColumn()), "31", Qt::EditRole);
  window.asker.unsaved = {UnsavedAnswer::Save};
  window.click(window.find<QPushButton>("useEdited"));
  window.answered();
  window.answered();
  CHECK(window.document().machine()->hourlyCost == 31);
}

TEST_CASE("The shop's machines are known when the program starts, before the recipes are looked at", "[own][choosers]") {
  QTemporaryDir folder;
  const QString path = folder.filePath("library.sqlite");
  {
    LibraryStore store(path.toStdString());
    MachineCard card;
    card.machine = hutMachine();
    store.saveMachine(card, 0);
  }
  MainWindow window({test::quickModel(), folder.path(), path});
  auto* chooser = window.findChild<Chooser*>("machine");
  CHECK(QTest::qWaitFor([&] { return chooser->findText("My shop: hut machine") > 0; }, 5000));
}

TEST_CASE("Start offers the shop's machines first and begins as the shop usually is", "[own][choosers]") {
  RecipesWindow window(1);
  Machine own = typicalMachines()[1];
  own.name = "our 300";
  saveCard(window, own, 0);
  window.recipes().desk().write([](LibraryStore& store) -> LibraryDesk::Delivery {
    ShopFacts facts;
    facts.currency = "EUR";
    facts.site.people = 2;
    facts.site.ambient_C = 9;
    facts.extraction.on = true;
    store.saveShop(facts);
    return {};
  });
  window.answered();
  window->openExample();
  window.click(window.find<QPushButton>("startMyPart"));
  auto* page = window.find<StartPage>("startPage");
  const QStringList offers = startOffers(page);
  REQUIRE(offers.size() > 2);
  CHECK(offers[0].contains("our 300"));
  CHECK(offers[0].contains("my shop"));
  CHECK(offers.filter("300 W pulsed, spot").isEmpty());  // the typical one it was made from
  window.click(window.find<QPushButton>("showMe"));
  const Project& project = window.document().project();
  CHECK(project.machines.at(0).name == "our 300");
  REQUIRE(project.machineOrigins.size() == 1);
  CHECK(project.machineOrigins[0].card == "typical-300");
  CHECK(project.currency == "EUR");
  CHECK(project.site->people == 2);
  CHECK(project.part.ambientTemperature_C == 9);
  CHECK(project.plans[0].extraction->on);
}

TEST_CASE("What a magnet told is kept when the metal is not known", "[own][start]") {
  RecipesWindow window(0);
  window->openExample();
  window.click(window.find<QPushButton>("startMyPart"));
  for (auto* button : window.find<StartPage>("startPage")->findChildren<QRadioButton*>()) {
    if (button->text() == "sticks") window.click(button);
  }
  CHECK(window.find<Chooser>("startMetal")->currentText().contains("some steel"));
  window.click(window.find<QPushButton>("showMe"));
  CHECK(window.document().project().part.substrate == "unknown-steel");
}

TEST_CASE("A card that was changed is offered to the project once, taken over in one step or declined", "[own][choosers]") {
  RecipesWindow window(1);
  saveCard(window, hutMachine(), 0);
  chooseEntry(machineChooser(window), "My shop: hut machine");
  window->showWorkspace(MainWindow::PlanWord);
  auto* band = window.find<MachineUpdateBand>("machineUpdateBand");
  CHECK_FALSE(band->isVisible());
  Machine changed = hutMachine();
  changed.spotDiameter_m = 1.3e-4;
  saveCard(window, changed, 1);
  REQUIRE(band->isVisible());
  CHECK(window.find<ElidedLabel>("machineUpdateText")->text().contains(QString::fromUtf8("was 100 µm, is 130 µm")));
  const Project before = window.document().project();
  const int steps = window.document().undoStack().count();
  window.click(window.find<QPushButton>("takeUpdate"));
  CHECK(window.document().machine()->spotDiameter_m == 1.3e-4);
  CHECK_FALSE(band->isVisible());
  CHECK(window.document().undoStack().count() == steps + 1);
  window.document().undoStack().undo();
  CHECK(window.document().project() == before);
  REQUIRE(band->isVisible());
  window.click(window.find<QPushButton>("declineUpdate"));
  CHECK_FALSE(band->isVisible());
  CHECK(window.document().machine()->spotDiameter_m == 1e-4);
  changed.spotDiameter_m = 1.5e-4;
  saveCard(window, changed, 2);
  CHECK(band->isVisible());
}

TEST_CASE("My shop is reached from the menu, saves by itself, and undoes its own changes", "[own][shop]") {
  RecipesWindow window(1);
  window->showWorkspace(MainWindow::PlanWord);
  window.find<QAction>("myShop")->trigger();
  window.answered();
  ShopPage* page = window.recipes().own()->shop();
  REQUIRE(page->isVisible());
  const auto type = [&](const char* name, const QString& text) {
    auto* field = window.field(name);
    page->ensureWidgetVisible(field);
    window.type(field, text);
  };
  type("usual-people", "3");
  type("usual-supply", "3,5");
  type("usual-labourPerHour", "45");
  page->flush();
  window.answered();
  ShopFacts kept = window.reader().shop();
  CHECK(kept.site.people == 3);
  CHECK(kept.site.supply_W == 3500);
  CHECK(kept.prices.labourPerHour == 45);
  CHECK(window.document().undoStack().count() == 0);
  page->undoStack().undo();
  page->flush();
  window.answered();
  CHECK_FALSE(window.reader().shop().prices.labourPerHour);
  CHECK(window.field("usual-labourPerHour")->edit()->text() == "don't know");
  type("usual-humidity", "300");  // is said to be wrong, and is not kept
  CHECK_FALSE(window.field("usual-humidity")->problem().isEmpty());
  page->flush();
  window.answered();
  CHECK_FALSE(window.reader().shop().site.humidity);
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/own/own_shop.h"
#include "ui/fields/quantity_field.h"
#include "ui/own/changes_page.h"
#include "ui/own/entry_editor.h"
#include "ui/own/entry_view.h"
#include "ui/own/machine_card_view.h"
#include "ui/own/machine_sketch.h"
#include "ui/own/machines_page.h"
#include "ui/own/materials_page.h"
#include "ui/own/three_way_model.h"
#include "ui/own/upkeep_mark.h"

#include "tests/support/catch.h"

#include <QLabel>
#include <QLineEdit>
#include <QListView>
#include <QPushButton>
#include <QToolButton>

using namespace bw;
using test::OwnShop;

namespace {

QPushButton* buttonOf(EntryEditor* editor, const char* name) { return editor->findChild<QPushButton*>(QLatin1String(name)); }
QString said(EntryEditor* editor, const char* name) { return editor->findChild<QLabel*>(QLatin1String(name))->text(); }

void type(EntryEditor* editor, const std::string& key, int column, const QString& text) {
  EntryModel& model = editor->model();
  REQUIRE(model.rowOf(key) >= 0);
  model.setData(model.index(model.rowOf(key), column), text, Qt::EditRole);
}

template <class T>
const LibraryEntry<T>& entryAt(const std::vector<LibraryEntry<T>>& entries, const std::string& id) {
  for (const auto& entry : entries) {
    if (idOf(OwnEntry(entry.value)) == id) return entry;
  }
  FAIL(id);
  throw std::logic_error("unreachable");
}

}  // namespace

TEST_CASE("A shipped coating is read-only; an own copy is made, changed, saved and reset with what is lost shown", "[own]") {
  OwnShop shop;
  shop.page().showTab(OwnPage::Coatings);
  EntryEditor* editor = shop.page().coatings()->editor();
  shop.page().coatings()->choose("alkyd-white");
  REQUIRE(editor->id() == "alkyd-white");
  CHECK(editor->model().isReadOnly());
  CHECK(buttonOf(editor, "saveEntry")->isHidden());
  buttonOf(editor, "makeOwnCopy")->click();
  CHECK_FALSE(editor->model().isReadOnly());
  CHECK(editor->hasUnsaved());
  CHECK(entryAt(shop.store().coatings(), "alkyd-white").origin == EntryOrigin::Shipped);  // nothing is written yet
  type(editor, "absorptance", EntryModel::Likely, "0.21");
  type(editor, "absorptance", EntryModel::Source, "patch on coach 14");
  buttonOf(editor, "saveEntry")->click();
  const auto saved = entryAt(shop.store().coatings(), "alkyd-white");
  CHECK(saved.origin == EntryOrigin::OwnCopy);
  CHECK(saved.value.absorptance.range.likely == 0.21);
  CHECK(saved.value.absorptance.source == "patch on coach 14");
  CHECK_FALSE(editor->hasUnsaved());
  // What was saved can still be undone, and saved again.
  editor->findChild<QToolButton*>("undoEntry")->click();
  CHECK(editor->hasUnsaved());
  buttonOf(editor, "saveEntry")->click();
  CHECK(entryAt(shop.store().coatings(), "alkyd-white").revision == 2);

  shop.asker.yes = {false};
  buttonOf(editor, "resetEntry")->click();
  CHECK(entryAt(shop.store().coatings(), "alkyd-white").origin == EntryOrigin::OwnCopy);
  shop.asker.yes = {true};
  buttonOf(editor, "resetEntry")->click();
  CHECK(entryAt(shop.store().coatings(), "alkyd-white").origin == EntryOrigin::Shipped);
  CHECK(editor->model().isReadOnly());
  CHECK(std::get<Coating>(editor->model().entry()) == *findCoating(shippedLibrary(), "alkyd-white"));
}

TEST_CASE("What a reset loses is told value by value", "[own]") {
  OwnShop shop;
  Coating own = *findCoating(shippedLibrary(), "alkyd-white");
  own.absorptance.range = {0.1, 0.2, 0.3};
  shop.store().saveCoating(own, 0);
  const OwnedThings things = shop.things();
  const QStringList lost = lostByReset(things, *findRecord(things, EntryKind::Coating, "alkyd-white"));
  REQUIRE(lost.size() == 1);
  CHECK(lost[0].startsWith("Light taken up: 0.1 to 0.3, likely 0.2 becomes "));
  own.id = "own-1";
  shop.store().saveCoating(own, 0);
  CHECK(lostByReset(shop.things(), *findRecord(shop.things(), EntryKind::Coating, "own-1"))[0].contains("never shipped"));
}

TEST_CASE("Changes are not lost by looking elsewhere", "[own]") {
  OwnShop shop;
  MaterialsPage* page = shop.page().metals();
  page->choose("mild-steel");
  EntryEditor* editor = page->editor();
  buttonOf(editor, "makeOwnCopy")->click();
  type(editor, "melting_C", EntryModel::Likely, "1500");
  const std::string other = shop.things().substrates[1].value.id;
  shop.asker.unsaved = {UnsavedAnswer::Cancel};
  page->choose(other);
  CHECK(editor->id() == "mild-steel");
  CHECK(page->list()->currentIndex().data().toString().startsWith("Mild steel"));
  CHECK(editor->hasUnsaved());
  shop.page().showTab(OwnPage::Machines);  // a tab is left without asking: nothing goes
  shop.show();
  CHECK(std::get<Substrate>(editor->model().entry()).melting_C.range.likely == 1500);
  shop.asker.unsaved = {UnsavedAnswer::Save};
  page->choose(other);
  CHECK(editor->id() == other);
  CHECK(entryAt(shop.store().substrates(), "mild-steel").value.melting_C.range.likely == 1500);
  // What was not taken cannot be saved; it stays.
  page->choose("mild-steel");
  type(editor, "melting_C", EntryModel::Likely, "hot");
  CHECK_FALSE(buttonOf(editor, "saveEntry")->isEnabled());
  shop.asker.unsaved = {UnsavedAnswer::Save};
  page->choose(other);
  CHECK(editor->id() == "mild-steel");
  shop.asker.unsaved = {UnsavedAnswer::Discard};
  page->choose(other);
  CHECK(editor->id() == other);
}

TEST_CASE("What somebody else saved meanwhile is not overwritten and can be looked at", "[own]") {
  OwnShop shop;
  MaterialsPage* page = shop.page().coatings();
  page->choose("alkyd-white");
  EntryEditor* editor = page->editor();
  buttonOf(editor, "makeOwnCopy")->click();
  type(editor, "note", EntryModel::Low, "mine");
  Coating theirs = *findCoating(shippedLibrary(), "alkyd-white");
  theirs.note = "theirs";
  shop.store().saveCoating(theirs, 0);
  buttonOf(editor, "saveEntry")->click();  // the page does not know yet: the library refuses
  CHECK(said(editor, "entryProblem").contains("changed meanwhile"));
  shop.show();
  CHECK(std::get<Coating>(editor->model().entry()).note == "mine");
  CHECK_FALSE(buttonOf(editor, "saveEntry")->isEnabled());
  buttonOf(editor, "takeNewer")->click();
  CHECK(std::get<Coating>(editor->model().entry()).note == "theirs");
  editor->findChild<QToolButton*>("undoEntry")->click();
  CHECK(std::get<Coating>(editor->model().entry()).note == "mine");
  buttonOf(editor, "saveEntry")->click();
  CHECK(entryAt(shop.store().coatings(), "alkyd-white").value.note == "mine");
}

TEST_CASE("A failed save is said and loses nothing; one more like it is an entry of its own", "[own]") {
  OwnShop shop;
  MaterialsPage* page = shop.page().coatings();
  page->choose("alkyd-white");
  EntryEditor* editor = page->editor();
  buttonOf(editor, "makeOwnCopy")->click();
  type(editor, "note", EntryModel::Low, "ours");
  shop.refuse = "The disk is full.";
  buttonOf(editor, "saveEntry")->click();
  CHECK(said(editor, "entryProblem") == "The disk is full.");
  CHECK(editor->hasUnsaved());
  buttonOf(editor, "saveEntry")->click();
  CHECK(said(editor, "entryProblem").isEmpty());
  shop.asker.texts = {QStringLiteral("Boiler white")};
  buttonOf(editor, "makeAnother")->click();
  CHECK(said(editor, "entryTitle") == "Boiler white");
  const auto made = entryAt(shop.store().coatings(), editor->id());
  CHECK(made.origin == EntryOrigin::Own);
  CHECK(made.value.note == "ours");
  CHECK_FALSE(editor->model().isReadOnly());
}

TEST_CASE("After an update the three columns stand beside each other; mine is kept or theirs taken", "[own]") {
  OwnShop shop;
  Coating own = *findCoating(shippedLibrary(), "alkyd-white");
  own.note = "ours";
  shop.store().saveCoating(own, 0);
  Substrate steel = shop.store().substrates().front().value;
  shop.store().saveSubstrate(steel, 0);
  shop.update([](Library& materials, std::vector<Machine>&) {
    for (Coating& coating : materials.coatings) {
      if (coating.id == "alkyd-white") coating.opticalDepth_m.range = Range::exact(33e-6);
    }
    materials.substrates.front().density_kg_m3.range = Range::exact(7777);
  });
  ThreeWayModel* model = shop.page().changes()->model();
  auto* keep = shop.find<QPushButton>("keepMine");
  REQUIRE(model->rowCount() > 0);
  keep->click();
  keep->click();
  CHECK(shop.store().shippedChanges().empty());
  CHECK(model->rowCount() == 0);
  CHECK(keep->isHidden());
  CHECK(entryAt(shop.store().coatings(), "alkyd-white").value.note == "ours");
  shop.update([](Library& materials, std::vector<Machine>&) { materials.substrates.front().density_kg_m3.range = Range::exact(7778); });
  CHECK(model->rowCount() > 0);
  shop.asker.yes = {true};
  shop.find<QPushButton>("takeShipped")->click();
  CHECK(shop.store().substrates().front().value.density_kg_m3.range.likely == 7778);
  CHECK(model->rowCount() == 0);
}

TEST_CASE("Cards tell the machines apart, one's own first, and what is due", "[own]") {
  OwnShop shop;
  shop.store().saveMachine(test::shedMachine(), 0);
  shop.show();
  MachineCardView* card = shop.page().machines()->card("shed-300");
  REQUIRE(card);
  auto* mark = card->findChild<UpkeepMark*>();
  CHECK(mark->accessibleName().startsWith("due for a check: last checked 138 days ago"));  // 2025-11-02 to 2026-03-20, by calendar
  CHECK(shop.page().machines()->card("typical-100")->findChild<UpkeepMark*>()->accessibleName().startsWith("not known"));
  const QString facts = factsOf(test::shedMachine()).join('\n').replace(QChar::Nbsp, ' ');
  for (const char* word :
       {"262 W", "narrow", "tip 20 mm wide", "41 h of beam since 2026-01-10", "Last check: 2025-11-02", "3 × cover glass"}) {
    INFO(word << " in " << facts.toStdString());
    CHECK(facts.contains(QString::fromUtf8(word)));
  }
  auto* days = shop.find<QuantityField>("checkEvery");
  days->edit()->setText("200");
  QTest::keyClick(days->edit(), Qt::Key_Return);
  CHECK(mark->accessibleName().startsWith("checked"));
  days->edit()->setText("90");
  QTest::keyClick(days->edit(), Qt::Key_Return);
}

TEST_CASE("A machine is edited behind its card; a scale bar is a round length", "[own]") {
  OwnShop shop;
  shop.store().saveMachine(test::shedMachine(), 0);
  shop.show();
  shop.page().editMachine("shed-300");
  EntryEditor* editor = shop.page().machineEditor();
  type(editor, "machine.hourly_cost", editor->model().valueColumn(), "21,5");
  editor->findChild<QToolButton*>("addPiece")->click();
  buttonOf(editor, "saveEntry")->click();
  const auto saved = entryAt(shop.store().machines(), "shed-300");
  CHECK(saved.value.machine.hourlyCost == 21.5);
  CHECK(saved.value.pieces.size() == 3);
  for (const auto& [most, round] : {std::pair{0.034, 0.02}, {0.099, 0.05}, {0.1, 0.1}, {1.9e-4, 1e-4}})
    CHECK(roundLength_m(most) == Catch::Approx(round));
}

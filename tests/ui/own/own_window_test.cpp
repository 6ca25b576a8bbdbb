// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/recipes/recipe_support.h"
#include "ui/fields/chooser.h"
#include "ui/own/entry_editor.h"
#include "ui/own/machines_page.h"
#include "ui/own/materials_page.h"
#include "ui/own/own_page.h"

#include "tests/support/catch.h"

#include <QPushButton>
#include <QTabBar>

using namespace bw;
using test::RecipesWindow;

TEST_CASE("What I own is reached by its word and from the machine chooser, and saves off the interface's thread", "[own]") {
  RecipesWindow window(3);
  window.answered();
  OwnPage* own = window.recipes().own();
  auto* chooser = window.find<Chooser>("machine");
  const QString before = chooser->id();
  window->showWorkspace(0);
  chooser->setCurrentIndex(chooser->findText(QString::fromUtf8("What I own…")));
  emit chooser->activated(chooser->currentIndex());
  CHECK(chooser->id() == before);
  CHECK(own->isVisible());
  window.answered();
  CHECK(own->machines()->card("typical-300"));
  CHECK(window.document().undoStack().count() == 0);

  own->showTab(OwnPage::Coatings);
  own->coatings()->choose("alkyd-white");
  EntryEditor* editor = own->coatings()->editor();
  editor->findChild<QPushButton*>("makeOwnCopy")->click();
  EntryModel& model = editor->model();
  model.setData(model.index(model.rowOf("note"), EntryModel::Low), "ours", Qt::EditRole);
  editor->findChild<QPushButton*>("saveEntry")->click();
  window.answered();
  CHECK_FALSE(editor->hasUnsaved());
  const auto coatings = window.reader().coatings();
  const auto saved = std::ranges::find(coatings, "alkyd-white", [](const auto& entry) { return entry.value.id; });
  REQUIRE(saved != coatings.end());
  CHECK(saved->origin == EntryOrigin::OwnCopy);
  CHECK(saved->value.note == "ours");
}

TEST_CASE("The window is not closed over changes to what I own without a question", "[own]") {
  RecipesWindow window(1);
  window.answered();
  window.recipes().showOwn();
  window.answered();
  OwnPage* own = window.recipes().own();
  own->editMachine("typical-300");
  EntryEditor* editor = own->machineEditor();
  editor->findChild<QPushButton*>("makeOwnCopy")->click();
  window.asker.yes = {false};
  CHECK_FALSE(window->close());
  window.asker.yes = {true};
  CHECK(window->close());
}

TEST_CASE("Undo in the editor is of the entry and not of the project", "[own]") {
  RecipesWindow window(1);
  window.answered();
  window.recipes().showOwn();
  window.answered();
  OwnPage* own = window.recipes().own();
  own->editMachine("typical-300");
  EntryEditor* editor = own->machineEditor();
  editor->findChild<QPushButton*>("makeOwnCopy")->click();
  EntryModel& model = editor->model();
  model.setData(model.index(model.rowOf("machine.hourly_cost"), model.valueColumn()), "30", Qt::EditRole);
  REQUIRE(model.undoStack().count() == 1);
  QWidget* view = editor->findChild<QWidget*>("entryValues");
  view->setFocus();
  QTest::keySequence(view, QKeySequence::Undo);
  CHECK(model.undoStack().index() == 0);
  CHECK(std::get<MachineCard>(model.entry()).machine.hourlyCost == 18);
}

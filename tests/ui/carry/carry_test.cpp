// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/carry_over.h"
#include "core/start/typical_machines.h"
#include "tests/support/some_recipes.h"
#include "tests/ui/recipes/recipe_support.h"
#include "ui/carry/carry_dialog.h"
#include "ui/carry/carry_lines.h"
#include "ui/document/edits.h"
#include "ui/recipes/find_panel.h"

#include "tests/support/catch.h"

#include <QLabel>
#include <QListWidget>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QTableView>
#include <QtTest>

#include <algorithm>
#include <atomic>

using namespace bw;
using test::RecipesWindow;

namespace {

CarryDialog* openDialog(RecipesWindow& window) {
  window.click(window.find<QPushButton>("carryOver"));
  window.answered();
  return static_cast<CarryDialog*>(window.dialog("carryDialog"));
}

QListWidget* machinesOf(CarryDialog* dialog) { return dialog->findChild<QListWidget*>("carryMachines"); }

/// Until all is known of the chosen machine.
void settled(CarryDialog* dialog) {
  REQUIRE(QTest::qWaitFor(
      [&] { return dialog->work().after() && dialog->work().forecastAfter().complete && dialog->work().forecastBefore().complete; },
      60000));
  QCoreApplication::processEvents();
}

QStringList textsIn(QWidget* widget) {
  QStringList texts;
  for (const QLabel* label : widget->findChildren<QLabel*>()) texts << label->text();
  return texts;
}

void chooseKind(CarryDialog* dialog, const QString& kind) {
  QListWidget* list = machinesOf(dialog);
  for (int row = 0; row < list->count(); ++row) {
    if (!list->item(row)->text().contains("\n" + kind)) continue;
    list->setCurrentRow(row);
    return settled(dialog);
  }
  FAIL("no such machine in the list");
}

Machine shedMachine() {
  Machine machine = typicalMachines().front();
  machine.id = "shed-laser";
  machine.name = "Shed laser";
  return machine;
}

void ownOne(RecipesWindow& window) {
  window.recipes().desk().write([](LibraryStore& store) -> LibraryDesk::Delivery {
    MachineCard card;
    card.machine = shedMachine();
    store.saveMachine(card, 0);
    return {};
  });
  window.answered();
}

}  // namespace

TEST_CASE("Machines are offered by kind, power and wavelength, the own ones first, the recipe's own never", "[carry][window]") {
  RecipesWindow window(12);
  ownOne(window);  // after the library was opened
  window.chooseFirst(RecipeState::Draft);
  const std::string own = mainMachine(window.recipes().page()->detail()->shown)->name;
  CarryDialog* dialog = openDialog(window);
  QListWidget* list = machinesOf(dialog);
  REQUIRE(list->count() == static_cast<int>(typicalMachines().size()));  // one own more, one of them the recipe's
  CHECK(list->item(0)->text().contains("Shed laser"));
  CHECK(list->item(0)->text().contains(machineFacts(shedMachine())));
  CHECK(list->item(0)->text().contains("the shop's own"));
  CHECK(list->item(1)->text().contains("comes with the program"));
  for (int row = 0; row < list->count(); ++row) CHECK_FALSE(list->item(row)->text().startsWith(QString::fromStdString(own) + "\n"));
  CHECK(list->hasFocus());
  CHECK_FALSE(list->accessibleName().isEmpty());
  settled(dialog);
  for (const char* next : {"carryScroll", "carryClose", "carryApply", "carryKeep"}) {
    QTest::keyClick(dialog->focusWidget(), Qt::Key_Tab);
    CHECK(dialog->focusWidget()->objectName() == next);
  }
  dialog->setWritable(false, "why");
  CHECK_FALSE(dialog->findChild<QPushButton*>("carryKeep")->isEnabled());
  CHECK(dialog->findChild<QPushButton*>("carryKeep")->toolTip() == "why");
  CHECK(dialog->findChild<QPushButton*>("carryApply")->isEnabled());
}

TEST_CASE("What is kept and what gave stands beside each other with the reason, and nothing is called proven", "[carry][window]") {
  RecipesWindow window(12);
  window.chooseFirst(RecipeState::Proven);
  CarryDialog* dialog = openDialog(window);
  for (int row = 0; row < machinesOf(dialog)->count(); ++row) {
    machinesOf(dialog)->setCurrentRow(row);
    settled(dialog);
    const CarriedRecipe expected = carriedTo(dialog->work().before(), *dialog->work().machine());
    CHECK(dialog->work().after()->version == expected.version);
    const QStringList texts = textsIn(dialog->findChild<QWidget*>("carriedLines"));
    REQUIRE_FALSE(expected.carried.empty());
    for (const Carried& one : expected.carried) {
      CHECK(texts.contains(QString::fromStdString(one.before)));
      CHECK(texts.contains(QString::fromStdString(one.after)));
      CHECK(texts.contains(one.kept ? QString("kept") : "no: " + QString::fromStdString(one.why)));
    }
    CHECK(dialog->findChild<QWidget*>("carryNotice")->accessibleName().startsWith("Planned, not proven"));
  }
}

TEST_CASE("Between pulses and none it says what cannot be carried over at all", "[carry][window]") {
  RecipesWindow window(0);
  window.recipes().desk().write([](LibraryStore& store) -> LibraryDesk::Delivery {
    for (unsigned n = 0; n < 40; ++n) {
      Recipe recipe = test::SomeRecipes::number(n);
      if (mainMachine(recipe.version)->kind != MachineKind::Pulsed) continue;
      store.saveRecipe(recipe);
      return {};
    }
    return {};
  });
  window.answered();
  REQUIRE(window.reader().recipeCount() == 1);
  window.chooseFirst(window.reader().recipe(window.reader().recipeIds()[0]).state);
  CarryDialog* dialog = openDialog(window);
  chooseKind(dialog, "continuous");
  CHECK(dialog->findChild<QWidget*>("carryNotice")->accessibleName().contains("one machine pulses, the other does not"));
  CHECK(dialog->findChild<QWidget*>("carryNotice")->accessibleName().contains("peak fluence"));
  chooseKind(dialog, "pulsed");
  CHECK_FALSE(dialog->findChild<QWidget*>("carryNotice")->accessibleName().contains("one machine pulses"));
}

TEST_CASE("It is kept as a draft of its own with its prediction and where it came from", "[carry][window]") {
  RecipesWindow window(12);
  const std::string from = window.chooseFirst(RecipeState::Proven).toStdString();
  const Recipe before = window.reader().recipe(from);
  CarryDialog* dialog = openDialog(window);
  settled(dialog);
  const Machine machine = *dialog->work().machine();
  window.click(dialog->findChild<QPushButton*>("carryKeep"));
  QDialog* words = window.dialog("carryKeepDialog");
  CHECK(words->findChild<QLineEdit*>("name")->text() == QString::fromStdString(before.version.name + ", on the " + machine.name));
  CHECK(words->findChild<QPlainTextEdit*>("note")->toPlainText().startsWith(
      QString::fromStdString("Carried over from the " + mainMachine(before.version)->name + " to the " + machine.name)));
  window.fill(words, "initials", "hs");
  window.accept(words);
  auto store = window.reader();
  REQUIRE(store.recipeCount() == 13);
  const Recipe kept = store.recipe(store.recipeIds().back());
  CHECK(kept.state == RecipeState::Draft);
  CHECK_FALSE(kept.version.proof);
  CHECK(kept.version.savedBy == "hs");
  CHECK(*mainMachine(kept.version) == machine);
  CHECK(kept.version.predicted.modelVersion == modelVersion);
  CHECK(kept.version.predicted.fails == std::vector<std::string>{"message"});  // of the quick model's verdict
  CHECK(store.recipe(from) == before);
  CHECK(dialog->findChild<QLabel*>("carrySaid")->text().startsWith("Kept as"));
  CHECK(window.recipes().page()->detail()->recipe.id == kept.id);
}

TEST_CASE("It is applied after its changes were shown, and one undo takes it back", "[carry][window]") {
  RecipesWindow window(12);
  window.chooseFirst(RecipeState::Draft);
  const Project before = window.document().project();
  const QPointer<CarryDialog> dialog = openDialog(window);
  settled(dialog);
  const RecipeVersion carried = dialog->work().after()->version;
  window.click(dialog->findChild<QPushButton*>("carryApply"));
  QDialog* changes = window.dialog("applyDialog");
  CHECK(changes->findChild<QTableView*>("recipeChanges")->model()->rowCount() > 0);
  CHECK(changes->findChild<QWidget*>("applyWarnings")->accessibleName().contains("not proven on the"));
  CHECK(window.document().project() == before);
  QTest::keyClick(changes, Qt::Key_Return);
  window.settle();
  CHECK(window.document().plan().machine == carried.plan.machine);
  CHECK(window.document().settings() == carried.plan.settings);
  CHECK(window.document().undoStack().count() == 1);
  CHECK((!dialog || !dialog->isVisible()));
  CHECK(window.find<QWidget>("planWorkspace")->isVisible());
  window.document().undoStack().undo();
  CHECK(window.document().project() == before);
}

TEST_CASE("Of several machines in a row only the newest is told, and the others are stopped", "[carry][window]") {
  struct Seen {
    std::atomic<int> begun{0}, stopped{0};
  };
  const auto seen = std::make_shared<Seen>();
  AssessmentRunner::Model slow = test::quickModel();
  slow.assess = [seen](const Snapshot& snapshot, std::stop_token stop, const TakeEarly&) {
    const Plan& plan = snapshot.project->plans.front();
    if (plan.machine == "slow") {
      ++seen->begun;
      while (!stop.stop_requested()) QThread::msleep(1);
      ++seen->stopped;
      throw Stopped();
    }
    Assessment assessment;
    assessment.answer = plan.machine;
    return assessment;
  };
  Machine slowOne = shedMachine();
  slowOne.id = "slow";
  CarryWork work(test::SomeRecipes::number(1).version, slow);
  int told = 0;
  QObject::connect(&work, &CarryWork::forecast, [&] { told += work.forecastAfter().assessment != nullptr; });
  work.carryTo(slowOne);
  REQUIRE(QTest::qWaitFor([&] { return seen->begun == 1 && work.forecastBefore().complete; }, 20000));
  CHECK_FALSE(work.forecastAfter().complete);
  work.carryTo(shedMachine());
  REQUIRE(QTest::qWaitFor([&] { return work.forecastAfter().complete && seen->stopped == 1; }, 20000));
  CHECK(work.forecastAfter().assessment->answer == "shed-laser");
  CHECK(told == 1);
}

TEST_CASE("A recipe without its machine's profile cannot be carried over, and says why", "[carry][window]") {
  RecipesWindow window(0);
  window.recipes().desk().write([](LibraryStore& store) -> LibraryDesk::Delivery {
    Recipe recipe = test::SomeRecipes::number(1);
    recipe.version.machines.clear();
    store.saveRecipe(recipe);
    return {};
  });
  window.answered();
  window.chooseFirst(RecipeState::Draft);
  CarryDialog* dialog = openDialog(window);
  REQUIRE(QTest::qWaitFor([&] { return dialog->findChild<QWidget*>("carryProblem") != nullptr; }, 20000));
  CHECK(dialog->findChild<QWidget*>("carryProblem")->accessibleName().contains("does not hold its machine's profile"));
  CHECK_FALSE(dialog->findChild<QPushButton*>("carryKeep")->isEnabled());
  CHECK_FALSE(dialog->findChild<QPushButton*>("carryApply")->isEnabled());
}

TEST_CASE("Old and new predictions stand beside each other with their ranges", "[carry]") {
  Prediction before, after;
  before.numbers["thermal.back_C"] = {80, 96, 120};
  before.numbers["job.cost"] = {std::nullopt, 42, std::nullopt};
  after.numbers["thermal.back_C"] = {100, 118, 140};
  after.numbers["finish.etch_um"] = {1, 2, 3};
  const std::vector<BesideLine> lines = predictionsBeside(before, after);
  REQUIRE(lines.size() == 3);
  CHECK(lines[0].name == "Back face, highest");
  CHECK(lines[0].before.startsWith("80 to 120"));
  CHECK(lines[0].after.startsWith("100 to 140"));
  const auto cost = std::ranges::find(lines, QString("Cost"), &BesideLine::name);
  REQUIRE(cost != lines.end());
  CHECK(cost->before == "42");
  CHECK(cost->after.isEmpty());
}

TEST_CASE("Verdicts stand beside each other by their check", "[carry]") {
  Assessment before, after;
  before.verdict = {{"even", "Even?", Status::Meets, "even", ""}, {"cool", "Cool enough?", Status::Near, "close", ""}};
  after.verdict = {{"even", "Even?", Status::Fails, "stripes", ""}};
  const auto lines = verdictsBeside(&before, &after);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].before == Status::Meets);
  CHECK(lines[0].after == Status::Fails);
  CHECK(lines[0].message == "stripes");
  CHECK(lines[1].question == "Cool enough?");
  CHECK(lines[1].before == Status::Near);
  CHECK_FALSE(lines[1].after);
  CHECK(verdictsBeside(nullptr, nullptr).empty());
}

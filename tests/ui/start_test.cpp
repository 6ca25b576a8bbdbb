// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/library_file.h"
#include "tests/ui/support.h"
#include "ui/fields/chooser.h"
#include "ui/fields/quantity_field.h"
#include "ui/plan/plan_workspace.h"
#include "ui/plan/verdict_row.h"
#include "ui/plots/plot_deck.h"
#include "ui/start/colour_list.h"
#include "ui/start/example.h"
#include "ui/start/example_band.h"
#include "ui/start/start_page.h"
#include "ui/style/elided_label.h"

#include "tests/support/catch.h"

#include <QAbstractItemView>
#include <QAction>
#include <QCheckBox>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QPushButton>
#include <QRadioButton>
#include <QToolButton>

using namespace bw;
using test::Window;

namespace {

void choose(Chooser* chooser, const QString& text) {
  const int index = chooser->findText(text);
  REQUIRE(index >= 0);
  chooser->setCurrentIndex(index);
  emit chooser->activated(index);
}

QAbstractButton* withText(QWidget* page, const QString& start) {
  for (auto* button : page->findChildren<QAbstractButton*>()) {
    if (button->text().startsWith(start)) return button;
  }
  return nullptr;
}

}  // namespace

TEST_CASE("The example opens with a band that counts what fails, mends it step by step, and goes away", "[start]") {
  Window window;
  window->openExample();
  window.settle();
  auto* band = window.find<ExampleBand>("exampleBand");
  auto* text = window.find<ElidedLabel>("bandText");
  REQUIRE(band->isVisible());
  CHECK(text->text().contains("fails in one place"));
  auto* mend = window.find<QPushButton>("mend");
  REQUIRE(QTest::qWaitFor([&] { return mend->isEnabled(); }));
  CHECK(text->text().contains("Next, for “Even?”: Beam off in turns"));
  window.click(mend);
  window.settle();
  CHECK(window.document().settings().beamOffInTurns);
  CHECK(window.document().undoStack().undoText() == "Beam off in turns");
  CHECK(text->text().contains("fails nowhere"));
  window.click(window.find<QToolButton>("dismissBand"));
  CHECK_FALSE(band->isVisible());
}

TEST_CASE("The band says that a plan fails nowhere only where every check is known", "[start]") {
  ExampleBand band;
  auto* text = band.findChild<ElidedLabel*>("bandText");
  REQUIRE(text);
  const auto show = [&](std::vector<Status> states) {
    auto assessment = std::make_shared<Assessment>();
    for (const Status state : states) assessment->verdict.push_back({"check", "Check?", state, "", ""});
    band.setAssessment(assessment);
    return text->text();
  };
  CHECK(show({Status::Meets, Status::Near}).contains("fails nowhere"));
  CHECK_FALSE(show({Status::Meets, Status::NotKnown}).contains("fails nowhere"));
  CHECK(show({Status::Meets, Status::NotKnown}).contains("Not known: Check?"));
  band.setDone("Travel 0");
  CHECK_FALSE(show({Status::NotKnown, Status::NotKnown}).contains("fails nowhere"));
  CHECK(show({Status::NotKnown, Status::NotKnown}).contains("Not known: Check?"));
}

TEST_CASE("The band tells the present state after undo, in another plan and in another project", "[start]") {
  Window window;
  window->openExample();
  window.settle();
  auto* text = window.find<ElidedLabel>("bandText");
  auto* mend = window.find<QPushButton>("mend");
  REQUIRE(QTest::qWaitFor([&] { return mend->isEnabled(); }));
  window.click(mend);
  CHECK_FALSE(mend->isEnabled());  // what it offered belonged to the plan before
  window.settle();
  CHECK(text->text().startsWith("Done: Beam off in turns"));
  window.document().undoStack().undo();
  CHECK_FALSE(text->text().contains("Done"));
  CHECK_FALSE(text->text().contains("fails nowhere"));
  window.settle();
  CHECK(text->text().contains("fails in one place"));
  window.document().undoStack().redo();
  window.settle();
  CHECK_FALSE(text->text().contains("Done"));
  CHECK(text->text().contains("fails nowhere"));
  window.document().show({1, 0});
  CHECK_FALSE(text->text().contains("fails nowhere"));
  window.settle();
  window.asker.unsaved.push_back(UnsavedAnswer::Discard);
  window->openExample("lamp-bezel.bwright");
  CHECK(text->text() == "Invented example. Calculating…");
}

TEST_CASE("A failing plan of one's own has the band, too, until it is dismissed", "[start]") {
  Window window;
  auto* band = window.find<ExampleBand>("exampleBand");
  auto* text = window.find<ElidedLabel>("bandText");
  REQUIRE(band->isVisible());
  CHECK(text->text().startsWith("It fails in one place"));
  CHECK_FALSE(window.find<QPushButton>("startMyPart")->isVisible());  // nothing leads away from one's own work
  auto* mend = window.find<QPushButton>("mend");
  REQUIRE(QTest::qWaitFor([&] { return mend->isEnabled(); }));
  window.click(mend);
  window.settle();
  CHECK(band->isVisible());
  CHECK(text->text() == "Done: Beam off in turns. The plan fails nowhere.");
  window.click(window.find<QToolButton>("dismissBand"));
  window.document().undoStack().undo();
  window.settle();
  CHECK_FALSE(band->isVisible());
}

TEST_CASE("The band names the place that is left and goes there", "[start]") {
  Window window;
  window->openExample();
  window.settle();
  REQUIRE(QTest::qWaitFor([&] { return window.find<QPushButton>("mend")->isEnabled(); }));
  window->plan()->showPlot(3);
  window.click(window.find<QPushButton>("showPlace"));
  const auto* row = window.find<VerdictRowView>("row_evenness");
  REQUIRE(row);
  CHECK(row->isOpen());
  CHECK(row->isMarked());
  CHECK(window->plan()->plots()->shownPlot() == 1);
  window.click(window.find<QPushButton>("mend"));
  CHECK_FALSE(window.find<VerdictRowView>("row_evenness")->isMarked());
}

TEST_CASE("The first sample is there and can be assessed", "[start]") {
  const auto example = loadExample();
  REQUIRE(example);
  CHECK_NOTHROW(assess(*example, {}, shippedLibrary()));
}

TEST_CASE("Three questions, all answered with don't know, still give an answer", "[start]") {
  Window window(shippedModel());
  window->openExample();
  window.settle();
  window.click(window.find<QPushButton>("startMyPart"));
  auto* page = window.find<StartPage>("startPage");
  REQUIRE(page->isVisible());
  withText(page, "Don't know yet")->click();
  window.click(window.find<QPushButton>("showMe"));
  window.settle();
  CHECK_FALSE(page->isVisible());
  CHECK(window.document().project().part.substrate == "unknown-metal");
  CHECK(window.document().project().coat.at(0).knownFrom == KnownFrom::Unknown);
  CHECK(window.document().isModified());
  REQUIRE(window->assessment());
  CHECK_FALSE(window->assessment()->verdict.empty());
}

TEST_CASE("Answers become the project", "[start]") {
  Window window;
  window->openExample();
  window.click(window.find<QPushButton>("startMyPart"));
  auto* page = window.find<StartPage>("startPage");
  window.click(withText(page, "sticks"));
  auto* metal = window.find<Chooser>("startMetal");
  CHECK(metal->findText("Brass") < 0);
  choose(metal, "Cast iron (grey)");
  window.type(window.field("startThickness"), "5..7");
  choose(window.find<Chooser>("startCoat"), "several coats of paint");
  auto* colours = window.find<Chooser>("nextColour");
  choose(colours, "green");
  choose(colours, "cream");
  window.type(window.field("startTotal"), "120");
  window.click(withText(page, "Another"));
  window.type(window.field("startWatts"), "500");
  for (const char* behind : {"seam sealer", "rubber", "soldered joint"}) window.click(withText(page, behind));
  window.click(window.find<QPushButton>("showMe"));
  const Project& project = window.document().project();
  CHECK(project.part.substrate == "cast-iron");
  CHECK(project.part.thickness_m.high == Catch::Approx(7e-3));
  CHECK(project.part.behind == std::vector{Behind::Sealer, Behind::Rubber, Behind::Solder});
  REQUIRE(project.coat.size() == 2);
  CHECK(project.coat[0].name == "green");
  CHECK(project.coat[1].coating == "unknown-pale");
  CHECK(project.machines.at(0).ratedPower_W == 500);
}

TEST_CASE("Going back from the questions leaves the open project alone", "[start]") {
  Window window;
  window->openExample();
  const Project before = window.document().project();
  window.click(window.find<QPushButton>("startMyPart"));
  window.click(window.find<QPushButton>("startBack"));
  CHECK(window.document().project() == before);
  CHECK(window.find<QWidget>("planWorkspace")->isVisible());
}

TEST_CASE("All samples are offered, each marked as invented, in the help and where parts are chosen", "[start]") {
  Window window;
  REQUIRE(exampleFiles().size() == 5);
  CHECK(exampleFiles().front() == "carriage-side-panel.bwright");
  auto* examples = window.find<QAction>("examples");
  REQUIRE(examples);
  REQUIRE(examples->menu()->actions().size() == 5);
  for (const QAction* one : examples->menu()->actions()) CHECK(one->text().endsWith("(invented)"));
  CHECK(window.find<QToolButton>("part")->menu()->actions().contains(examples));
  for (QAction* one : examples->menu()->actions()) {
    one->trigger();
    CHECK(one->text().startsWith(QString::fromStdString(window.document().project().name).left(4)));
    CHECK(window.find<ExampleBand>("exampleBand")->isVisible());
  }
}

TEST_CASE("Keys in the closed list of colours open it and add no coat", "[start]") {
  ColourList list;
  list.show();
  auto* next = list.findChild<Chooser*>("nextColour");
  for (const int key : {Qt::Key_Down, Qt::Key_Down, Qt::Key_Up}) {
    next->setFocus();
    QTest::keyClick(next, static_cast<Qt::Key>(key));
    CHECK(next->view()->isVisible());
    next->hidePopup();
  }
  QTest::keyClick(next, Qt::Key_G);
  CHECK(next->view()->isVisible());
  next->hidePopup();
  CHECK(list.colours().empty());
}

TEST_CASE("Start offers all that can lie behind the metal; nothing stands alone", "[start]") {
  StartPage page;
  const auto box = [&](const char* text) { return static_cast<QCheckBox*>(withText(&page, text)); };
  for (const char* word : {"foam", "wax", "wood", "wiring", "paint", "structural glue", "seam sealer", "rubber", "soldered joint",
                           "closed cavity", "fuel", "nothing"}) {
    INFO(word);
    CHECK(box(word) != nullptr);
  }
  box("fuel")->click();
  box("wax")->click();
  CHECK_FALSE(box("nothing")->isChecked());
  box("nothing")->click();
  CHECK_FALSE(box("fuel")->isChecked());
  CHECK_FALSE(box("wax")->isChecked());
  box("fuel")->click();
  CHECK_FALSE(box("nothing")->isChecked());
  Project started;
  QObject::connect(&page, &StartPage::ready, [&](Project project) { started = std::move(project); });
  page.findChild<QPushButton*>("showMe")->click();
  CHECK(started.part.behind == std::vector<Behind>{Behind::Fuel});
}

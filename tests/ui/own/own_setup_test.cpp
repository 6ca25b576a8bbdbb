// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/own/own_shop.h"
#include "ui/own/fit_plot.h"
#include "ui/own/power_plot.h"
#include "ui/own/proposal_model.h"
#include "ui/own/readings_table.h"
#include "ui/own/setup_readings.h"
#include "ui/own/setup_sheet.h"

#include "tests/support/catch.h"

#include <QApplication>
#include <QClipboard>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTabWidget>
#include <QTableView>
#include <qcustomplot.h>

using namespace bw;
using test::OwnShop;

namespace {

void settle(OwnShop& shop) {
  REQUIRE(QTest::qWaitFor([&] { return !shop.page().setup()->isBusy(); }, 10000));
}

void fill(OwnShop& shop, SetupReadings::Kind kind, const QString& block) { shop.page().setup()->readings().table(kind).paste({}, block); }

int rowOf(const ProposalModel& model, const QString& name) {
  for (int row = 0; row < model.rowCount(); ++row) {
    if (model.index(row, 0).data().toString().startsWith(name)) return row;
  }
  return -1;
}

}  // namespace

TEST_CASE("Readings become a fit with its range and changes, each with its own tick, and then an own copy", "[own]") {
  OwnShop shop;
  shop.page().setUpMachine("typical-300");
  SetupSheet* sheet = shop.page().setup();
  auto* apply = shop.find<QPushButton>("applySetup");
  CHECK_FALSE(apply->isEnabled());
  fill(shop, SetupReadings::Marks, test::marksBlock());
  fill(shop, SetupReadings::Powers, test::powersBlock());
  fill(shop, SetupReadings::Times, test::timesBlock());
  settle(shop);
  ProposalModel& changes = sheet->changes();
  const int spot = rowOf(changes, "Spot"), power = rowOf(changes, "Delivered"), turn = rowOf(changes, "Turnaround");
  REQUIRE(spot >= 0);
  REQUIRE(power >= 0);
  REQUIRE(turn >= 0);
  QCustomPlot* canvas = sheet->plot()->canvas();
  CHECK(canvas->graph(3)->dataCount() == 7);
  CHECK(canvas->graph(2)->dataCount() > 10);
  CHECK(canvas->yAxis->label().contains("µm"));
  CHECK_FALSE(sheet->plot()->csv().isEmpty());
  changes.setData(changes.index(turn, 0), Qt::Unchecked, Qt::CheckStateRole);
  shop.find<QLineEdit>("setupInitials")->setText("mk");
  REQUIRE(apply->isEnabled());
  apply->click();
  const auto record = findRecord(shop.things(), EntryKind::Machine, "typical-300");
  CHECK(record->origin == EntryOrigin::OwnCopy);
  const auto& card = std::get<MachineCard>(record->entry);
  CHECK(card.machine.spotDiameter_m == Catch::Approx(133e-6).epsilon(0.05));  // the marks were read to 2 um
  CHECK(*card.machine.deliveredPower_W == Catch::Approx(260).epsilon(0.02));
  CHECK(card.machine.scan.turnaround_s == 250e-6);
  REQUIRE(card.checks.size() == 1);
  CHECK(card.checks[0].initials == "mk");
  CHECK(card.checks[0].date == "2026-03-20");
}

TEST_CASE("The tab says which fit is drawn, and without readings what to do next", "[own]") {
  OwnShop shop;
  shop.page().setUpMachine("typical-300");
  settle(shop);
  SetupSheet* sheet = shop.page().setup();
  CHECK(sheet->plot()->emptyText().contains("paste a block"));
  fill(shop, SetupReadings::Rates, test::ratesBlock());
  settle(shop);
  CHECK_FALSE(sheet->plot()->emptyText().isEmpty());
  shop.find<QTabWidget>("setupTabs")->setCurrentIndex(SetupReadings::Rates);
  CHECK(sheet->plot()->emptyText().isEmpty());
  CHECK(sheet->plot()->canvas()->xAxis->label().contains("kHz"));
}

TEST_CASE("Too few readings say why; a bad date and a failed save are said, and nothing is lost", "[own]") {
  OwnShop shop;
  shop.page().setUpMachine("typical-300");
  fill(shop, SetupReadings::Marks, "\t30\t\t\t60\n\t45\t\t\t84");
  settle(shop);
  CHECK(shop.page().setup()->plot()->statement().contains("cannot tell the spot"));
  CHECK(shop.page().setup()->changes().rowCount() == 0);
  fill(shop, SetupReadings::Powers, test::powersBlock());
  settle(shop);
  auto* apply = shop.find<QPushButton>("applySetup");
  auto* date = shop.find<QLineEdit>("setupDate");
  date->setText("yesterday");
  CHECK_FALSE(apply->isEnabled());
  CHECK(shop.find<QLabel>("setupState")->text().contains("is no date"));
  date->setText("2026-03-19");
  shop.refuse = "The disk is full.";
  apply->click();
  CHECK(apply->isEnabled());
  CHECK_FALSE(shop.page().setup()->readings().isEmpty());
  shop.asker.yes = {false};
  shop.find<QPushButton>("leaveSetup")->click();
  CHECK_FALSE(shop.page().setup()->isHidden());
}

TEST_CASE("A block is pasted into the chosen cell by the keyboard, and undone", "[own]") {
  OwnShop shop;
  shop.page().setUpMachine("typical-300");
  shop.page().resize(1280, 700);
  shop.page().show();
  shop.page().activateWindow();
  REQUIRE(QTest::qWaitForWindowActive(&shop.page()));
  QTableView* view = shop.find<QTabWidget>("setupTabs")->currentWidget()->findChild<QTableView*>();
  view->setFocus();
  view->setCurrentIndex(view->model()->index(0, 1));
  QApplication::clipboard()->setText("30\t\t\t60\n45\t\t\t84\n");
  QTest::keySequence(view, QKeySequence::Paste);
  CHECK(view->model()->index(1, 4).data() == "84");
  CHECK(view->currentIndex() == view->model()->index(0, 1));
  QTest::keyClicks(view, "3");
  auto* editor = view->viewport()->findChild<QLineEdit*>();
  REQUIRE(editor);
  QTest::keyClicks(editor, "5");
  QTest::keyClick(editor, Qt::Key_Return);
  QCoreApplication::processEvents();
  CHECK(view->model()->index(0, 1).data() == "35");
  QTest::keySequence(view, QKeySequence::Undo);
  QTest::keySequence(view, QKeySequence::Undo);
  CHECK(view->model()->rowCount() == 1);
  // Every control that takes the focus has a name.
  for (QWidget* widget : shop.page().findChildren<QWidget*>()) {
    if (widget->focusPolicy() == Qt::NoFocus || !widget->isVisibleTo(&shop.page()) || widget->inherits("QScrollArea") ||
        widget->inherits("QScrollBar"))
      continue;
    auto* button = qobject_cast<QAbstractButton*>(widget);
    auto* line = qobject_cast<QLineEdit*>(widget);
    const bool inner = line && line->parentWidget() && !line->parentWidget()->accessibleName().isEmpty();
    INFO(widget->metaObject()->className() << " " << widget->objectName().toStdString());
    CHECK((!widget->accessibleName().isEmpty() || inner || (button && !button->text().isEmpty())));
  }
}

TEST_CASE("The power of a machine is drawn with its corner, or it is said why not", "[own]") {
  PowerPlot plot;
  const MachineCard card = test::shedMachine();
  plot.setCurves(card.machine, powerAgainstRate(card.machine));
  CHECK(plot.canvas()->graphCount() == 4);
  CHECK(plot.emptyText().isEmpty());
  CHECK(plot.statement().contains("from"));
  CHECK(plot.csv().count('\n') > 8);
  const Machine steady = machineLike(MachineKind::Continuous, 1500, 400e-6);
  plot.setCurves(steady, powerAgainstRate(steady));
  CHECK(plot.emptyText().contains("Continuous beam"));
}

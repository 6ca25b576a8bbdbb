// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/csv_dialog.h"
#include "tests/ui/recipes/recipe_support.h"
#include "ui/fields/chooser.h"

#include "tests/support/catch.h"

#include <QCheckBox>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QTableView>
#include <QToolButton>
#include <QtTest>

using namespace bw;
using test::RecipesWindow;

namespace {

const QByteArray gauge = "No;DFT before [\xC2\xB5m];Remark\n1;62,5;edge\n2;61,5;\n3;OL;middle\n4;60,0;\n";
const QByteArray logged =
    "time [s];back [\xC2\xB0"
    "C]\n0;21\n60;88.5\n120;96.5\n180;70\n";

/// A window with one draft in its library, and the form that proves it open.
struct Proving {
  RecipesWindow window{0};
  QDialog* form = nullptr;
  CsvDialog* csv = nullptr;

  Proving() {
    window.click(window.find<QPushButton>("keepFirst"));
    QDialog* keep = window.dialog("keepDialog");
    window.fill(keep, "initials", "hs");
    window.accept(keep);
    window.click(window.find<QPushButton>("addTrial"));
    form = window.dialog("proveDialog");
    window.fill(form, "initials", "mk");
  }

  /// Until everything that was wished is worked out.
  void settled() {
    REQUIRE(QTest::qWaitFor([&] { return !csv->reader().isBusy(); }, 20000));
    QCoreApplication::processEvents();
  }

  void open(const QString& name, const QByteArray& bytes) {
    const QString path = QFileInfo(window.libraryPath()).dir().filePath(name);
    QFile file(path);
    REQUIRE(file.open(QIODevice::WriteOnly));
    REQUIRE(file.write(bytes) == bytes.size());
    file.close();
    window.asker.paths = {path};
    form->findChild<QPushButton*>("readingsFromFile")->click();
    csv = static_cast<CsvDialog*>(window.dialog("csvDialog"));
    settled();
  }

  void choose(const char* chooser, const QString& text) {
    auto* box = csv->findChild<Chooser*>(QLatin1String(chooser));
    REQUIRE(box);
    const int at = box->findText(text);
    REQUIRE(at >= 0);
    box->setFocus();
    while (box->currentIndex() != at) QTest::keyClick(box, box->currentIndex() < at ? Qt::Key_Down : Qt::Key_Up);
    settled();
  }

  QString text(const char* label) { return csv->findChild<QLabel*>(QLatin1String(label))->text(); }
  QPushButton* enter() { return csv->findChild<QPushButton*>("doIt"); }
  QAbstractItemModel* readings() { return form->findChild<QTableView*>("trialReadings")->model(); }

  void closed() {
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    csv = nullptr;
  }

  Recipe kept() {
    window.accept(form);
    auto store = window.reader();
    return store.recipe(store.recipeIds()[0]);
  }
};

}  // namespace

TEST_CASE("A gauge's file is shown, understood, summed up, and enters the trial with the file beside it", "[readings][window]") {
  Proving proving;
  proving.open("gauge.csv", gauge);
  CHECK(proving.csv->findChild<Chooser*>("csvSeparator")->currentText() == "semicolon");
  CHECK(proving.csv->findChild<Chooser*>("csvDecimal")->currentText() == "comma (62,5)");
  CHECK(proving.csv->findChild<Chooser*>("meaning1")->currentText() == "thickness before");
  CHECK(proving.csv->findChild<Chooser*>("unit1")->currentText() == QString::fromUtf8("µm"));
  CHECK(proving.csv->findChild<Chooser*>("meaning2")->currentText() == "left out");
  CHECK(proving.csv->findChild<Chooser*>("meaning1")->accessibleDescription().contains("its header says so"));
  auto* unread = proving.csv->findChild<QListWidget*>("csvUnread");
  REQUIRE(unread->count() == 1);
  CHECK(unread->item(0)->text().startsWith("Line 4: "));
  CHECK(unread->item(0)->text().contains("\"OL\" is not a number"));
  CHECK(proving.text("csvSummary")
            .startsWith(QString::fromUtf8(
                "thickness before: 3 readings, mean 61.33\u00a0µm, spread 1.3 (standard deviation), from 60 to 62.5\u00a0µm")));
  proving.window.click(proving.enter());
  proving.closed();
  CHECK(proving.form->findChild<QLabel*>("trialFiles")->text().contains("gauge.csv"));
  const Recipe recipe = proving.kept();
  REQUIRE(recipe.version.proof);
  const Trial& trial = recipe.version.proof->trials.back();
  CHECK(trial.readings == std::vector<Reading>{{"thickness_before_um", 62.5, {}, {}},
                                               {"thickness_before_um", 61.5, {}, {}},
                                               {"thickness_before_um", 60, {}, {}}});
  REQUIRE(recipe.version.proof->attachments.size() == 1);
  const Attachment& kept = recipe.version.proof->attachments[0];
  CHECK(kept.name == "gauge.csv");
  QFile copy(QString::fromStdString(proving.window.reader().attachmentPath(kept.sha256).string()));
  REQUIRE(copy.open(QIODevice::ReadOnly));
  CHECK(copy.readAll() == gauge);
  CHECK(recipe.state == RecipeState::Draft);  // a thickness before says nothing of what came off
  CHECK(proving.window.find<QToolButton>("photo")->accessibleName() == "readings from gauge.csv: a file");
}

TEST_CASE("Of a temperature log the highest value enters, and that is said", "[readings][window]") {
  Proving proving;
  proving.open("log.csv", logged);
  CHECK(proving.text("csvSummary").contains(QString::fromUtf8("96.5\u00a0°C, 120\u00a0s after the log began; the highest of 4 values")));
  CHECK(proving.text("csvSummary").contains("the highest value is entered"));
  proving.csv->findChild<QCheckBox*>("csvKeep")->setChecked(false);
  proving.window.click(proving.enter());
  proving.closed();
  const Recipe recipe = proving.kept();
  CHECK(recipe.version.proof->trials.back().readings == std::vector<Reading>{{"back_C", 96.5, {}, {}}});
  CHECK(recipe.version.proof->attachments.empty());
}

TEST_CASE("What a column is taken for, its unit and the format are chosen by hand", "[readings][window]") {
  Proving proving;
  proving.open("bare.csv", "value;other\n2.5;1\n2.4;1\n");
  CHECK_FALSE(proving.enter()->isEnabled());
  CHECK(proving.text("csvSummary").contains("Say above the columns"));
  proving.choose("meaning0", "thickness after");
  CHECK(proving.text("csvSummary").startsWith(QString::fromUtf8("thickness after: 2 readings, mean 2.45\u00a0µm")));
  proving.choose("unit0", "mil");
  CHECK(proving.text("csvSummary").startsWith(QString::fromUtf8("thickness after: 2 readings, mean 62.23\u00a0µm")));
  CHECK(proving.enter()->isEnabled());
  proving.choose("csvSeparator", "comma");
  CHECK(proving.text("csvProblem").startsWith("bare.csv holds no row of numbers"));
  CHECK_FALSE(proving.enter()->isEnabled());
  CHECK(proving.csv->findChild<Chooser*>("csvSeparator")->currentText() == "comma");
  proving.choose("csvSeparator", "semicolon");
  CHECK(proving.csv->findChild<QLabel*>("csvProblem")->isHidden());
  proving.choose("csvPurpose", "a thickness gauge's");
  proving.choose("meaning0", "thickness before");
  proving.csv->findChild<QCheckBox*>("csvMeans")->click();
  proving.window.click(proving.enter());
  proving.closed();
  REQUIRE(proving.readings()->rowCount() == 4);
  CHECK(proving.readings()->index(0, 1).data() == "2.45");
}

TEST_CASE("The heads are reached by Tab and come into sight", "[readings][window]") {
  QByteArray wide = "0", row = "1";
  for (int i = 1; i < 40; ++i) {
    wide += ";" + QByteArray::number(i);
    row += ";2";
  }
  Proving proving;
  proving.open("wide.csv", "a" + wide.replace(";", ";a") + "\n" + row + "\n" + row + "\n");
  auto* preview = proving.csv->findChild<QTableView*>("csvPreview");
  preview->setFocus();
  QTest::keyClick(preview, Qt::Key_Tab);
  CHECK(proving.csv->focusWidget()->objectName() == "meaning0");
  for (int i = 0; i < 20; ++i) QTest::keyClick(proving.csv->focusWidget(), Qt::Key_Tab);
  QWidget* head = proving.csv->focusWidget();
  CHECK(head->objectName() == "meaning20");  // what is left out has no unit to choose
  CHECK_FALSE(head->accessibleName().isEmpty());
  const QRect seen(head->mapTo(preview, QPoint()), head->size());
  CHECK(preview->rect().contains(seen));
}

TEST_CASE("A file that is none says so in one sentence and changes nothing", "[readings][window]") {
  Proving proving;
  proving.open("noise.bin", QByteArray("\x00\x01\x02\xff\xfe\x00 junk", 12));
  CHECK(proving.text("csvProblem").startsWith("noise.bin "));
  CHECK_FALSE(proving.enter()->isEnabled());
  QTest::keyClick(proving.csv, Qt::Key_Escape);
  proving.closed();
  CHECK(proving.form->isVisible());
  for (int row = 0; row < proving.readings()->rowCount(); ++row) CHECK(proving.readings()->index(row, 1).data().toString().isEmpty());
  CHECK_FALSE(proving.form->findChild<QPushButton*>("doIt")->isEnabled());  // still no trial
}

TEST_CASE("More readings than a trial should hold enter as their mean", "[readings][window]") {
  QByteArray many = "DFT before [um]\n";
  for (int i = 0; i < 500; ++i) many += i % 2 ? "60\n" : "62\n";
  Proving proving;
  proving.open("many.csv", many);
  CHECK(proving.csv->findChild<QCheckBox*>("csvMeans")->isChecked());
  CHECK_FALSE(proving.csv->findChild<QCheckBox*>("csvMeans")->isEnabled());
  CHECK(proving.text("csvSummary").contains("no more than 100"));
  REQUIRE(proving.csv->readings().size() == 1);
  CHECK(proving.csv->readings()[0].value == Catch::Approx(61).epsilon(1e-12));
  // deviation sqrt(500/499), Student's t of 499 degrees of freedom 1.6479 (tables, from memory, to four digits)
  CHECK(*proving.csv->readings()[0].uncertainty == Catch::Approx(1.6496).epsilon(1e-3));
}

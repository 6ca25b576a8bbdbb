// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "tests/support/fake_assessment.h"
#include "tests/ui/plots/shown_panel.h"
#include "ui/plan/answer_line.h"
#include "ui/plan/find_out_next.h"
#include "ui/plan/verdict_panel.h"
#include "ui/plan/verdict_row.h"
#include "ui/plan/working.h"
#include "ui/style/theme.h"

#include <QLabel>
#include <QPointer>
#include <QScrollArea>
#include <QScrollBar>
#include <QSignalSpy>
#include <QTest>
#include <QToolButton>

using namespace bw;
using namespace bw::test;

namespace {

void showGuess(VerdictPanel& panel) {
  panel.setAssessment(fake::firstGuess());
  panel.setRemedies(fake::remedies());
  panel.resize(300, 900);
  panel.show();
  panel.activateWindow();
  QCoreApplication::processEvents();
}

}  // namespace

TEST_CASE("Rows that are met fold, others open") {
  VerdictPanel panel;
  showGuess(panel);
  const auto now = fake::firstGuess();
  REQUIRE(panel.rows().size() == now->verdict.size());
  for (const VerdictRow& row : now->verdict)
    CHECK(rowOf(panel, row.check.c_str())->isOpen() == (row.status != Status::Meets && row.check != "safety"));
}

TEST_CASE("A row that is known before the rest is not faint with it, until a newer plan is assessed") {
  VerdictPanel panel;
  showGuess(panel);
  Assessment early;
  early.doseOnly = true;
  VerdictRow even = *std::ranges::find(fake::firstGuess()->verdict, "even", &VerdictRow::check);
  even.message = "Even all over.";
  early.verdict = {even};
  panel.setEarly(early);
  panel.setStale(true);
  for (const VerdictRowView* row : panel.rows()) CHECK(row->isPending() == (row->check() != "even"));
  panel.setOutdated();
  panel.setStale(true);
  for (const VerdictRowView* row : panel.rows()) CHECK(row->isPending());
  panel.setAssessment(fake::firstGuess());
  for (const VerdictRowView* row : panel.rows()) CHECK_FALSE(row->isPending());
}

TEST_CASE("A row is toggled by mouse and key, and stays as the person left it") {
  VerdictPanel panel;
  showGuess(panel);
  QTest::mouseClick(rowOf(panel, "time")->head(), Qt::LeftButton);
  CHECK(rowOf(panel, "time")->isOpen());
  rowOf(panel, "even")->head()->setFocus();
  QTest::keyClick(rowOf(panel, "even")->head(), Qt::Key_Space);
  CHECK_FALSE(rowOf(panel, "even")->isOpen());
  panel.setAssessment(fake::firstGuess());
  CHECK(rowOf(panel, "time")->isOpen());
  CHECK_FALSE(rowOf(panel, "even")->isOpen());
}

TEST_CASE("A row says its state in a word, and its sentence") {
  VerdictPanel panel;
  showGuess(panel);
  CHECK(rowOf(panel, "even")->head()->accessibleName() == "Even? fails");
  bool said = false;
  for (const QLabel* label : rowOf(panel, "even")->findChildren<QLabel*>()) said = said || label->text().contains("stripes will show");
  CHECK(said);
}

TEST_CASE("Remedies show under their row and report what is hovered and chosen") {
  VerdictPanel panel;
  showGuess(panel);
  QSignalSpy hovered(&panel, &VerdictPanel::remedyHovered), chosen(&panel, &VerdictPanel::remedyChosen);
  auto* wait = panel.findChild<RemedyButton*>(QStringLiteral("remedy2"));
  REQUIRE(wait != nullptr);
  CHECK(rowOf(panel, "temperature")->isAncestorOf(wait));
  CHECK(wait->text() == "Wait 90 s between passes");
  CHECK(wait->effect().contains("+6 min"));
  QEnterEvent enter(QPointF(5, 5), QPointF(5, 5), QPointF(5, 5));
  QCoreApplication::sendEvent(wait, &enter);
  QEvent leave(QEvent::Leave);
  QCoreApplication::sendEvent(wait, &leave);
  REQUIRE(hovered.count() == 2);
  CHECK(hovered[0][0].toInt() == 2);
  CHECK(hovered[1][0].toInt() == -1);
  QTest::mouseClick(wait, Qt::LeftButton);
  QCoreApplication::processEvents();
  REQUIRE(chosen.count() == 1);
  CHECK(chosen[0][0].toInt() == 2);
}

TEST_CASE("At most three remedies stand under a row, the best first") {
  std::vector<Remedy> many(5, fake::remedies()[0]);
  for (std::size_t i = 0; i < many.size(); ++i) many[i].label = "Way " + std::to_string(i);
  VerdictPanel panel;
  showGuess(panel);
  panel.setRemedies(many);
  const auto buttons = rowOf(panel, "even")->findChildren<RemedyButton*>();
  REQUIRE(buttons.size() == 3);
  CHECK(panel.findChild<RemedyButton*>(QStringLiteral("remedy0"))->text() == "Way 0");
  CHECK(panel.findChild<RemedyButton*>(QStringLiteral("remedy3")) == nullptr);
}

TEST_CASE("Choosing a remedy whose row is rebuilt at once is harmless") {
  VerdictPanel panel;
  showGuess(panel);
  QObject::connect(&panel, &VerdictPanel::remedyChosen, &panel, [&panel] { panel.setAssessment(fake::mended()); });
  QTest::mouseClick(panel.findChild<RemedyButton*>(QStringLiteral("remedy0")), Qt::LeftButton);
  QCoreApplication::processEvents();
  CHECK(panel.findChildren<RemedyButton*>().isEmpty());
}

TEST_CASE("What stops the work stands above all that fails, and open") {
  VerdictPanel panel;
  panel.resize(300, 700);
  Assessment now = *fake::firstGuess();
  now.verdict.push_back({"safety", "Air and eyes?", Status::Fails, "Do not start: fuel behind the metal.", ""});
  panel.setAssessment(std::make_shared<const Assessment>(now));
  CHECK(panel.rows().front()->check() == "safety");
  CHECK(panel.rows().front()->isOpen());
}

TEST_CASE("The cautions are always there, in short or in full") {
  VerdictPanel panel;
  panel.resize(300, 700);
  panel.show();
  auto* cautions = panel.findChild<QLabel*>(QStringLiteral("cautions"));
  REQUIRE(cautions != nullptr);
  CHECK(cautions->text().contains("laser safety officer"));
  Assessment now = *fake::firstGuess();
  const std::string longOne = "Lead in " + std::string(200, 'x') + ": test before the beam is on.";
  now.air.hazards = {{Harm::Fire, "Fuel behind the face: no work."},
                     {Harm::Fire, "Wax behind the face: it burns."},
                     {Harm::Lungs, longOne},
                     {Harm::Lungs, "Zinc: fever."},
                     {Harm::Filter, "Iron dust: thermite."}};
  panel.setAssessment(std::make_shared<const Assessment>(now));
  CHECK(cautions->isVisible());
  CHECK(cautions->text().contains("48"));
  // Fire first and all of it; of the others the worst, whole, and how many more.
  CHECK(cautions->text().indexOf("Fuel behind") < cautions->text().indexOf("Wax behind"));
  CHECK(cautions->text().indexOf("Wax behind") < cautions->text().indexOf("Eyes"));
  CHECK(cautions->text().contains(QString::fromStdString(longOne)));
  CHECK_FALSE(cautions->text().contains("thermite"));
  auto* more = panel.findChild<QToolButton*>(QStringLiteral("allCautions"));
  CHECK(more->text() == "2 more cautions");
  more->click();
  CHECK(cautions->text().contains("thermite"));
}

TEST_CASE("No text of the verdict is smaller than 12 px") {
  VerdictPanel panel;
  showGuess(panel);
  for (const QWidget* child : panel.findChildren<QWidget*>()) CHECK(QFontInfo(child->font()).pixelSize() >= space::leastFont);
}

TEST_CASE("The answer line shows the sentence and numbers that open their working") {
  AnswerLine line;
  line.setProject(fake::panel());
  CHECK_FALSE(line.sentence().isEmpty());
  line.setAssessment(fake::firstGuess());
  line.resize(1280, line.sizeHint().height());
  line.show();
  QCoreApplication::processEvents();
  CHECK(line.sentence() == QString::fromStdString(fake::firstGuess()->answer));
  auto* time = line.findChild<KeyNumber*>(QStringLiteral("job.total_time_s"));
  REQUIRE(time != nullptr);
  CHECK(time->text().startsWith("75"));
  QTest::mouseClick(time, Qt::LeftButton);
  auto* popup = time->findChild<QWidget*>(QStringLiteral("working"));
  REQUIRE(popup != nullptr);
  CHECK(popup->isVisible());
  popup->close();
}

TEST_CASE("The sentence keeps its room; numbers give way") {
  AnswerLine line;
  line.setAssessment(fake::firstGuess());
  const auto shown = [&line] {
    int count = 0;
    for (const KeyNumber* number : line.numbers()) count += number->isHidden() ? 0 : 1;
    return count;
  };
  line.resize(1400, 56);
  line.show();
  QCoreApplication::processEvents();
  const int wide = shown();
  line.resize(600, 56);
  QCoreApplication::processEvents();
  CHECK(shown() < wide);
  for (const KeyNumber* number : line.numbers()) CHECK((number->isHidden() || number->x() >= 300));
}

TEST_CASE("A problem stands in place of the answer and goes with the next one") {
  AnswerLine line;
  line.setAssessment(fake::firstGuess());
  line.setProblem(QStringLiteral("This plan has no machine."));
  CHECK(line.sentence() == "This plan has no machine.");
  CHECK(line.numbers().empty());
  line.setAssessment(fake::firstGuess());
  CHECK(line.sentence() == QString::fromStdString(fake::firstGuess()->answer));
}

TEST_CASE("A working shows formula, values and source") {
  const auto now = fake::firstGuess();
  const Working* working = findWorking(*now, "dose.mean_J_cm2");
  REQUIRE(working != nullptr);
  CHECK(findWorking(*now, "no such number") == nullptr);
  QWidget anchor;
  anchor.show();
  QPointer<QWidget> popup = openWorking(*working, &anchor);
  REQUIRE(popup != nullptr);
  QString all;
  for (const QLabel* label : popup->findChildren<QLabel*>()) all += label->text() + QLatin1Char('\n');
  CHECK(all.contains(QString::fromStdString(working->formula)));
  for (const std::string& value : working->values) CHECK(all.contains(QString::fromStdString(value)));
  CHECK(all.contains(QString::fromStdString(working->source)));
  QTest::keyClick(popup, Qt::Key_Escape);
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
  CHECK((popup == nullptr || !popup->isVisible()));
}

namespace {

Assessment judged(const std::string& plan, std::vector<Status> states) {
  Assessment now = *fake::firstGuess();
  now.plan = plan;
  now.verdict.clear();
  for (std::size_t i = 0; i < states.size(); ++i)
    now.verdict.push_back({"check" + std::to_string(i), "Question " + std::to_string(i) + "?", states[i],
                           "First sentence. Sentence of row " + std::to_string(i) + ".", "What to try."});
  return now;
}

std::vector<std::string> orderOf(const VerdictPanel& panel) {
  std::vector<std::string> order;
  for (const VerdictRowView* row : panel.rows()) order.push_back(row->check());
  return order;
}

void showShort(VerdictPanel& panel, const Assessment& assessment) {
  panel.setAssessment(std::make_shared<const Assessment>(assessment));
  panel.resize(300, 600);
  panel.show();
  QCoreApplication::processEvents();
}

}  // namespace

TEST_CASE("What fails stands first and open, then what is near its limit, what is not known, and what is met") {
  VerdictPanel panel;
  showShort(panel, judged("a", {Status::Meets, Status::NotKnown, Status::Near, Status::Fails}));
  CHECK(orderOf(panel) == std::vector<std::string>{"check3", "check2", "check1", "check0"});
  CHECK(panel.rows()[0]->isOpen());
  for (const std::size_t folded : {1U, 2U, 3U}) CHECK_FALSE(panel.rows()[folded]->isOpen());
  CHECK_FALSE(panel.rows()[0]->isUnfolded());
  CHECK(panel.findOutNext()->y() > panel.rows()[0]->y());
  CHECK(panel.findOutNext()->y() < panel.rows()[1]->y());
  panel.resize(300, VerdictPanel::roomyFrom);
  QCoreApplication::processEvents();
  CHECK(panel.rows()[2]->isOpen());
  CHECK(panel.rows()[0]->isUnfolded());
  showShort(panel, judged("a", {Status::Meets, Status::NotKnown, Status::Near}));
  CHECK(panel.rows()[0]->isOpen());
  CHECK_FALSE(panel.rows()[1]->isOpen());
}

TEST_CASE("No row says what a row above it has said") {
  VerdictPanel panel;
  showShort(panel, judged("a", {Status::Fails, Status::Fails}));
  const auto says = [&panel](std::size_t row) {
    QString all;
    for (const QLabel* label : panel.rows()[row]->findChildren<QLabel*>()) all += label->text() + QLatin1Char('\n');
    return all;
  };
  CHECK(says(0).contains("First sentence."));
  CHECK(says(0).contains("Sentence of row 0."));
  CHECK_FALSE(says(1).contains("First sentence"));
  CHECK(says(1).contains("Sentence of row 1."));
}

TEST_CASE("Each plan's verdict is scrolled by itself") {
  VerdictPanel panel;
  const std::vector<Status> many(14, Status::Fails);
  showShort(panel, judged("a", many));
  auto* bar = panel.findChild<QScrollArea*>(QStringLiteral("verdictScroll"))->verticalScrollBar();
  const auto show = [&](const char* plan) {
    showShort(panel, judged(plan, many));
    QTest::qWait(20);
  };
  show("a");
  REQUIRE(bar->maximum() > 200);
  bar->setValue(150);
  show("a");
  CHECK(bar->value() == 150);
  show("b");
  CHECK(bar->value() == 0);
  show("a");
  CHECK(bar->value() == 150);
  panel.forget();
  CHECK(bar->value() == 0);
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "tests/support/fake_assessment.h"
#include "tests/support/fake_heat.h"
#include "tests/ui/deepened.h"
#include "tests/ui/plots/shown_panel.h"
#include "ui/plots/isolines.h"
#include "ui/plots/part_map_plot.h"
#include "ui/plots/plot_deck.h"
#include "ui/plots/time_stepper.h"

#include <QSignalSpy>
#include <QSlider>
#include <QTemporaryDir>
#include <QTest>
#include <QToolButton>
#include <qcustomplot.h>

using namespace bw;
using namespace bw::test;

namespace {

/// Three by two cells, three moments, one limit at 55 C on the back.
Assessment smallJob() {
  Assessment made;
  made.plan = "first guess";
  made.thermal.trace.passStart_s = {0, 300};
  made.thermal.map = std::make_shared<const PartMap>(fake::smallPart());
  LimitResult limit;
  limit.name = "wax behind";
  limit.where = "back";
  limit.predicted_C = 80;
  limit.limit_C = 55;
  limit.margin = -0.7;
  made.thermal.limits = {limit};
  return made;
}

void show(PartMapPlot& plot, const Assessment& assessment) {
  plot.setProject(fake::panel());
  plot.setAssessment(fake::shared(assessment));
  plot.resize(660, 460);
  plot.show();
  plot.activateWindow();
  QTest::qWait(20);
  plot.canvas()->replot();
}

void toMoment(PartMapPlot& plot, int moment) {
  plot.time()->setHighest(false);
  plot.time()->stepper()->slider()->setValue(moment);
}

}  // namespace

TEST_CASE("The map of the part begins with the highest of each place, and a slider goes through the job", "[part]") {
  PartMapPlot plot;
  show(plot, smallJob());
  CHECK(plot.time()->showsHighest());
  CHECK(plot.map()->data()->cell(2, 1) == 70);
  CHECK(plot.map()->data()->cell(0, 0) == 30);
  CHECK(plain(plot.statement()).startsWith("Highest of the whole job: up to 70 °C; line at 55 °C (wax behind)"));
  toMoment(plot, 1);
  CHECK(plot.map()->data()->cell(0, 0) == 20);
  CHECK(plot.map()->data()->cell(1, 1) == 60);
  CHECK(plain(plot.statement()).startsWith("After 60 s, pass 1 of 2: up to 70 °C"));
  toMoment(plot, 2);
  CHECK(plain(plot.statement()).startsWith("After 10 min, cooling afterwards: up to 30 °C"));
  CHECK(plot.map()->dataRange().lower == 20);  // the same for all moments
  CHECK(plot.map()->dataRange().upper == 70);
}

TEST_CASE("The map stands at true proportion in millimetres, and the hand's frame where it is", "[part]") {
  PartMapPlot plot;
  show(plot, smallJob());
  const QCustomPlot* canvas = plot.canvas();
  const double across = canvas->xAxis->coordToPixel(30) - canvas->xAxis->coordToPixel(0);
  const double up = canvas->yAxis->coordToPixel(0) - canvas->yAxis->coordToPixel(20);
  CHECK(across / up == Catch::Approx(1.5).epsilon(1e-6));
  CHECK(plot.hand_mm().isNull());  // the highest is no moment
  toMoment(plot, 1);
  CHECK(plot.hand_mm().center() == QPointF(25, 15));
  CHECK(plot.hand_mm().width() == Catch::Approx(32));
  CHECK(plot.hand_mm().height() == Catch::Approx(14));
  toMoment(plot, 0);
  CHECK(plot.hand_mm().isNull());
}

TEST_CASE("The read-out on the part tells the place, the temperature and when", "[part]") {
  PartMapPlot plot;
  show(plot, smallJob());
  CHECK(plain(plot.readoutAt(25, 15)) == "25 mm from the left, 15 mm up: 70 °C at most, after 60 s");
  CHECK(plain(plot.readoutAt(5, 5)) == "5.0 mm from the left, 5.0 mm up: 30 °C at most, after 10 min");
  CHECK(plot.readoutAt(31, 5).endsWith("beside the part"));
  toMoment(plot, 1);
  CHECK(plain(plot.readoutAt(15, 5)).endsWith("30 °C after 60 s, pass 1 of 2"));
}

TEST_CASE("Arrows step through the job and space runs it", "[part]") {
  PartMapPlot plot;
  show(plot, smallJob());
  REQUIRE(QTest::qWaitForWindowActive(&plot));
  plot.setFocus();
  QTest::keyClick(&plot, Qt::Key_Right);
  CHECK_FALSE(plot.time()->showsHighest());
  CHECK(plot.time()->moment() == 0);  // the first press leaves the highest
  QTest::keyClick(&plot, Qt::Key_Right);
  CHECK(plot.time()->moment() == 1);
  QTest::keyClick(&plot, Qt::Key_Left);
  CHECK(plot.time()->moment() == 0);
  const QCPRange before = plot.canvas()->xAxis->range();
  QTest::keyClick(&plot, Qt::Key_Right, Qt::ShiftModifier);
  CHECK(plot.time()->moment() == 0);
  CHECK(plot.canvas()->xAxis->range().lower > before.lower);
  if (!plot.time()->stepper()->playButton()->isEnabled()) return;  // this desktop asks for no animation
  QTest::keyClick(&plot, Qt::Key_Space);
  CHECK(plot.time()->stepper()->isPlaying());
  QTest::keyClick(&plot, Qt::Key_Space);
  CHECK_FALSE(plot.time()->stepper()->isPlaying());
}

TEST_CASE("Running through the job stops when the map is put away", "[part]") {
  PartMapPlot plot;
  show(plot, smallJob());
  auto* play = plot.findChild<QToolButton*>("playJob");
  REQUIRE(play);
  if (!play->isEnabled()) return;  // this desktop asks for no animation
  QTest::mouseClick(play, Qt::LeftButton);
  CHECK(plot.time()->stepper()->isPlaying());
  CHECK_FALSE(plot.time()->showsHighest());
  plot.hide();
  CHECK_FALSE(plot.time()->stepper()->isPlaying());
  plot.show();
  CHECK_FALSE(plot.time()->stepper()->isPlaying());
  QTest::mouseClick(play, Qt::LeftButton);
  plot.findChild<QToolButton*>("partHighest")->click();
  CHECK_FALSE(plot.time()->stepper()->isPlaying());
  CHECK(plot.time()->showsHighest());
}

TEST_CASE("However many moments there are, a job runs through in about ten seconds", "[part]") {
  Stepper stepper({"slider", "button", "a", "b", "c", "d"});
  stepper.setWholeTime(10000);
  stepper.setMost(1000);
  stepper.show();
  if (!stepper.playButton()->isEnabled()) return;  // this desktop asks for no animation
  stepper.playButton()->setChecked(true);
  REQUIRE(QTest::qWaitFor([&] { return stepper.number() > 0; }, 5000));
  const int stride = stepper.number();
  CHECK(stride >= 4);
  CHECK(stride <= 8);  // more than one, as a screen could not follow a thousand
}

TEST_CASE("The line of the limit goes between the cells that lie under and over it", "[part]") {
  const QVector<QLineF> pieces = isolineOf({20, 30, 40, 50, 60, 70}, 3, 2, 55);
  REQUIRE(pieces.size() == 2);
  // In the first square from the left, between 20 and 50 at y = 0.5 + 35/30 the line is beyond; it enters between 50 and 60.
  CHECK(pieces[0].p1().x() + pieces[0].p2().x() > 1.5);
  for (const QLineF& piece : pieces) {
    for (const QPointF& at : {piece.p1(), piece.p2()}) {
      const double value = 20 + 10 * (at.x() - 0.5) + 30 * (at.y() - 0.5);  // the grid is a plane
      CHECK(value == Catch::Approx(55).margin(1e-6));
    }
  }
  CHECK(isolineOf({20, 30, 40, 50, 60, 70}, 3, 2, 71).isEmpty());
  CHECK(isolineOf({}, 3, 2, 55).isEmpty());
}

TEST_CASE("Lines of the limit come from a worker, one set for each moment and one for the highest", "[part]") {
  PartMapPlot plot;
  show(plot, smallJob());
  REQUIRE(QTest::qWaitFor([&] { return plot.lines().size() == 4; }));
  CHECK(plot.lines()[0].isEmpty());
  CHECK_FALSE(plot.lines()[1].isEmpty());
  CHECK_FALSE(plot.lines()[3].isEmpty());
  Assessment cool = smallJob();
  cool.thermal.limits[0].limit_C = 90;  // the map stays below
  show(plot, cool);
  QTest::qWait(50);
  CHECK(plot.lines().empty());
  CHECK_FALSE(plot.statement().contains("line at"));
  Assessment near = smallJob();
  near.thermal.limits[0].warnOnly = true;
  CHECK_FALSE(partSceneOf(near).limit);
}

TEST_CASE("The field that is shown is the one in the table", "[part]") {
  PartMapPlot plot;
  show(plot, smallJob());
  CHECK(plot.csv().startsWith("x_mm,y_mm,highest_C,highest_at_s\n5,5,30,600\n15,5,30,60\n"));
  toMoment(plot, 1);
  CHECK(plot.csv().startsWith("x_mm,y_mm,temperature_C_at_60_s\n5,5,20\n15,5,30\n25,5,40\n5,15,50\n"));
  QTemporaryDir folder;
  for (const char* suffix : {"png", "svg", "pdf", "csv"}) {
    const QString file = folder.filePath(QStringLiteral("part.") + QLatin1String(suffix));
    CHECK(plot.exportTo(file));
    CHECK(QFileInfo(file).size() > 60);
  }
}

TEST_CASE("Without a map of the part it says what to do, and an earlier one stays until the next is there", "[part]") {
  PartMapPlot plot;
  plot.setProject(fake::panel());
  Assessment bare = smallJob();
  bare.thermal.map.reset();
  plot.setAssessment(fake::shared(bare));
  CHECK(plot.emptyText().contains("Give the part's metal"));
  plot.setAssessment(fake::shared(bare), true);
  CHECK(plot.emptyText().contains("follows in a moment"));
  plot.setAssessment(fake::shared(smallJob()));
  CHECK(plot.emptyText().isEmpty());
  toMoment(plot, 2);
  const QString before = plot.statement();
  plot.setAssessment(fake::shared(bare), true);
  CHECK(plot.statement() == before);
  plot.setAssessment(fake::shared(smallJob()));
  CHECK(plot.time()->moment() == 2);
  plot.setAssessment(fake::shared(bare));
  CHECK_FALSE(plot.emptyText().isEmpty());
}

TEST_CASE("A map whose parts do not fit together is not shown", "[part]") {
  PartMap map = fake::smallPart();
  map.hand_m.pop_back();
  Assessment made = smallJob();
  made.thermal.map = std::make_shared<const PartMap>(map);
  CHECK(partSceneOf(made).isEmpty());
}

TEST_CASE("The deck swaps the curves of the heat and the map of the part", "[part]") {
  PlotDeck deck;
  deck.setProject(fake::panel());
  deck.setAssessment(fake::shared(fake::deepened(*fake::firstGuess())));
  deck.resize(1200, 900);
  deck.show();
  deck.activateWindow();
  REQUIRE(QTest::qWaitForWindowActive(&deck));
  PlotView* curves = deck.plot(3);
  QTest::mouseClick(curves->findChild<QToolButton*>("heatPart"), Qt::LeftButton);
  PlotView* map = deck.plot(3);
  REQUIRE(map != curves);
  CHECK(map->isVisible());
  CHECK(map->hasFocus());
  CHECK_FALSE(curves->isVisible());
  CHECK(map->geometry() == curves->geometry());
  CHECK(map->emptyText().isEmpty());
  QTest::mouseClick(map->findChild<QToolButton*>("partStillHand"), Qt::LeftButton);
  CHECK(deck.plot(3) == curves);
  CHECK(curves->findChild<QToolButton*>("heatStillHand")->isChecked());
  CHECK(map->findChild<QToolButton*>("partMap")->isChecked());
  deck.resize(680, 640);
  QCoreApplication::processEvents();
  deck.showHeat(HeatView::Part);
  CHECK(deck.plot(3)->isCompact());
  CHECK_FALSE(deck.plot(3)->findChild<TimeStepper*>()->isVisible());
}

TEST_CASE("The small map of the part keeps its proportion", "[part]") {
  PlotDeck deck;
  deck.setProject(fake::panel());
  deck.setAssessment(fake::shared(fake::deepened(*fake::firstGuess())));
  deck.resize(680, 640);
  deck.show();
  deck.showPlot(3);
  deck.showHeat(HeatView::Part);
  QTest::qWait(50);
  deck.findChild<QSlider*>("partMoment")->setValue(60);
  QTest::qWait(50);
  deck.resize(780, 670);
  deck.showPlot(0);
  const QCustomPlot* canvas = deck.plot(3)->canvas();
  const auto across = [&] { return canvas->xAxis->coordToPixel(100) - canvas->xAxis->coordToPixel(0); };
  const auto up = [&] { return canvas->yAxis->coordToPixel(0) - canvas->yAxis->coordToPixel(100); };
  const auto alike = [&] { return std::abs(across() - up()) < 0.01 * up(); };
  CHECK(QTest::qWaitFor([&] { return deck.plot(3)->isCompact() && alike(); }, 10000));  // once it is laid out
  CHECK_FALSE(deck.plot(3)->isZoomed());
  CHECK(across() == Catch::Approx(up()).epsilon(0.01));
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "core/heat/limits.h"
#include "tests/support/fake_assessment.h"
#include "tests/ui/deepened.h"
#include "tests/ui/plots/shown_panel.h"
#include "ui/plots/heat_curves.h"
#include "ui/plots/heat_marks.h"
#include "ui/plots/heat_plot.h"
#include "ui/plots/heat_words.h"
#include "ui/plots/painting.h"

#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>
#include <QToolButton>
#include <qcustomplot.h>

using namespace bw;
using namespace bw::test;

namespace {

LimitResult limitOf(const char* name, double predicted_C, double limit_C, std::optional<double> margin, bool warnOnly = false) {
  LimitResult made;
  made.name = name;
  made.where = "back";
  made.predicted_C = predicted_C;
  made.limit_C = limit_C;
  made.margin = margin;
  made.warnOnly = warnOnly;
  return made;
}

void showHeat(HeatPlot& plot, const Assessment& assessment, QSize size = {660, 440}) {
  plot.setProject(fake::panel());
  plot.setAssessment(fake::shared(assessment));
  plot.resize(size);
  plot.show();
  plot.activateWindow();
  QTest::qWait(20);
  plot.canvas()->replot();
}

QToolButton* button(QWidget& in, const char* name) {
  auto* found = in.findChild<QToolButton*>(QLatin1String(name));
  REQUIRE(found);
  return found;
}

}  // namespace

TEST_CASE("The curves are those of the place of the limit told of, until another is chosen", "[heat]") {
  HeatPlot plot;
  Assessment shown = *fake::firstGuess();
  for (double& value : shown.thermal.backTrace.backBare_C) value += 7;
  for (LimitResult& limit : shown.thermal.limits) limit.felt = Felt::Back;
  showHeat(plot, shown);
  REQUIRE(siteOf(shown.thermal.limits) == HeatSite::Back);
  CHECK(plot.site() == HeatSite::Back);
  CHECK(button(plot, "heatAtBack")->isChecked());
  CHECK(plot.back()->data()->at(30)->value == Catch::Approx(shown.thermal.backTrace.backBare_C[30]));
  CHECK(plot.statement().contains("where the back gets hottest"));

  button(plot, "heatAtFront")->click();
  CHECK(plot.site() == HeatSite::Front);
  CHECK(plot.back()->data()->at(30)->value == Catch::Approx(shown.thermal.trace.backBare_C[30]));
  CHECK(plot.csv() == heatCsv(shown.thermal.trace));
  button(plot, "heatStillHand")->click();
  if (plot.view() == HeatView::StillHand) CHECK_FALSE(button(plot, "heatAtFront")->isChecked());
}

TEST_CASE("Bare curves are drawn full, those of the coat coming off thin and dashed, until a remedy takes the dashes", "[heat]") {
  HeatPlot plot;
  Assessment shown = *fake::firstGuess();
  for (double& value : shown.thermal.trace.frontBare_C) value += 1;  // no longer the worse of both
  plot.setSite(HeatSite::Front);
  showHeat(plot, shown);
  const HeatTrace& trace = shown.thermal.trace;
  CHECK(plot.front()->data()->at(30)->value == Catch::Approx(trace.frontBare_C[30]));
  CHECK(plot.thinFront()->data()->at(30)->value == Catch::Approx(trace.frontStripping_C[30]));
  CHECK(plot.thinBack()->data()->at(30)->value == Catch::Approx(trace.backStripping_C[30]));
  CHECK(plot.thinBack()->pen().style() == Qt::DashLine);
  CHECK(plot.thinBack()->pen().widthF() < plot.back()->pen().widthF());
  CHECK(plot.readoutAt(10, 50).contains("as the coat comes off"));
  plot.setGhost(fake::mended());
  CHECK_FALSE(plot.thinFront()->visible());
  plot.setGhost(nullptr);
  CHECK(plot.thinFront()->visible());
}

TEST_CASE("Without curves of their own the worse of both stand for bare, and nothing is dashed", "[heat]") {
  HeatTrace trace;
  trace.time_s = {1, 2, 3};
  trace.front_C = {30, 40, 50};
  trace.back_C = {25, 35, 45};
  const HeatCurves curves = curvesOf(trace);
  CHECK(curves.front_C == trace.front_C);
  CHECK(curves.back_C == trace.back_C);
  CHECK(curves.thinFront_C.empty());
  CHECK(curves.hottest_C() == 50);
  CHECK(curvesOf(HeatTrace()).isEmpty());
}

TEST_CASE("A limit's label tells when it is met, and its mark stands there", "[heat]") {
  Assessment shown = *fake::firstGuess();
  shown.thermal.limits = {limitOf("paint behind", 146, 150, 0.03), limitOf("wax behind", 146, 60, -1.1),
                          limitOf("touch", 146, 65, {}, true)};
  shown.thermal.limits[1].reached_s = 240;
  const auto work = limitMarks(shown, HeatView::Work);
  REQUIRE(work.size() == 3);
  CHECK(plain(work[0].brief) == "60 °C  wax behind, met after 4 min");
  CHECK(work[0].at_s == 240.0);
  CHECK(plain(work[1].more) == " (warning only): 146 °C predicted");
  CHECK(plain(work[2].brief) == "150 °C  paint behind");
  CHECK_FALSE(work[2].at_s);
  shown.thermal.limits[0].stillHand_s = 2.1;
  const auto still = limitMarks(shown, HeatView::StillHand);
  CHECK(plain(still[2].brief) == "150 °C  paint behind after 2.1 s");
  CHECK(plain(still[0].brief) == "60 °C  wax behind: not within the time followed");
}

TEST_CASE("The heat plot says in one line what is met and when", "[heat]") {
  HeatPlot plot;
  Assessment shown = *fake::firstGuess();
  shown.thermal.limits[0].reached_s = 240;
  showHeat(plot, shown);
  CHECK(plain(plot.statement()).contains("paint behind met after 4 min"));
  CHECK(plot.accessibleDescription() == plot.statement());
}

TEST_CASE("No label of a limit hides another, the frame in fine time or what else is written, at any size", "[heat]") {
  Assessment shown = fake::deepened(*fake::firstGuess());
  shown.thermal.limits = {limitOf("wax behind", 146, 60, -1.1), limitOf("touch", 146, 65, {}, true),
                          limitOf("paint behind", 146, 120, -0.2), limitOf("heat tint", 146, 121, -0.2),
                          limitOf("heat tint under the beam", 146, 121, -0.2)};
  shown.thermal.limits[0].reached_s = 240;
  for (const QSize size : {QSize(460, 330), QSize(590, 430), QSize(660, 440), QSize(1180, 640), QSize(1820, 900)}) {
    HeatPlot plot;
    showHeat(plot, shown, size);
    CAPTURE(size.width());
    const QRectF box(plot.canvas()->axisRect()->rect());
    std::vector<QRectF> places;
    for (const PlacedLabel& label : plot.limitLabels()) places.push_back(label.place);
    CHECK(places.size() == 5);
    if (size.width() > 500) CHECK_FALSE(plot.insetPlace().isEmpty());
    if (!plot.insetPlace().isEmpty()) places.push_back(plot.insetPlace());
    for (std::size_t i = 0; i < places.size(); ++i) {
      CHECK(box.contains(places[i]));
      CHECK(places[i].top() >= box.top() + passesHeight - 1);  // passes are numbered above
      for (std::size_t j = 0; j < i; ++j) CHECK_FALSE(places[i].intersects(places[j]));
    }
  }
}

TEST_CASE("The frame in fine time lies where it hides no curve", "[heat]") {
  for (const QSize size : {QSize(660, 440), QSize(590, 430), QSize(900, 520)}) {
    HeatPlot plot;
    showHeat(plot, fake::deepened(*fake::firstGuess()), size);
    const QRectF place = plot.insetPlace();
    REQUIRE_FALSE(place.isEmpty());
    CHECK(QRectF(plot.canvas()->axisRect()->rect()).contains(place));
    const ClearPlaces curves(plot.canvas()->xAxis, plot.canvas()->yAxis, {plot.front(), plot.back(), plot.thinFront(), plot.thinBack()});
    CHECK(curves.isClear(place));
    const auto* x = plot.canvas()->xAxis;
    const auto* y = plot.canvas()->yAxis;
    const QString words = plot.readoutAt(x->pixelToCoord(place.center().x() + 20), y->pixelToCoord(place.center().y()));
    CHECK(words.contains("ms into the frame"));
  }
}

TEST_CASE("Without a frame, and in the small version, there is no inset", "[heat]") {
  HeatPlot plot;
  Assessment shown = *fake::firstGuess();
  shown.thermal.lastFrame = {};
  showHeat(plot, shown);
  CHECK(plot.insetPlace().isEmpty());
  showHeat(plot, *fake::firstGuess());
  CHECK_FALSE(plot.insetPlace().isEmpty());
  plot.setCompact(true);
  plot.canvas()->replot();
  CHECK(plot.insetPlace().isEmpty());
}

TEST_CASE("A press on the switch shows the hand that stops, with the seconds until each limit", "[heat]") {
  HeatPlot plot;
  const Assessment deep = fake::deepened(*fake::firstGuess());
  showHeat(plot, deep);
  QTest::mouseClick(button(plot, "heatStillHand"), Qt::LeftButton);
  CHECK(plot.view() == HeatView::StillHand);
  CHECK(button(plot, "heatStillHand")->isChecked());
  CHECK_FALSE(button(plot, "heatAtFront")->isChecked());
  CHECK_FALSE(button(plot, "heatAtBack")->isChecked());
  REQUIRE(plot.front()->dataCount() == static_cast<int>(deep.thermal.stillHand->time_s.size()));
  CHECK(plot.canvas()->xAxis->scaleType() == QCPAxis::stLogarithmic);
  CHECK(plot.canvas()->xAxis->label() == "time since the hand stopped");
  REQUIRE(deep.thermal.limits[0].stillHand_s);
  CHECK(plot.statement().contains("paint behind after"));
  CHECK(plot.readoutAt(1, 100).contains("after the hand stopped"));
  CHECK(plot.csv().startsWith("time_since_stop_s,front_C,back_C\n"));
  QTest::mouseClick(button(plot, "heatAtFront"), Qt::LeftButton);
  CHECK(plot.view() == HeatView::Work);
  CHECK(plot.canvas()->xAxis->label() == "time since the first line");
}

TEST_CASE("The still hand that is on its way says so, and an earlier one stays until then", "[heat]") {
  HeatPlot plot;
  plot.setProject(fake::panel());
  plot.setView(HeatView::StillHand);
  const auto first = fake::firstGuess();
  plot.setAssessment(first);
  CHECK(plot.emptyText().contains("not computed"));
  plot.setAssessment(first, true);
  CHECK(plot.emptyText().contains("follows in a moment"));
  plot.setAssessment(fake::shared(fake::deepened(*first)));
  CHECK(plot.emptyText().isEmpty());
  const int points = plot.front()->dataCount();
  plot.setAssessment(first, true);
  CHECK(plot.emptyText().isEmpty());
  CHECK(plot.front()->dataCount() == points);
  CHECK_FALSE(plot.statement().contains("paint behind"));  // the moments of the new limits are not known yet
  plot.setAssessment(first);
  CHECK_FALSE(plot.emptyText().isEmpty());
  plot.setView(HeatView::Work);
  CHECK(plot.emptyText().isEmpty());
}

TEST_CASE("The table of the heat plot has a column for each curve that is known", "[heat]") {
  HeatTrace trace;
  trace.time_s = {1, 2};
  trace.front_C = {30, 40};
  trace.back_C = {25, 35};
  CHECK(heatCsv(trace) == "time_s,front_C,back_C\n1,30,25\n2,40,35\n");
  trace.frontBare_C = {30, 40};
  trace.backStripping_C = {22, 28};
  trace.part_C = {21, 22};
  CHECK(heatCsv(trace) == "time_s,front_C,back_C,front_bare_C,back_stripping_C,part_C\n1,30,25,30,22,21\n2,40,35,40,28,22\n");
}

TEST_CASE("The one frame has a table of its own", "[heat]") {
  HeatPlot plot;
  Assessment shown = *fake::firstGuess();
  shown.thermal.lastFrame = {240, {0, 0.001}, {80, 95}, {60, 61}};
  showHeat(plot, shown);
  QTemporaryDir folder;
  const QString file = folder.filePath(QStringLiteral("frame.csv"));
  REQUIRE(plot.exportTo(file, nullptr, [&shown] { return frameCsv(shown.thermal.lastFrame); }));
  QFile written(file);
  REQUIRE(written.open(QIODevice::ReadOnly));
  CHECK(written.readAll() == "time_in_frame_s,near_C,back_C\n0,80,60\n0.001,95,61\n");
}

TEST_CASE("Both views of the heat plot are exported as pictures and vectors", "[heat]") {
  HeatPlot plot;
  showHeat(plot, fake::deepened(*fake::firstGuess()));
  QTemporaryDir folder;
  for (const HeatView view : {HeatView::Work, HeatView::StillHand}) {
    plot.setView(view);
    for (const char* suffix : {"png", "svg", "pdf", "csv"}) {
      const QString file = folder.filePath(QStringLiteral("heat.") + QLatin1String(suffix));
      CHECK(plot.exportTo(file));
      CHECK(QFileInfo(file).size() > 1000);
    }
  }
}

TEST_CASE("Limits that count come first, tightest before the rest, those that nothing can meet before all", "[heat]") {
  const auto sorted = tightestFirst({limitOf("touch", 100, 65, -1, true), limitOf("wide", 100, 500, 0.8), limitOf("tight", 100, 110, 0.1),
                                     limitOf("impossible", 100, 10, {})});
  REQUIRE(sorted.size() == 4);
  CHECK(sorted[0].name == "impossible");
  CHECK(sorted[1].name == "tight");
  CHECK(sorted[2].name == "wide");
  CHECK(sorted[3].name == "touch");
}

TEST_CASE("Flatness is told in three terms that never say more than where trouble may begin", "[heat]") {
  const auto terms = flatnessTerms({0.7, 0.42, 1.8, 86, 0.034});
  REQUIRE(terms.size() == 3);
  CHECK(plain(terms[0].words) ==
        "Yields under the local heat (86 °C above the sheet around it, over 34 mm): 0.70 of 1, where trouble may begin.");
  CHECK(plain(terms[1].words) == "Pops out of plane while hot: 0.42 of 1, where trouble may begin.");
  CHECK(plain(terms[2].words) == "Bows afterwards: 1.8 times where trouble may begin.");
}

TEST_CASE("A key that is too long for one row takes a second", "[heat]") {
  const std::vector<KeyEntry> key(3, KeyEntry{KeyEntry::Mark::Line, Qt::black, "some words of a key"});
  const QFont font;
  CHECK(keyRows(font, 2000, key) == 1);
  CHECK(keyRows(font, 250, key) >= 2);
  CHECK(keyRows(font, 250, {}) == 0);
}

TEST_CASE("A place is clear where no curve runs through it, also between far points, and nothing was written", "[heat]") {
  QCustomPlot plot;
  plot.resize(400, 300);
  plot.xAxis->setRange(0, 10);
  plot.yAxis->setRange(0, 10);
  QCPGraph* curve = plot.addGraph();
  curve->setData(QVector<double>{0, 10}, QVector<double>{0, 10});  // the diagonal
  plot.replot();
  const auto around = [&plot](double x, double y) {
    return QRectF(plot.xAxis->coordToPixel(x) - 8, plot.yAxis->coordToPixel(y) - 8, 16, 16);
  };
  ClearPlaces places(plot.xAxis, plot.yAxis, {curve});
  CHECK_FALSE(places.isClear(around(5, 5)));
  CHECK(places.isClear(around(3, 7)));
  CHECK(places.isClear(around(7, 3)));
  CHECK(places.firstClear({around(5, 5), around(7, 3)}) == around(7, 3));
  places.take(around(3, 7));
  CHECK_FALSE(places.isClear(around(3, 7)));
  curve->setVisible(false);
  CHECK(ClearPlaces(plot.xAxis, plot.yAxis, {curve}).isClear(around(5, 5)));
}

TEST_CASE("A hand that stops for long does not press the limits together", "[heat]") {
  Assessment shown = fake::deepened(*fake::firstGuess());
  shown.thermal.limits = {limitOf("paint behind", 146, 150, 0.03)};
  shown.thermal.stillHand->front_C.back() = 2000;
  HeatPlot plot;
  plot.setView(HeatView::StillHand);
  showHeat(plot, shown);
  CHECK(plot.canvas()->yAxis->range().upper > 150);
  CHECK(plot.canvas()->yAxis->range().upper < 400);
}

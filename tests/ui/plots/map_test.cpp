// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "core/scan/path.h"
#include "tests/support/fake_assessment.h"
#include "ui/plots/dose_colours.h"
#include "ui/plots/dose_map_plot.h"
#include "ui/plots/tiled_map.h"

#include "ui/fields/chooser.h"
#include "ui/fields/quantity_field.h"
#include "ui/plots/scene_chooser.h"

#include <QLineEdit>
#include <QSignalSpy>
#include <QTest>
#include <QToolButton>
#include <cmath>
#include <numeric>

using namespace bw;

namespace {

DoseMap smallMap() { return {4, 2, 1e-3, 1e-3, 0, 0, {1, 2, 3, 4, 5, 6, 7, 8}}; }

void settle(PlotView& view) {
  view.show();
  QCoreApplication::processEvents();
  view.canvas()->replot();
}

}  // namespace

TEST_CASE("Block means keep the map's mean and its missed share") {
  const Blocks blocks = blockMeans(smallMap(), 2, 1, 3);
  REQUIRE(blocks.mean.size() == 2);
  CHECK(blocks.mean[0] == Catch::Approx((1 + 2 + 5 + 6) / 4.0));
  CHECK(blocks.mean[1] == Catch::Approx((3 + 4 + 7 + 8) / 4.0));
  CHECK(blocks.below[0] == Catch::Approx(0.5));
  CHECK(blocks.below[1] == Catch::Approx(0.0));
}

TEST_CASE("Blocks that do not divide the map cover each cell once") {
  DoseMap map{7, 5, 1e-3, 1e-3, 0, 0, std::vector<float>(35)};
  std::iota(map.dose_J_m2.begin(), map.dose_J_m2.end(), 0.0F);
  const Blocks all = blockMeans(map, 7, 5, 0);
  CHECK(all.mean == map.dose_J_m2);
  const Blocks one = blockMeans(map, 1, 1, 0);
  CHECK(one.mean[0] == Catch::Approx(17.0));
}

TEST_CASE("The dose map's colours run from nothing to the clipped top, evenly in one hue") {
  DoseMapPlot plot;
  plot.setProject(fake::panel());
  const auto now = fake::firstGuess();
  plot.setAssessment(now);
  const QCPRange range = plot.map()->dataRange();
  CHECK(range.lower == 0);
  CHECK(range.upper == Catch::Approx(std::max(now->dose->p95_J_m2, 2 * now->dose->mean_J_m2) / 1e4));

  for (const bool dark : {false, true}) {
    const QMap<double, QColor> stops = doseGradient(dark).colorStops();
    std::vector<double> grey;
    for (const QColor& colour : stops) grey.push_back(qGray(colour.rgb()));
    for (std::size_t i = 1; i < grey.size(); ++i) {
      CHECK((dark ? grey[i] > grey[i - 1] : grey[i] < grey[i - 1]));  // one direction only: prints in black and white
    }
  }
}

TEST_CASE("The dose map keeps true proportion and centres one cell") {
  DoseMapPlot plot;
  plot.resize(660, 420);
  plot.setAssessment(fake::firstGuess());
  settle(plot);
  const QCPAxis *x = plot.canvas()->xAxis, *y = plot.canvas()->yAxis;
  const double perMmAcross = std::abs(x->coordToPixel(10) - x->coordToPixel(0)),
               perMmAlong = std::abs(y->coordToPixel(10) - y->coordToPixel(0));
  CHECK(perMmAcross == Catch::Approx(perMmAlong).epsilon(0.005));
  CHECK(x->range().lower < -17.5);
  CHECK(x->range().upper > 17.5);
  CHECK(x->range().center() == Catch::Approx(0).margin(1e-9));
}

TEST_CASE("The colour map holds no more cells than the screen can show, and the map's mean") {
  DoseMapPlot plot;
  plot.resize(660, 420);
  const auto now = fake::firstGuess();
  plot.setAssessment(now);
  settle(plot);
  QCPColorMapData* data = plot.map()->data();
  CHECK(data->keySize() <= plot.canvas()->width());
  CHECK(data->keySize() > 300);
  double sum = 0;
  for (int i = 0; i < data->keySize(); ++i) {
    for (int j = 0; j < data->valueSize(); ++j) sum += data->cell(i, j);
  }
  CHECK(sum / (data->keySize() * data->valueSize()) == Catch::Approx(now->dose->mean_J_m2 / 1e4).epsilon(0.01));

  plot.canvas()->xAxis->scaleRange(0.1);
  plot.canvas()->yAxis->scaleRange(0.1);
  plot.canvas()->replot();
  CHECK(plot.map()->data()->keySize() == now->map->columns);  // magnified: every cell
}

TEST_CASE("A click on the dose map picks that place") {
  DoseMapPlot plot;
  plot.resize(660, 420);
  const auto now = fake::firstGuess();
  plot.setAssessment(now);
  settle(plot);
  QSignalSpy picked(&plot, &PlotView::placePicked);
  const QPoint at(static_cast<int>(plot.canvas()->xAxis->coordToPixel(-5)), static_cast<int>(plot.canvas()->yAxis->coordToPixel(2)));
  QTest::mouseClick(plot.canvas(), Qt::LeftButton, Qt::NoModifier, at);
  REQUIRE(picked.count() == 1);
  const double period = now->map->across_m(), expected = std::fmod(now->profile.middle_m - 5e-3, period);
  CHECK(picked[0][0].toDouble() == Catch::Approx(expected).margin(1e-4));
  CHECK(picked[0][1].toDouble() == Catch::Approx(2e-3).margin(1e-4));
}

TEST_CASE("The read-out on the map is the map's own cell") {
  DoseMapPlot plot;
  const auto now = fake::firstGuess();
  plot.setAssessment(now);
  const double across = std::fmod(now->profile.middle_m, now->map->across_m());
  const float dose = now->map->at(static_cast<int>(across / now->map->cellAcross_m), static_cast<int>(1e-3 / now->map->cellAlong_m));
  const QString expected = QString::number(std::lround(static_cast<double>(dose) / 1e4));
  CHECK(plot.readoutAt(0, 1).contains(expected + QChar(0xa0) + QStringLiteral("J/cm²")));
}

TEST_CASE("A still hand shows one frame and nothing repeats") {
  Assessment still = *fake::firstGuess();
  still.stillMap = still.map;
  still.map.reset();
  still.dose.reset();
  DoseMapPlot plot;
  plot.setAssessment(std::make_shared<const Assessment>(still));
  CHECK(plot.emptyText().isEmpty());
  CHECK(plot.statement().contains("standing still"));
  QSignalSpy picked(&plot, &PlotView::placePicked);
  settle(plot);
  QTest::mouseClick(plot.canvas(), Qt::LeftButton, Qt::NoModifier, plot.canvas()->rect().center());
  CHECK(picked.count() == 0);
}

namespace {

/// 4 x 3 mm from 2 mm before the swath's middle and 1 mm before the hand's start; the dose is the number of the cell.
std::shared_ptr<const Assessment> withScene(Scene scene) {
  Assessment made = *fake::firstGuess();
  DoseMap map{4, 3, 1e-3, 1e-3, -2e-3, -1e-3, {}};
  for (int i = 0; i < 12; ++i) map.dose_J_m2.push_back(static_cast<float>(i * 1e4));
  made.scene.scene = scene;
  made.sceneMap = std::make_shared<const DoseMap>(map);
  return std::make_shared<const Assessment>(std::move(made));
}

void choose(DoseMapPlot& plot, Scene scene) {
  auto* chooser = plot.findChild<Chooser*>("scene");
  REQUIRE(chooser);
  chooser->setCurrentIndex(chooser->findData(QString::number(static_cast<int>(scene))));
  emit chooser->activated(chooser->currentIndex());
}

}  // namespace

TEST_CASE("Another part of the work is shown from its own origin, once") {
  DoseMapPlot plot;
  plot.resize(660, 420);
  plot.setAssessment(withScene(Scene::StrokeStart));
  settle(plot);
  CHECK(plot.canvas()->xAxis->range().center() == Catch::Approx(0).margin(1e-9));
  CHECK(plot.canvas()->yAxis->range().center() == Catch::Approx(0.5));
  CHECK(plot.canvas()->yAxis->label().contains("start"));
  CHECK(plot.readoutAt(-1.5, -0.5).contains("0" + QString(QChar(0xa0)) + "J/cm"));
  CHECK(plot.readoutAt(1.5, 1.5).contains("11" + QString(QChar(0xa0)) + "J/cm"));
  CHECK(plot.readoutAt(5, 0).contains("outside"));
  CHECK(plot.statement().contains("strokes begin"));
  QSignalSpy picked(&plot, &PlotView::placePicked);
  QTest::mouseClick(plot.canvas(), Qt::LeftButton, Qt::NoModifier, plot.canvas()->rect().center());
  CHECK(picked.count() == 0);  // the other plots tell of the middle of the area
  CHECK(plot.csv().section('\n', 1, 1).startsWith("-1.5,-0.5,"));
}

TEST_CASE("One swath alone comes again along the travel, not across it") {
  DoseMapPlot plot;
  plot.setAssessment(withScene(Scene::OneSwath));
  CHECK(plot.map()->placing().repeatsAlong);
  CHECK_FALSE(plot.map()->placing().repeatsAcross);
  CHECK(plot.readoutAt(-1.5, 2.5) == plot.readoutAt(-1.5, 2.5 - 3).replace("-0.50", "2.5"));
  CHECK(plot.readoutAt(-2.5, 0).contains("outside"));
}

TEST_CASE("A missing part of the work says why") {
  DoseMapPlot plot;
  plot.setProject(fake::panel());
  Assessment made = *withScene(Scene::Corner);
  made.sceneMap.reset();
  made.notes = {"something else", "this view would hold 9e9 lines and pulses"};
  plot.setAssessment(std::make_shared<const Assessment>(made));
  CHECK(plot.emptyText() == "This view would hold 9e9 lines and pulses.");
  made.notes.clear();
  Project still = fake::panel();
  still.plans[0].settings.travelSpeed_m_s = 0;
  plot.setProject(still);
  plot.setAssessment(std::make_shared<const Assessment>(made));
  CHECK(plot.emptyText().contains("travel speed above zero"));
}

TEST_CASE("The chooser asks for a part of the work by name, and for a still hand's time") {
  DoseMapPlot plot;
  plot.resize(660, 420);
  plot.setAssessment(fake::firstGuess());
  settle(plot);
  QSignalSpy asked(&plot, &DoseMapPlot::sceneChosen);
  auto* time = plot.findChild<QuantityField*>("stillTime");
  REQUIRE(time);
  CHECK_FALSE(time->isVisible());
  choose(plot, Scene::StillHand);
  CHECK(asked.count() == 1);
  CHECK(plot.scene() == SceneRequest{Scene::StillHand, 1});
  CHECK(time->isVisible());
  time->edit()->setText("2,5");
  QTest::keyClick(time->edit(), Qt::Key_Return);
  CHECK(plot.scene().still_s == 2.5);
  CHECK(asked.count() == 2);
  choose(plot, Scene::StillHand);
  CHECK(asked.count() == 2);  // nothing new
  choose(plot, Scene::Endless);
  CHECK_FALSE(time->isVisible());
  auto* chooser = plot.findChild<Chooser*>("scene");
  CHECK_FALSE(chooser->accessibleName().isEmpty());
  CHECK((chooser->focusPolicy() & Qt::TabFocus) != 0);
  plot.setCompact(true);
  CHECK_FALSE(chooser->isVisible());
}

TEST_CASE("A still hand has colours up to its own most") {
  DoseMapPlot plot;
  plot.setAssessment(withScene(Scene::StillHand));
  CHECK(plot.map()->dataRange().upper == Catch::Approx(11));
  plot.setAssessment(withScene(Scene::Corner));
  DoseMapPlot endless;
  endless.setAssessment(fake::firstGuess());
  CHECK(plot.map()->dataRange() == endless.map()->dataRange());
}

TEST_CASE("The read-out tells the pulses that fall on a place, and the passages of a continuous beam") {
  Assessment made = *fake::firstGuess();
  DabRow row;
  row.first = Point(0, 1e-3);
  row.step = Point(50e-6, 0);
  row.count = 400;
  row.energy_J = *made.beam.pulseEnergy_J;
  made.rows = std::make_shared<const std::vector<DabRow>>(1, row);
  DoseMapPlot plot;
  plot.setAssessment(std::make_shared<const Assessment>(made));
  const double across_mm = (10e-3 + 1e-6 - made.profile.middle_m) * 1e3;  // beside a pulse, in the middle of the row
  const int reach = static_cast<int>(made.beam.spotDiameter_m / 2 / 50e-6);
  CHECK(plot.readoutAt(across_mm, 1).contains(QString::number(2 * reach + 1) + " pulses fall here in a pass, from one line"));
  CHECK(plot.readoutAt(across_mm, 3).contains("no pulse falls here"));
  row.smeared = true;
  made.rows = std::make_shared<const std::vector<DabRow>>(1, row);
  made.beam.pulseEnergy_J.reset();
  plot.setAssessment(std::make_shared<const Assessment>(made));
  CHECK(plot.readoutAt(across_mm, 1).contains("one passage"));
}

TEST_CASE("Lines of equal dose come a moment after the map, only in the large version, and can be put away") {
  DoseMapPlot plot;
  plot.resize(660, 420);
  Assessment made = *withScene(Scene::Corner);  // doses up to 11 J/cm2
  made.dose->mean_J_m2 = 5e4;
  plot.setAssessment(std::make_shared<const Assessment>(made));
  settle(plot);
  REQUIRE(QTest::qWaitFor([&] { return plot.isolines().size() == isolineShares.size(); }));
  const auto drawn = [&plot] {
    plot.canvas()->replot();
    return plot.canvas()->toPixmap().toImage();
  };
  const QImage with = drawn();
  auto* button = plot.findChild<QToolButton*>("isolines");
  REQUIRE(button);
  CHECK_FALSE(button->accessibleName().isEmpty());
  button->click();
  CHECK(drawn() != with);
  button->click();
  CHECK(drawn() == with);

  DoseMapPlot small;
  small.setCompact(true);
  small.setAssessment(withScene(Scene::Corner));
  settle(small);
  QTest::qWait(50);
  CHECK(small.isolines().empty());
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "tests/support/fake_assessment.h"
#include "ui/plots/dose_colours.h"
#include "ui/plots/dose_map_plot.h"
#include "ui/plots/tiled_map.h"

#include <QTest>
#include <QSignalSpy>
#include <cmath>
#include <numeric>

using namespace bw;

namespace {

DoseMap smallMap() { return {4, 2, 1e-3, 1e-3, {1, 2, 3, 4, 5, 6, 7, 8}}; }

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
  DoseMap map{7, 5, 1e-3, 1e-3, std::vector<float>(35)};
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

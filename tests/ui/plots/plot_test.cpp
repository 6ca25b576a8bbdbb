// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "tests/support/fake_assessment.h"
#include "tests/ui/deepened.h"
#include "ui/plots/depth_plot.h"
#include "ui/plots/dose_map_plot.h"
#include "ui/plots/heat_plot.h"
#include "ui/plots/part_map_plot.h"
#include "ui/plots/swath_plot.h"
#include "ui/style/elided_label.h"
#include "ui/style/theme.h"

#include <QDir>
#include <QLabel>
#include <QMenu>
#include <QTemporaryDir>
#include <QTest>
#include <QToolButton>
#include <algorithm>
#include <memory>
#include <qcustomplot.h>

using namespace bw;

namespace {

std::vector<std::unique_ptr<PlotView>> allPlots() {
  std::vector<std::unique_ptr<PlotView>> plots;
  plots.push_back(std::make_unique<DoseMapPlot>());
  plots.push_back(std::make_unique<SwathPlot>());
  plots.push_back(std::make_unique<DepthPlot>());
  plots.push_back(std::make_unique<HeatPlot>());
  plots.push_back(std::make_unique<PartMapPlot>());
  for (auto& plot : plots) {
    plot->setProject(fake::panel());
    plot->resize(640, 420);
  }
  return plots;
}

/// With what is found in depth, so that every plot has something to show.
std::shared_ptr<const Assessment> deep(const std::shared_ptr<const Assessment>& first) { return fake::shared(fake::deepened(*first)); }

QByteArray contentOf(const QString& name) {
  QFile file(name);
  return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

}  // namespace

TEST_CASE("A plot's heading gives way to its short form before it is cut", "[plots]") {
  for (const auto& plot : allPlots()) {
    auto* heading = plot->findChild<ElidedLabel*>();
    REQUIRE(heading);
    const QFontMetrics metrics = heading->fontMetrics();
    heading->setText(QStringLiteral("Energy on the part per pass (dose)"), QStringLiteral("Dose map"));
    heading->resize(metrics.horizontalAdvance(heading->text()), 20);
    CHECK(heading->shown() == heading->text());
    heading->resize(heading->width() - 1, 20);
    CHECK(heading->shown() == "Dose map");
    heading->resize(metrics.horizontalAdvance("Dose m"), 20);
    CHECK(heading->shown().endsWith(QChar(0x2026)));
    heading->setText(QStringLiteral("Down"), QStringLiteral("Down through the coat"));  // not shorter
    CHECK(heading->shown() == "Down");
  }
}

TEST_CASE("What was told early is not drawn once more when the rest comes", "[plots]") {
  SwathPlot plot;
  plot.setProject(fake::panel());
  plot.resize(640, 420);
  const auto whole = fake::firstGuess();
  auto early = std::make_shared<Assessment>(*whole);
  early->doseOnly = true;
  plot.setAssessment(early, true);
  REQUIRE(plot.summed()->dataCount() > 0);
  plot.summed()->data()->clear();  // to see whether it is filled again
  plot.setAssessment(whole, true);
  CHECK(plot.summed()->dataCount() == 0);
  plot.setAssessment(whole);
  CHECK(plot.summed()->dataCount() > 0);

  plot.setAssessment(early, true);
  plot.summed()->data()->clear();
  plot.setOutdated();  // another plan, of which this is not the dose
  plot.setAssessment(whole, true);
  CHECK(plot.summed()->dataCount() > 0);
}

TEST_CASE("The swath plot draws the profile in J/cm2 and mm") {
  SwathPlot plot;
  const auto now = fake::firstGuess();
  plot.setAssessment(now);
  REQUIRE(plot.summed()->dataCount() == static_cast<int>(now->profile.position_m.size()));
  const int middle = plot.summed()->dataCount() / 2;
  const auto i = static_cast<std::size_t>(middle);
  CHECK(plot.summed()->data()->at(middle)->key == Catch::Approx(now->profile.position_m[i] * 1e3));
  CHECK(plot.summed()->data()->at(middle)->value == Catch::Approx(now->profile.summed_J_m2[i] / 1e4));
  CHECK(plot.oneSwath()->data()->at(middle)->value == Catch::Approx(now->profile.oneSwath_J_m2[i] / 1e4));
  CHECK(plot.statement().contains("Ripple"));
  CHECK(plot.statement().contains("spread not computed"));
}

TEST_CASE("The depth plot draws the last, the middle and the first place to clear in micrometres") {
  DepthPlot plot;
  plot.setProject(fake::panel());
  const auto now = fake::firstGuess();
  plot.setAssessment(now);
  const auto& places = now->removal.places;
  REQUIRE(plot.least()->dataCount() == static_cast<int>(places.front().depth_m.size()));
  CHECK(plot.least()->data()->at(4)->value == Catch::Approx(places.front().depth_m[4] * 1e6));
  CHECK(plot.median()->data()->at(4)->value == Catch::Approx(medianPlace(places)->depth_m[4] * 1e6));
  CHECK(plot.most()->data()->at(4)->value == Catch::Approx(places.back().depth_m[4] * 1e6));
  CHECK(plot.canvas()->yAxis->rangeReversed());
  CHECK(plot.statement().contains("cream stalls"));
}

TEST_CASE("The middle place is the one at half of the area") {
  std::vector<PlaceHistory> places(3);
  places[0].share = 0.2;
  places[1].share = 0.2;
  places[2].share = 0.6;
  CHECK(medianPlace(places) == &places[2]);
  places[0].share = 0.6;
  places[2].share = 0.2;
  CHECK(medianPlace(places) == &places[0]);
  CHECK(medianPlace({}) == nullptr);
}

TEST_CASE("A picked place brings out the history of nearest dose") {
  DepthPlot plot;
  plot.setProject(fake::panel());
  const auto now = fake::firstGuess();
  plot.setAssessment(now);
  CHECK(plot.picked()->dataCount() == 0);
  const PlaceHistory& wanted = now->removal.places[3];
  const DoseMap& map = *now->map;
  const auto cell = std::ranges::find(map.dose_J_m2, static_cast<float>(wanted.dose_J_m2)) - map.dose_J_m2.begin();
  plot.setPlace(PickedPlace{(static_cast<double>(cell % map.columns) + 0.5) * map.cellAcross_m,
                            (static_cast<double>(cell / map.columns) + 0.5) * map.cellAlong_m});
  REQUIRE(plot.picked()->dataCount() == static_cast<int>(wanted.depth_m.size()));
  CHECK(plot.picked()->data()->at(5)->value == Catch::Approx(wanted.depth_m[5] * 1e6));
  CHECK(plot.statement().contains("Picked place"));
}

TEST_CASE("The heat plot draws both faces and keeps its own place") {
  HeatPlot plot;
  plot.setProject(fake::panel());
  const auto now = fake::firstGuess();
  plot.setAssessment(now);
  REQUIRE(plot.front()->dataCount() == static_cast<int>(now->thermal.trace.time_s.size()));
  CHECK(plot.back()->data()->at(10)->value == Catch::Approx(now->thermal.trace.back_C[10]));
  CHECK(plot.canvas()->xAxis->scaleType() == QCPAxis::stLinear);
  CHECK(plot.canvas()->yAxis->range().upper > 150);  // the back face's limit is in sight
  plot.setPlace(PickedPlace{0.001, 0.001});
  CHECK(plot.statement().contains("not the picked one"));
  plot.setLogarithmic(true);
  CHECK(plot.canvas()->xAxis->scaleType() == QCPAxis::stLogarithmic);
  plot.setView(HeatView::StillHand);
  plot.setView(HeatView::Work);
  CHECK(plot.canvas()->xAxis->scaleType() == QCPAxis::stLogarithmic);  // as it was chosen
}

TEST_CASE("A remedy's outcome is a dashed line that goes away again") {
  SwathPlot plot;
  plot.setAssessment(fake::firstGuess());
  const auto dashed = [&plot] {
    int count = 0;
    for (int i = 0; i < plot.canvas()->graphCount(); ++i) {
      const QCPGraph* graph = plot.canvas()->graph(i);
      count += graph->visible() && graph->dataCount() > 0 && graph->pen().style() == Qt::DashLine ? 1 : 0;
    }
    return count;
  };
  CHECK(dashed() == 0);
  plot.setGhost(fake::mended());
  CHECK(dashed() == 1);
  CHECK(plot.statement().contains(QChar(0x2192)));
  plot.setGhost(nullptr);
  CHECK(dashed() == 0);
}

TEST_CASE("Zoom survives a new result until it is fitted") {
  for (const auto& plot : allPlots()) {
    plot->setAssessment(deep(fake::firstGuess()));
    plot->canvas()->xAxis->setRange(2, 3);
    const QCPRange zoomed = plot->canvas()->xAxis->range();
    CHECK(plot->isZoomed());
    plot->setAssessment(deep(fake::mended()));
    CHECK(plot->canvas()->xAxis->range() == zoomed);
    QTest::keyClick(plot.get(), Qt::Key_0);
    CHECK_FALSE(plot->isZoomed());
    CHECK(plot->canvas()->xAxis->range() != zoomed);
  }
}

TEST_CASE("An empty plot says what to do next") {
  for (const auto& plot : allPlots()) {
    CHECK_FALSE(plot->emptyText().isEmpty());
    plot->setAssessment(std::make_shared<const Assessment>());
    CHECK_FALSE(plot->emptyText().isEmpty());
    CHECK(plot->statement().isEmpty());
    plot->setAssessment(deep(fake::firstGuess()));
    CHECK(plot->emptyText().isEmpty());
    CHECK_FALSE(plot->statement().isEmpty());
  }
}

TEST_CASE("Plots follow the palette while they are shown") {
  for (const auto& plot : allPlots()) {
    plot->setAssessment(deep(fake::firstGuess()));
    plot->show();
    QCoreApplication::processEvents();
    plot->setPalette(paletteOf(Theme::Dark));
    QCoreApplication::processEvents();
    CHECK(plot->canvas()->xAxis->tickLabelColor() == tonesOf(paletteOf(Theme::Dark)).quiet);
    CHECK(plot->grab().toImage().pixelColor(plot->width() - 4, plot->height() / 2).lightness() < 80);
    plot->setPalette(paletteOf(Theme::Light));
    QCoreApplication::processEvents();
    CHECK(plot->canvas()->xAxis->tickLabelColor() == tonesOf(paletteOf(Theme::Light)).quiet);
    CHECK(plot->grab().toImage().pixelColor(plot->width() - 4, plot->height() / 2).lightness() > 200);
  }
}

TEST_CASE("No text in a plot is smaller than 12 px") {
  for (const auto& plot : allPlots()) {
    plot->setAssessment(deep(fake::firstGuess()));
    for (const bool compact : {false, true}) {
      plot->setCompact(compact);
      CHECK(QFontInfo(plot->canvas()->xAxis->tickLabelFont()).pixelSize() >= space::leastFont);
      CHECK(QFontInfo(plot->canvas()->yAxis->labelFont()).pixelSize() >= space::leastFont);
      for (const QWidget* child : plot->findChildren<QWidget*>()) CHECK(QFontInfo(child->font()).pixelSize() >= space::leastFont);
    }
  }
}

TEST_CASE("Plots are exported as pictures, vectors and tables") {
  const QTemporaryDir folder;
  int number = 0;
  for (const auto& plot : allPlots()) {
    plot->setPalette(paletteOf(Theme::Dark));
    plot->setAssessment(deep(fake::firstGuess()));
    plot->show();
    QCoreApplication::processEvents();
    const QString base = folder.filePath(QStringLiteral("plot%1.").arg(++number));
    for (const char* suffix : {"png", "svg", "pdf", "csv"}) {
      CHECK(plot->exportTo(base + QLatin1String(suffix)));
      CHECK(contentOf(base + QLatin1String(suffix)).size() > 200);
    }
    const QImage image(base + QStringLiteral("png"));
    CHECK(image.width() == plot->canvas()->width() * 2);
    CHECK(image.pixelColor(3, 3) == QColor(Qt::white));  // on white paper, whatever the screen shows
    CHECK(contentOf(base + QStringLiteral("pdf")).startsWith("%PDF"));
    CHECK(plot->canvas()->xAxis->tickLabelColor() == tonesOf(paletteOf(Theme::Dark)).quiet);  // and the screen is as before
  }
}

TEST_CASE("An exported vector file holds its text and the curve as a path") {
  const QTemporaryDir folder;
  SwathPlot plot;
  plot.resize(640, 420);
  plot.setAssessment(fake::firstGuess());
  const QString file = folder.filePath(QStringLiteral("swath.svg"));
  REQUIRE(plot.exportTo(file));
  const QString svg = QString::fromUtf8(contentOf(file));
  CHECK(svg.contains("Dose across the swath"));
  CHECK(svg.contains("dose, J/cm²"));
  CHECK(svg.contains("<polyline"));
}

TEST_CASE("The dose map is in the exported picture, also from the small version") {
  const QTemporaryDir folder;
  DoseMapPlot plot;
  plot.resize(240, 180);
  plot.setAssessment(fake::mended());
  plot.setCompact(true);
  const QString file = folder.filePath(QStringLiteral("map.png"));
  REQUIRE(plot.exportTo(file));
  CHECK(plot.isCompact());
  const QImage image(file);
  REQUIRE(image.width() > 1000);
  const QColor middle = image.pixelColor(image.width() / 3, image.height() / 4);
  CHECK(middle.hslHueF() == Catch::Approx(0.80).margin(0.06));  // the map's one hue, not the grey behind it
}

TEST_CASE("An exported table has units in its header, dots and commas") {
  const QLocale before;
  QLocale::setDefault(QLocale(QLocale::German));
  const QTemporaryDir folder;
  DepthPlot depth;
  depth.setAssessment(fake::firstGuess());
  const QString file = folder.filePath(QStringLiteral("depth.csv"));
  REQUIRE(depth.exportTo(file));
  const QStringList lines = QString::fromUtf8(contentOf(file)).split(QLatin1Char('\n'));
  CHECK(lines[0].startsWith("passes,depth_um_at_"));
  const QStringList third = lines[3].split(QLatin1Char(','));
  CHECK(third[0] == "2");
  CHECK(third[1].toDouble() == Catch::Approx(fake::firstGuess()->removal.places[0].depth_m[2] * 1e6).epsilon(1e-4));
  QLocale::setDefault(before);
}

TEST_CASE("An export that cannot be written says so") {
  SwathPlot plot;
  plot.setAssessment(fake::firstGuess());
  QString problem;
  CHECK_FALSE(plot.exportTo(QStringLiteral("/no/such/folder/plot.svg"), &problem));
  CHECK(problem.contains("/no/such/folder/plot.svg"));
  CHECK_FALSE(plot.exportTo(QDir::temp().filePath(QStringLiteral("plot.bmp")), &problem));
}

TEST_CASE("A logarithmic time axis begins where something gets warmer") {
  HeatCurves curves{{1e-5, 1e-4, 1e-3, 1e-2, 0.1, 1, 10}, {20, 20, 20.1, 20.2, 25, 60, 120}, {20, 20, 20, 20, 20, 30, 80}};
  CHECK(curves.rises_s() == 1e-2);
  curves.front_C = std::vector<double>(7, 20);
  curves.back_C = curves.front_C;
  CHECK(curves.rises_s() == 1e-5);
}

TEST_CASE("Every plot shows a button to save it, the small one too, and its menu opens on its body") {
  HeatPlot plot;
  plot.setProject(fake::panel());
  plot.setAssessment(fake::firstGuess());
  plot.resize(500, 400);
  plot.show();
  auto* save = plot.findChild<QToolButton*>(QStringLiteral("savePlot"));
  REQUIRE(save != nullptr);
  CHECK(save->isVisible());
  plot.setCompact(true);
  CHECK(save->isVisible());
  emit save->menu()->aboutToShow();
  CHECK(save->menu()->actions().size() == 4);
  plot.setCompact(false);
  const QPoint middle = plot.canvas()->rect().center();
  QContextMenuEvent wanted(QContextMenuEvent::Mouse, middle, plot.canvas()->mapToGlobal(middle));
  QCoreApplication::sendEvent(plot.canvas(), &wanted);
  auto* menu = plot.findChild<QMenu*>(QStringLiteral("plotMenu"));
  REQUIRE(menu != nullptr);
  CHECK(menu->isVisible());
  menu->close();
}

TEST_CASE("On a page that scrolls the wheel leaves the plot as it is") {
  HeatPlot plot;
  plot.setProject(fake::panel());
  plot.setAssessment(fake::firstGuess());
  plot.resize(500, 400);
  plot.show();
  QCoreApplication::processEvents();
  const auto turn = [&plot] {
    const QPointF at = plot.canvas()->axisRect()->center();
    QWheelEvent event(at, plot.canvas()->mapToGlobal(at), {}, {0, 120}, Qt::NoButton, Qt::NoModifier, Qt::NoScrollPhase, false);
    QCoreApplication::sendEvent(plot.canvas(), &event);
    return event.isAccepted();
  };
  plot.leaveWheelToPage();
  CHECK_FALSE(turn());
  CHECK_FALSE(plot.isZoomed());
}

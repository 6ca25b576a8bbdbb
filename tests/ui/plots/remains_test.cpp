// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "tests/support/fake_assessment.h"
#include "tests/ui/deepened.h"
#include "tests/ui/plots/shown_panel.h"
#include "ui/plots/depth_plot.h"
#include "ui/plots/layer_map.h"
#include "ui/plots/pass_stepper.h"
#include "ui/plots/plot_deck.h"
#include "ui/plots/remaining.h"
#include "ui/plots/remains_plot.h"

#include <QSignalSpy>
#include <QSlider>
#include <QTemporaryDir>
#include <QTest>
#include <QToolButton>
#include <numeric>

using namespace bw;
using namespace bw::test;

namespace {

/// Coat of the same names, so that the layers have their own colours.
Project threeLayerProject() {
  Project project = fake::panel();
  project.coat.resize(3);
  project.coat[0].name = "cream";
  project.coat[0].colour = "#efe3c2";
  project.coat[1].name = "grey";
  project.coat[1].colour = "#8d9497";
  project.coat[2].name = "red oxide";
  project.coat[2].colour = "#8c3b2a";
  return project;
}

void showMap(RemainsPlot& plot) {
  plot.setProject(threeLayerProject());
  plot.setAssessment(fake::shared(fake::threeLayers()));
  plot.resize(640, 420);
  plot.show();
  QCoreApplication::processEvents();
  plot.canvas()->replot();
}

double sharesOf(const RemainsPlot& plot) {
  const auto legend = plot.legend();
  return std::accumulate(legend.begin(), legend.end(), 0.0, [](double sum, const auto& entry) { return sum + entry.share; });
}

}  // namespace

TEST_CASE("What is on top follows from the depth, also at a boundary and with a rounded sum", "[remains]") {
  const auto layers = fake::threeLayers().removal.layers;
  CHECK(topLayerBelow(layers, 0)->index == 0);
  CHECK(topLayerBelow(layers, 4e-6)->left_m == Catch::Approx(6e-6));
  CHECK(topLayerBelow(layers, 10e-6)->index == 1);
  CHECK(topLayerBelow(layers, 25e-6)->left_m == Catch::Approx(5e-6));
  CHECK_FALSE(topLayerBelow(layers, 60e-6).has_value());
  CHECK_FALSE(topLayerBelow(layers, 60e-6 - 1e-12).has_value());
  CHECK_FALSE(topLayerBelow({}, 0).has_value());
}

TEST_CASE("What is left is told in words", "[remains]") {
  const auto layers = fake::threeLayers().removal.layers;
  CHECK(plain(topWords(layers, 4e-6)) == "cream, 6.0 of 10 µm left");
  CHECK(plain(leftWords(layers, 4e-6)) == "cream, 6.0 of 10 µm left; under it grey, red oxide");
  CHECK(plain(leftWords(layers, 10e-6)) == "grey, untouched; under it red oxide");
  CHECK(plain(leftWords(layers, 45e-6)) == "red oxide (stays), 15 of 30 µm left");
  CHECK(leftWords(layers, 60e-6) == "bare metal");
}

TEST_CASE("The map of what remains counts the surface by its topmost layer, and the shares add up", "[remains]") {
  RemainsPlot plot;
  showMap(plot);
  REQUIRE(plot.stepper()->most() == 2);
  plot.setPass(0);
  CHECK(plot.legend()[0].share == Catch::Approx(1));
  plot.setPass(1);
  const auto legend = plot.legend();
  REQUIRE(legend.size() == 4);
  CHECK(legend[0].share == Catch::Approx(0.5));
  CHECK(legend[1].share == Catch::Approx(0.0));
  CHECK(legend[2].share == Catch::Approx(0.25));
  CHECK(legend[3].share == Catch::Approx(0.25));
  CHECK(legend[3].isMetal);
  CHECK(legend[2].name == "red oxide (stays)");
  CHECK(legend[0].colour == QColor("#efe3c2"));
  for (int pass = 0; pass <= 2; ++pass) {
    plot.setPass(pass);
    CHECK(sharesOf(plot) == Catch::Approx(1));
  }
  CHECK(plain(plot.statement()) == "After pass 2 of 2: 25 % bare, red oxide (stays) on 75 %");
}

TEST_CASE("The read-out on the map tells what is left there after the pass shown", "[remains]") {
  RemainsPlot plot;
  showMap(plot);
  plot.setPass(1);
  CHECK(plain(plot.readoutAt(0.5, 0.5)) == "0.50 mm across, 0.50 mm along: cream, untouched after pass 1");
  CHECK(plain(plot.readoutAt(1.5, 0.5)) == "1.5 mm across, 0.50 mm along: cream, 5.0 of 10 µm left after pass 1");
  CHECK(plain(plot.readoutAt(3.5, 1.5)).endsWith("bare metal after pass 1"));  // the cell comes again
  plot.setPass(2);
  CHECK(plain(plot.readoutAt(1.5, 0.5)).endsWith("red oxide (stays), untouched after pass 2"));
}

TEST_CASE("The map is painted in the layers' colours", "[remains]") {
  RemainsPlot plot;
  showMap(plot);
  plot.setPass(1);
  plot.canvas()->replot();
  const QImage image = plot.canvas()->grab().toImage();
  const auto at = [&](double across, double along) {
    return image.pixelColor(static_cast<int>(plot.canvas()->xAxis->coordToPixel(across)),
                            static_cast<int>(plot.canvas()->yAxis->coordToPixel(along)));
  };
  CHECK(at(0.6, 0.6) == QColor("#efe3c2"));
  CHECK(at(0.4, 1.4) == QColor("#8c3b2a"));
}

TEST_CASE("Where a screen point holds several points of the map the most frequent layer is shown", "[remains]") {
  const TopMap fine{4, 2, 2, {0, 0, 2, 1, 0, 1, 2, 2}};
  const TopMap coarse = mostFrequent(fine, 2, 1);
  CHECK(coarse.top == std::vector<std::uint8_t>{0, 2});
  CHECK(mostFrequent(fine, 4, 2).top == fine.top);
  CHECK(fine.shares() == std::vector<double>{3.0 / 8, 2.0 / 8, 3.0 / 8});
}

TEST_CASE("Without a map it says what to do, and while one is on its way the earlier one stays", "[remains]") {
  RemainsPlot plot;
  plot.setAssessment(fake::shared(Assessment()));
  CHECK(plot.emptyText().contains("Add what a chip shows"));
  plot.setProject(threeLayerProject());
  Assessment bare = fake::threeLayers();
  bare.removal.map.reset();
  plot.setAssessment(fake::shared(bare), true);
  CHECK(plot.emptyText().contains("follows in a moment"));
  plot.setAssessment(fake::shared(bare));
  CHECK(plot.emptyText().contains("not computed"));
  showMap(plot);
  plot.setPass(1);
  const QString before = plot.statement();
  plot.setAssessment(fake::shared(bare), true);
  CHECK(plot.emptyText().isEmpty());
  CHECK(plot.statement() == before);
  CHECK(plot.stepper()->pass() == 1);
  plot.setAssessment(fake::shared(fake::threeLayers()));
  CHECK(plot.stepper()->pass() == 1);
  plot.setAssessment(fake::shared(bare));
  CHECK_FALSE(plot.emptyText().isEmpty());
}

TEST_CASE("A pass that is asked for is kept while fewer can be shown", "[remains]") {
  PassStepper stepper;
  QSignalSpy changed(&stepper, &PassStepper::passChanged);
  stepper.setMost(4);
  stepper.slider()->setValue(3);
  CHECK(changed.count() == 1);
  stepper.setMost(0);
  CHECK(stepper.pass() == 0);
  CHECK_FALSE(stepper.slider()->isEnabled());
  stepper.setMost(4);
  CHECK(stepper.pass() == 3);
  CHECK(changed.count() == 1);
  QTest::keyClick(stepper.slider(), Qt::Key_Right);
  CHECK(stepper.pass() == 4);
  QTest::keyClick(stepper.slider(), Qt::Key_Left);
  CHECK(stepper.pass() == 3);
}

TEST_CASE("Running through the passes begins anew at the end and stops there", "[remains]") {
  PassStepper stepper;
  stepper.setMost(2);
  stepper.setPass(2);
  stepper.show();
  if (!stepper.playButton()->isEnabled()) return;  // this desktop asks for no animation
  stepper.playButton()->setChecked(true);
  CHECK(stepper.pass() == 0);
  CHECK(QTest::qWaitFor([&] { return !stepper.isPlaying(); }, 10000));
  CHECK(stepper.pass() == 2);
  CHECK_FALSE(stepper.playButton()->isChecked());
}

TEST_CASE("The deck swaps dose and what remains, keeps the zoom, and starts after the planned passes", "[remains]") {
  PlotDeck deck;
  deck.setProject(fake::panel());
  deck.setAssessment(fake::shared(fake::deepened(*fake::firstGuess())));
  deck.resize(680, 640);
  deck.show();
  deck.activateWindow();
  REQUIRE(QTest::qWaitForWindowActive(&deck));
  QSignalSpy stepped(&deck, &PlotDeck::passChanged);
  deck.plot(0)->canvas()->xAxis->setRange(2, 6);
  QTest::mouseClick(deck.plot(0)->findChild<QToolButton*>("viewRemains"), Qt::LeftButton);
  auto* plot = dynamic_cast<RemainsPlot*>(deck.plot(0));
  REQUIRE(plot);
  CHECK(plot->isVisible());
  CHECK(plot->hasFocus());
  CHECK(plot->canvas()->xAxis->range().lower == Catch::Approx(2));
  CHECK(plot->stepper()->pass() == 4);
  REQUIRE(stepped.count() == 1);
  CHECK(stepped[0][0].toInt() == 4);
  CHECK(plot->emptyText().isEmpty());
  QSignalSpy picked(&deck, &PlotDeck::placePicked);
  QTest::mouseClick(plot->canvas(), Qt::LeftButton, Qt::NoModifier, plot->canvas()->rect().center());
  CHECK(picked.count() == 1);
  QSignalSpy dropped(&deck, &PlotDeck::placeDropped);
  QTest::keyClick(plot, Qt::Key_Escape);
  CHECK(dropped.count() == 1);
  QTest::mouseClick(plot->findChild<QToolButton*>("viewDose"), Qt::LeftButton);
  CHECK(deck.plot(0) != plot);
  CHECK(deck.plot(0)->isVisible());
  CHECK_FALSE(plot->isVisible());
}

TEST_CASE("What remains is exported as picture, vector and table", "[remains]") {
  RemainsPlot plot;
  showMap(plot);
  plot.setPass(1);
  QTemporaryDir folder;
  for (const char* suffix : {"png", "svg", "pdf", "csv"}) {
    const QString file = folder.filePath(QStringLiteral("remains.") + QLatin1String(suffix));
    CHECK(plot.exportTo(file));
    CHECK(QFileInfo(file).size() > 40);
  }
  CHECK(plot.csv().startsWith("x_mm,y_mm,removed_um_after_pass_1\n0.5,0.5,0\n1.5,0.5,5\n"));
}

TEST_CASE("The depth plot draws the bounds of nine in ten such jobs and the likely depth", "[remains]") {
  DepthPlot plot;
  plot.setProject(fake::panel());
  const Assessment deep = fake::deepened(*fake::firstGuess());
  plot.setAssessment(fake::shared(deep));
  REQUIRE(plot.low()->dataCount() == static_cast<int>(deep.ranges->depth_m.size()));
  CHECK(plot.low()->data()->at(3)->value == Catch::Approx(deep.ranges->depth_m[3].low * 1e6));
  CHECK(plot.likely()->data()->at(3)->value == Catch::Approx(deep.ranges->depth_m[3].middle * 1e6));
  CHECK(plot.high()->data()->at(3)->value == Catch::Approx(deep.ranges->depth_m[3].high * 1e6));
  CHECK(plot.likely()->pen().widthF() > 2 * plot.low()->pen().widthF());
  CHECK_FALSE(plot.median()->visible());
  CHECK(plain(plot.statement()).contains("never clears in 62 % of cases"));
  CHECK(plot.readoutAt(3, 50).contains("likely"));
  CHECK(plot.csv().section('\n', 0, 0).endsWith("mean_depth_um_low,mean_depth_um_likely,mean_depth_um_high"));
  plot.setAssessment(fake::firstGuess());
  CHECK(plot.median()->visible());
  CHECK(plot.low()->dataCount() == 0);
  CHECK_FALSE(plot.statement().contains("9 in 10"));
}

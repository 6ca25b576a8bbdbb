// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "tests/support/fake_assessment.h"
#include "ui/plots/path_sketch.h"
#include "ui/plots/plot_deck.h"
#include "ui/plots/plot_view.h"
#include "ui/style/theme.h"

#include <QProxyStyle>
#include <QSignalSpy>
#include <QTest>
#include <QToolButton>
#include <qcustomplot.h>

using namespace bw;

namespace {

void showDeck(PlotDeck& deck, QSize size) {
  deck.setProject(fake::panel());
  deck.setAssessment(fake::firstGuess());
  deck.resize(size);
  deck.show();
  deck.activateWindow();
  QCoreApplication::processEvents();
}

int compactOnes(const PlotDeck& deck) {
  int count = 0;
  for (int i = 0; i < PlotDeck::plotCount; ++i) count += deck.plot(i)->isCompact() ? 1 : 0;
  return count;
}

}  // namespace

TEST_CASE("One plot is large and three are small until there is room for four") {
  PlotDeck deck;
  showDeck(deck, {680, 640});
  CHECK(compactOnes(deck) == 3);
  CHECK_FALSE(deck.plot(0)->isCompact());
  CHECK(deck.plot(0)->width() == deck.width());
  deck.resize(1280, 860);
  QCoreApplication::processEvents();
  CHECK(compactOnes(deck) == 0);
  for (int i = 0; i < PlotDeck::plotCount; ++i) CHECK(deck.rect().contains(deck.plot(i)->geometry()));
}

TEST_CASE("A click on a small plot and the keys 1 to 4 swap plots") {
  PlotDeck deck;
  showDeck(deck, {680, 640});
  QSignalSpy shown(&deck, &PlotDeck::shownPlotChanged);
  QTest::mouseClick(deck.plot(2)->canvas(), Qt::LeftButton);
  CHECK(deck.shownPlot() == 2);
  CHECK_FALSE(deck.plot(2)->isCompact());
  CHECK(deck.plot(0)->isCompact());
  REQUIRE(QTest::qWaitForWindowActive(&deck));
  QTest::keyClick(&deck, Qt::Key_4);
  CHECK(deck.shownPlot() == 3);
  QTest::keyClick(&deck, Qt::Key_1);
  CHECK(deck.shownPlot() == 0);
  CHECK(shown.count() == 3);
  deck.showPlot(7);
  CHECK(deck.shownPlot() == 0);
}

TEST_CASE("A place picked on the map is shown by the others") {
  PlotDeck deck;
  showDeck(deck, {1280, 860});
  QSignalSpy picked(&deck, &PlotDeck::placePicked);
  const QString before = deck.plot(2)->statement();
  QTest::mouseClick(deck.plot(0)->canvas(), Qt::LeftButton, Qt::NoModifier, deck.plot(0)->canvas()->rect().center());
  REQUIRE(picked.count() == 1);
  CHECK(deck.plot(2)->statement() != before);
  deck.clearPlace();
  CHECK(deck.plot(2)->statement() == before);
}

TEST_CASE("A stale deck is dimmed and brightens with the next result") {
  PlotDeck deck;
  showDeck(deck, {680, 640});
  const auto darkest = [&deck] {
    deck.plot(3)->canvas()->replot();
    const QImage image = deck.plot(3)->grab().toImage().convertToFormat(QImage::Format_Grayscale8);
    int least = 255;
    for (int y = 60; y < image.height() - 30; ++y) {
      for (int x = 50; x < image.width() - 6; ++x) least = std::min(least, qGray(image.pixel(x, y)));
    }
    return least;
  };
  const int fresh = darkest();
  deck.setStale(true);
  CHECK(darkest() > fresh + 60);
  deck.setAssessment(fake::firstGuess());
  CHECK(darkest() == fresh);
}

TEST_CASE("New results make no new plottables") {
  PlotDeck deck;
  showDeck(deck, {680, 640});
  int before = 0, after = 0;
  for (int i = 0; i < PlotDeck::plotCount; ++i) before += deck.plot(i)->canvas()->plottableCount();
  for (int i = 0; i < 5; ++i) deck.setAssessment(i % 2 == 0 ? fake::mended() : fake::firstGuess());
  for (int i = 0; i < PlotDeck::plotCount; ++i) after += deck.plot(i)->canvas()->plottableCount();
  CHECK(after == before);
}

TEST_CASE("What a machine without pulses leaves open does not trouble the deck") {
  PlotDeck deck;
  showDeck(deck, {1280, 860});
  deck.setAssessment(fake::continuous());
  deck.setGhost(fake::mended());
  QCoreApplication::processEvents();
  CHECK_FALSE(deck.plot(2)->emptyText().isEmpty());
  CHECK(deck.plot(1)->statement().contains("edge ratio not defined"));
  deck.setAssessment(nullptr);
  QCoreApplication::processEvents();
  for (int i = 0; i < PlotDeck::plotCount; ++i) CHECK_FALSE(deck.plot(i)->emptyText().isEmpty());
}

TEST_CASE("The path sketch says in words what it draws") {
  PathSketch sketch;
  sketch.setProject(fake::panel());
  CHECK_FALSE(sketch.accessibleName().contains("Frame"));
  sketch.setAssessment(fake::mended());
  sketch.resize(284, 190);
  CHECK(sketch.accessibleName().contains("Frame 32 × 14 mm"));
  CHECK(sketch.accessibleName().contains("Spot"));
  CHECK(sketch.accessibleName().contains("Pulses"));
  sketch.setAssessment(fake::continuous());
  CHECK(sketch.accessibleName().contains("Continuous"));
  CHECK_FALSE(sketch.grab().isNull());
}

TEST_CASE("The path sketch names a disc, a line and a frame for what they are") {
  Project project = fake::panel();
  Settings& settings = project.plans[1].settings;
  PathSketch sketch;
  sketch.setAssessment(fake::mended());
  const auto name = [&](Pattern pattern) {
    settings.pattern = pattern;
    sketch.setProject(project);
    return sketch.accessibleName();
  };
  CHECK(name(Pattern::Spiral).contains("Disc 32 mm across"));
  CHECK(name(Pattern::Spiral).contains("rings"));
  CHECK(name(Pattern::Sine).contains("Line 32 mm long"));
  CHECK_FALSE(name(Pattern::Sine).contains("lines"));
  CHECK(name(Pattern::TwoSine).contains("Frame 32 × 14 mm"));
}

TEST_CASE("Between the points of a path the head moves evenly, and keeps its ends") {
  const std::vector<PathPoint> path = {{0, 0, true, 0}, {4, 0, false, 1}, {4, 0, false, 1}, {4, 2, false, 3}};
  CHECK(alongPath(path, 0.25).x_m == 1);
  CHECK(alongPath(path, 0.25).lit);
  CHECK(alongPath(path, 2).x_m == 4);
  CHECK(alongPath(path, 2).y_m == 1);
  CHECK_FALSE(alongPath(path, 2).lit);
  CHECK(alongPath(path, 9).y_m == 2);
}

TEST_CASE("The path runs only while it is asked to and seen, and tells how much slower") {
  PathSketch sketch;
  sketch.resize(284, 190);
  sketch.show();
  auto* play = sketch.findChild<QToolButton*>("playPath");
  REQUIRE(play);
  CHECK_FALSE(play->isVisible());  // nothing to run along
  sketch.setProject(fake::panel());
  sketch.setAssessment(fake::mended());
  CHECK(play->isVisible());
  CHECK_FALSE(play->accessibleName().isEmpty());
  CHECK_FALSE(sketch.isPlaying());
  const QImage still = sketch.grab().toImage();
  QTest::keyClick(play, Qt::Key_Space);
  CHECK(sketch.isPlaying());
  CHECK(sketch.grab().toImage() != still);
  sketch.hide();
  CHECK_FALSE(sketch.isPlaying());
  sketch.show();
  CHECK_FALSE(sketch.isPlaying());
}

namespace {

/// A desktop that asks for no animation.
class StillStyle : public QProxyStyle {
 public:
  StillStyle() : QProxyStyle(QStringLiteral("Fusion")) {}
  int styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget, QStyleHintReturn* data) const override {
    return hint == SH_Widget_Animation_Duration ? 0 : QProxyStyle::styleHint(hint, option, widget, data);
  }
};

}  // namespace

TEST_CASE("Where the desktop asks for no animation the path does not run") {
  StillStyle style;
  PathSketch sketch;
  sketch.setStyle(&style);
  sketch.setAssessment(fake::mended());
  sketch.show();
  auto* play = sketch.findChild<QToolButton*>("playPath");
  CHECK_FALSE(play->isEnabled());
  CHECK(play->toolTip().contains("no animation"));
  QTest::keyClick(play, Qt::Key_Space);
  CHECK_FALSE(sketch.isPlaying());
}

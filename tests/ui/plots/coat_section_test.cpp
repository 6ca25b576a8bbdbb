// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "tests/support/fake_assessment.h"
#include "tests/ui/deepened.h"
#include "ui/plots/coat_canvas.h"
#include "ui/plots/coat_section.h"

#include <QSignalSpy>
#include <QSlider>
#include <QTest>

using namespace bw;

namespace {

void showSection(CoatSection& section, const Project& project) {
  section.setCoat(project);
  section.setAssessment(fake::firstGuess());
  section.resize(290, 330);
  section.show();
  QCoreApplication::processEvents();
}

double heightOf(const CoatCanvas& canvas, int layer) { return canvas.bottomOf(layer) - canvas.topOf(layer); }

}  // namespace

TEST_CASE("Layers are drawn to scale in their own colours") {
  CoatSection section;
  showSection(section, fake::panel());
  const CoatCanvas& canvas = *section.canvas();
  CHECK(heightOf(canvas, 1) / heightOf(canvas, 0) == Catch::Approx(60.0 / 45.0));
  CHECK_FALSE(canvas.isEnlarged(4));
  const QImage image = section.canvas()->grab().toImage();
  CHECK(image.pixelColor(20, static_cast<int>((canvas.topOf(0) + canvas.bottomOf(0)) / 2)) == QColor("#6b1f2a"));
  CHECK(image.pixelColor(20, static_cast<int>((canvas.topOf(2) + canvas.bottomOf(2)) / 2)) == QColor("#8d9497"));
}

TEST_CASE("A very thin layer keeps room for its name and is marked as not to scale") {
  Project project = fake::panel();
  project.coat[2].thickness_m = Range::exact(2e-6);
  CoatSection section;
  showSection(section, project);
  CHECK(section.canvas()->isEnlarged(2));
  CHECK(heightOf(*section.canvas(), 2) >= 16);
  CHECK(heightOf(*section.canvas(), 1) / heightOf(*section.canvas(), 0) == Catch::Approx(60.0 / 45.0));
  CHECK(section.canvas()->bottomOf(4) < section.canvas()->height());
}

TEST_CASE("Dragging a boundary changes the layer above it, in whole micrometres") {
  CoatSection section;
  showSection(section, fake::panel());
  QSignalSpy dragged(&section, &CoatSection::thicknessDragged), finished(&section, &CoatSection::thicknessDragFinished);
  CoatCanvas* canvas = section.canvas();
  const QPoint boundary(40, static_cast<int>(canvas->bottomOf(1)));
  const double perUm = heightOf(*canvas, 1) / 60;
  QTest::mousePress(canvas, Qt::LeftButton, Qt::NoModifier, boundary);
  QTest::mouseMove(canvas, boundary + QPoint(0, 10));
  QTest::mouseMove(canvas, boundary + QPoint(0, 20));
  QTest::mouseRelease(canvas, Qt::LeftButton, Qt::NoModifier, boundary + QPoint(0, 20));
  REQUIRE(dragged.count() >= 1);
  CHECK(finished.count() == 1);
  CHECK(dragged.last()[0].toInt() == 1);
  CHECK(dragged.last()[1].toDouble() == Catch::Approx(60e-6 + 20 / perUm * 1e-6).margin(1.1e-6));
}

TEST_CASE("The keyboard chooses a layer and changes its thickness") {
  CoatSection section;
  showSection(section, fake::panel());
  QSignalSpy dragged(&section, &CoatSection::thicknessDragged), finished(&section, &CoatSection::thicknessDragFinished),
      chosen(&section, &CoatSection::layerSelected);
  QTest::keyClick(section.canvas(), Qt::Key_Plus);
  CHECK(dragged.count() == 0);  // nothing chosen yet
  QTest::keyClick(section.canvas(), Qt::Key_Down);
  QTest::keyClick(section.canvas(), Qt::Key_Down);
  REQUIRE(chosen.count() == 2);
  CHECK(section.canvas()->selected() == 1);
  QTest::keyClick(section.canvas(), Qt::Key_Plus);
  QTest::keyClick(section.canvas(), Qt::Key_Minus, Qt::ControlModifier);
  REQUIRE(dragged.count() == 2);
  CHECK(finished.count() == 2);
  CHECK(dragged[0][1].toDouble() == Catch::Approx(61e-6));
  CHECK(dragged[1][1].toDouble() == Catch::Approx(51e-6));
  CHECK(section.canvas()->accessibleName().contains("cream"));
}

TEST_CASE("Passes wear the coat away where dose was") {
  CoatSection section;
  showSection(section, fake::panel());
  section.stepper()->setValue(0);
  const QImage before = section.canvas()->grab().toImage();
  section.stepper()->setValue(4);
  const QImage after = section.canvas()->grab().toImage();
  const QPoint top(20, static_cast<int>(section.canvas()->topOf(1)) - 4);  // low in the maroon, where it goes first
  CHECK(before.pixelColor(top) == QColor("#6b1f2a"));
  CHECK(after.pixelColor(top) != QColor("#6b1f2a"));
  CHECK(section.stepper()->maximum() == static_cast<int>(fake::firstGuess()->removal.places[0].depth_m.size()) - 1);
  section.setAssessment(fake::continuous());
  CHECK_FALSE(section.stepper()->isEnabled());
}

TEST_CASE("At a picked place the section is worn down evenly, and says what is left", "[remains]") {
  CoatSection section;
  Project project = fake::panel();
  project.coat.resize(3);
  for (std::size_t i = 0; i < 3; ++i) project.coat[i].thickness_m = Range::exact((10 + 10 * static_cast<double>(i)) * 1e-6);
  section.setCoat(project);
  section.setAssessment(fake::shared(fake::threeLayers()));
  section.resize(290, 330);
  section.show();
  QCoreApplication::processEvents();
  const auto words = [&section] { return section.words().replace(QChar(0xa0), ' '); };
  section.stepper()->setValue(1);
  CHECK(words() == "50 % clear. In the mean: grey, 6.2 of 20 µm left; under it red oxide.");
  section.setPlace(PickedPlace{1.5e-3, 0.5e-3});
  CHECK(words() == "Picked place: cream, 5.0 of 10 µm left; under it grey, red oxide.");
  const CoatCanvas& canvas = *section.canvas();
  const QImage half = section.canvas()->grab().toImage();
  const int low = static_cast<int>(0.2 * canvas.topOf(0) + 0.8 * canvas.bottomOf(0));
  const int high = static_cast<int>(0.8 * canvas.topOf(1) + 0.2 * canvas.bottomOf(1));
  CHECK(half.pixelColor(20, low) == QColor("#6b1f2a"));  // 5 of 10 um: the lower half is there
  section.stepper()->setValue(2);
  CHECK(words() == "Picked place: red oxide (stays), untouched.");
  const QImage through = section.canvas()->grab().toImage();
  CHECK(through.pixelColor(20, low) != QColor("#6b1f2a"));
  CHECK(through.pixelColor(20, high) != half.pixelColor(20, high));
  QTest::keyClick(section.canvas(), Qt::Key_Left);
  CHECK(section.stepper()->value() == 1);
  QTest::keyClick(section.canvas(), Qt::Key_Right);
  CHECK(section.stepper()->value() == 2);
  section.setPlace(std::nullopt);
  CHECK(words().contains("In the mean"));
}

TEST_CASE("The pass shown stays with a new result", "[remains]") {
  CoatSection section;
  showSection(section, fake::panel());
  section.stepper()->setValue(3);
  section.setAssessment(fake::shared(fake::deepened(*fake::firstGuess())));
  CHECK(section.stepper()->value() == 3);
}

TEST_CASE("An empty coat is drawn as bare metal with advice") {
  Project project = fake::panel();
  project.coat.clear();
  CoatSection section;
  showSection(section, project);
  CHECK(section.canvas()->accessibleName().contains("no layers"));
  QTest::keyClick(section.canvas(), Qt::Key_Down);
  QTest::mouseClick(section.canvas(), Qt::LeftButton, Qt::NoModifier, QPoint(20, 20));
  CHECK(section.canvas()->selected() == -1);
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/support.h"
#include "ui/fields/quantity_field.h"
#include "ui/models/area_model.h"
#include "ui/plan/layer_row.h"
#include "ui/plots/coat_section.h"

#include "tests/support/catch.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QScrollArea>
#include <QTableView>
#include <QToolButton>

using namespace bw;
using test::Window;

namespace {

LayerRow* row(Window& window, int index) {
  auto* found = window.find<LayerRow>(qPrintable(QStringLiteral("layer%1").arg(index)));
  REQUIRE(found);
  return found;
}

/// A window with the table of layers unfolded.
struct CoatWindow : Window {
  CoatWindow() {
    find<QToolButton>("editCoat")->setChecked(true);
    QCoreApplication::processEvents();
  }
};

QuantityField* thickness(Window& window, int index) { return row(window, index)->findChild<QuantityField*>("layerThickness"); }

void show(Window& window, QWidget* widget) { window.find<QScrollArea>("inputs")->ensureWidgetVisible(widget); }

std::vector<std::string> names(const ProjectDocument& document) {
  std::vector<std::string> all;
  for (const Layer& layer : document.project().coat) all.push_back(layer.name);
  return all;
}

}  // namespace

TEST_CASE("Layers are added, moved and removed with the buttons, and every step is undone", "[coat]") {
  CoatWindow window;
  const auto before = names(window.document());
  auto* add = window.find<QToolButton>("addLayer");
  show(window, add);
  window.click(add);
  REQUIRE(window.document().project().coat.size() == before.size() + 1);
  CHECK(window.document().project().coat[1].knownFrom == KnownFrom::Unknown);
  window.click(window.find<QToolButton>("moveLayerDown"));
  CHECK(names(window.document())[2] == "new layer");
  window.click(window.find<QToolButton>("moveLayerUp"));
  CHECK(names(window.document())[1] == "new layer");
  window.click(window.find<QToolButton>("removeLayer"));
  CHECK(names(window.document()) == before);
  CHECK(window.document().undoStack().count() == 4);
  while (window.document().undoStack().canUndo()) window.click(window.find<QToolButton>("undo"));
  CHECK(window.document().project() == test::panel());
}

TEST_CASE("A thickness takes a range, and typing it says that it is yours", "[coat]") {
  CoatWindow window;
  window.type(thickness(window, 0), "40..60");
  const Layer& layer = window.document().project().coat[0];
  CHECK(layer.thickness_m.low == Catch::Approx(40e-6));
  CHECK(layer.thickness_m.high == Catch::Approx(60e-6));
  CHECK(layer.knownFrom == KnownFrom::Guess);
  window.click(window.find<QToolButton>("undo"));
  CHECK(window.document().project() == test::panel());
  CHECK(thickness(window, 0)->edit()->text() == "45");
}

TEST_CASE("Not knowing a thickness is saved as such, with the coating's typical range", "[coat]") {
  CoatWindow window;
  window.type(thickness(window, 0), "don't know");
  const Layer& layer = window.document().project().coat[0];
  CHECK(layer.knownFrom == KnownFrom::Unknown);
  CHECK(layer.thickness_m.low < layer.thickness_m.high);
  CHECK(window.document().undoStack().count() == 1);
}

TEST_CASE("The mark beside a thickness says that it was measured, and the status line counts it", "[coat]") {
  CoatWindow window;
  CHECK(window.find<QLabel>("measuredCount")->text().startsWith("1 of 7"));
  emit thickness(window, 1)->provenanceChosen(KnownFrom::Gauge);
  CHECK(window.document().project().coat[1].knownFrom == KnownFrom::Gauge);
  CHECK(window.find<QLabel>("measuredCount")->text().startsWith("2 of 7"));
}

TEST_CASE("Name, coating and keep are edited in the row", "[coat]") {
  CoatWindow window;
  auto* name = row(window, 1)->findChild<QLineEdit*>("layerName");
  show(window, name);
  QTest::mouseClick(name, Qt::LeftButton);
  name->selectAll();
  QTest::keyClicks(name, "ivory");
  QTest::keyClick(name, Qt::Key_Return);
  CHECK(window.document().project().coat[1].name == "ivory");
  auto* keep = row(window, 1)->findChild<QCheckBox*>("layerKeep");
  QCoreApplication::processEvents();
  show(window, keep);
  window.click(keep);
  CHECK(window.document().project().coat[1].keep);
  auto* coating = row(window, 1)->findChild<QComboBox*>("layerCoating");
  coating->setCurrentIndex(0);
  emit coating->activated(0);
  CHECK(window.document().project().coat[1].coating == coating->currentData().toString().toStdString());
  CHECK(window.document().undoStack().count() == 3);
}

TEST_CASE("Dragging a boundary of the drawn coat is one undo step", "[coat]") {
  CoatWindow window;
  auto* section = window->findChild<CoatSection*>();
  REQUIRE(section);
  for (const double thickness_m : {46e-6, 48e-6, 52e-6}) emit section->thicknessDragged(0, thickness_m);
  CHECK(window.document().project().coat[0].thickness_m.likely == 52e-6);
  CHECK(thickness(window, 0)->edit()->text() == "52");
  CHECK(window.document().undoStack().count() == 1);
  window.document().undoStack().undo();
  CHECK(window.document().project() == test::panel());
}

TEST_CASE("The part is a sentence that follows its fields", "[coat]") {
  Window window;
  auto* sentence = window.find<QLabel>("partSentence");
  CHECK(sentence->text() == QString::fromUtf8("1.2 mm mild steel, 600 × 400 mm, light etch allowed; paint behind."));
  CHECK_FALSE(window.find<QWidget>("partThickness")->isVisible());
  window.click(window.find<QToolButton>("editPart"));
  QCoreApplication::processEvents();
  window.type(window.field("partThickness"), "0,9");
  CHECK(sentence->text().startsWith("0.9 mm mild steel"));
  window.type(window.field("backFaceLimit"), "-");
  CHECK(window.document().project().part.limits.empty());
}

TEST_CASE("Areas are edited in their table", "[coat]") {
  Window window;
  window.click(window.find<QToolButton>("editPart"));
  auto* model = window.find<QTableView>("areas")->model();
  REQUIRE(model->rowCount() == 2);
  CHECK(model->setData(model->index(0, AreaModel::Size), "25 dm2", Qt::EditRole));
  CHECK(window.document().project().part.areas[0].area_m2 == Catch::Approx(0.25));
  CHECK_FALSE(model->setData(model->index(0, AreaModel::Tilt), "95", Qt::EditRole));
  window.document().undoStack().undo();
  CHECK(window.document().project() == test::panel());
}

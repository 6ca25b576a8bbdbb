// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/support.h"
#include "ui/fields/quantity_field.h"
#include "ui/plan/layer_test_button.h"
#include "ui/plan/shop_section.h"

#include "core/assess/assess.h"
#include "core/values/shop.h"
#include "tests/support/catch.h"

#include <QCheckBox>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QScrollArea>
#include <QToolButton>

using namespace bw;
using test::Window;

namespace {

const VerdictRow& airAndEyes(Window& window) {
  const auto& rows = window->assessment()->verdict;
  return *std::ranges::find(rows, "safety", &VerdictRow::check);
}

void unfoldShop(Window& window) { window.find<QToolButton>("editShop")->setChecked(true); }

void tick(Window& window, const char* name) {
  auto* box = window.find<QCheckBox>(name);
  REQUIRE(box);
  window.find<QScrollArea>("inputs")->ensureWidgetVisible(box);
  box->click();
}

}  // namespace

TEST_CASE("Extraction is planned in the plan's own column, and is then no longer asked for", "[shop]") {
  Window window(shippedModel());
  CHECK(airAndEyes(window).remedy == "Plan extraction.");
  unfoldShop(window);
  tick(window, "extraction");
  window.settle();
  CHECK(window.document().plan().extraction->on);
  CHECK(airAndEyes(window).remedy != "Plan extraction.");
  window.type(window.field("extractionFlow"), "900");
  window.settle();
  CHECK(airAndEyes(window).message.find("900 m³/h") != std::string::npos);
  CHECK(window.document().undoStack().count() == 2);
  window.document().undoStack().undo();
  window.document().undoStack().undo();
  CHECK(window.document().project() == test::panel());
  CHECK_FALSE(window.find<QCheckBox>("extraction")->isChecked());
}

TEST_CASE("Every field of room and people is kept, shown in a sentence, and undone", "[shop]") {
  Window window;
  unfoldShop(window);
  const std::pair<const char*, const char*> typed[] = {{"air", "8"},    {"humidity", "85"},       {"supply", "2,2"},
                                                       {"people", "2"}, {"eyewear", "1"},         {"eyewearDensity", "6"},
                                                       {"masks", "2"},  {"machinePerHour", "20"}, {"labourPerHour", "38,5"}};
  int steps = 0;
  for (const auto& [name, text] : typed) {
    INFO(name);
    window.type(window.field(name), text);
    CHECK(window.document().undoStack().count() == ++steps);
  }
  for (const char* name : {"generator", "sparkTrap", "gasFilter"}) {
    tick(window, name);
    CHECK(window.document().undoStack().count() == ++steps);
  }
  const ShopFacts facts = shopOf(window.document().project(), window.document().plan());
  CHECK(window.document().project().part.ambientTemperature_C == 8);
  CHECK(facts.site.humidity == Catch::Approx(0.85));
  CHECK(facts.site.supply_W == Catch::Approx(2200));
  CHECK(facts.site.generator);
  CHECK(facts.site.eyewear == 1);
  CHECK(facts.site.eyewearDensity == 6);
  CHECK(facts.site.masks == 2);
  CHECK(facts.prices.machinePerHour == 20);
  CHECK(facts.prices.labourPerHour == 38.5);
  CHECK(facts.extraction.filters == std::vector{Filter::SparkTrap, Filter::Gas});
  const QString said = window.find<QLabel>("shopSentence")->text().replace(QChar(0xa0), QLatin1Char(' '));
  CHECK(said.toStdString() == "Air 8 °C, humidity 85 %. No extraction planned. 2 people, eyewear for 1.");
  while (window.document().undoStack().canUndo()) window.document().undoStack().undo();
  CHECK(window.document().project() == test::panel());
}

TEST_CASE("Unfolding room and people brings its fields into view", "[shop]") {
  Window window;
  window->resize(1280, 800);
  auto* first = window.field("air");
  unfoldShop(window);
  const auto inView = [&] {
    QCoreApplication::processEvents();
    const QWidget* view = window.find<QScrollArea>("inputs")->viewport();
    return view->rect().contains(first->mapTo(view, first->rect().center()));
  };
  CHECK(QTest::qWaitFor(inView, 2000));
}

TEST_CASE("What lies out of bounds is said beside the field and changes nothing", "[shop]") {
  Window window;
  unfoldShop(window);
  for (const auto& [name, text] : {std::pair{"air", "-90"}, {"humidity", "120"}, {"people", "2,5"}, {"eyewearDensity", "99"}}) {
    INFO(name);
    window.type(window.field(name), text);
    CHECK_FALSE(window.field(name)->problem().isEmpty());
  }
  CHECK(window.document().undoStack().count() == 0);
}

TEST_CASE("A layer's test is entered at the layer, in one step, and makes air and eyes known", "[shop]") {
  Window window(shippedModel());
  CHECK(airAndEyes(window).status == Status::NotKnown);
  const auto layers = window.document().project().coat.size();
  for (std::size_t layer = 0; layer < layers; ++layer) {
    LayerTestButton button(window.document(), layer);
    button.refresh();
    emit button.menu()->aboutToShow();
    auto* none = button.menu()->findChild<QAction*>("testedNone");
    REQUIRE(none);
    if (none->isEnabled()) none->trigger();
    button.refresh();
    CHECK_FALSE(button.text().contains("Not tested"));
  }
  window.settle();
  CHECK(airAndEyes(window).status == Status::Near);
  while (window.document().undoStack().canUndo()) window.document().undoStack().undo();
  CHECK(window.document().project() == test::panel());
}

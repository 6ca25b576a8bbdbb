// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/fields/chooser.h"
#include "ui/fields/quantity_field.h"

#include "tests/support/catch.h"

#include <QLineEdit>
#include <QVBoxLayout>
#include <QtTest>

using namespace bw;

namespace {

QuantityField::Description spacing() { return {"Line spacing", "Distance between lines.", quantities::length, 1e-5, 0.01, 1e-5}; }

struct Page {
  explicit Page(QuantityField::Description description) : field(new QuantityField(std::move(description))), other(new QLineEdit) {
    auto* column = new QVBoxLayout(&widget);
    column->addWidget(field);
    column->addWidget(other);
    widget.show();
    widget.activateWindow();
    REQUIRE(QTest::qWaitForWindowActive(&widget));
    field->setValue(80e-6);
    field->edit()->setFocus();
    QObject::connect(field, &QuantityField::edited, [this](Range value, EditKind kind) { edits.push_back({value, kind}); });
  }
  void type(const QString& text, Qt::Key end = Qt::Key_Return) {
    field->edit()->selectAll();
    QTest::keyClicks(field->edit(), text);
    QTest::keyClick(field->edit(), end);
  }
  void wheel(QWidget* over) {
    const QPointF at = QRectF(over->rect()).center();
    QWheelEvent event(at, over->mapToGlobal(at), {}, {0, 120}, Qt::NoButton, Qt::NoModifier, Qt::NoScrollPhase, false);
    QCoreApplication::sendEvent(over, &event);
  }
  QWidget widget;
  QuantityField* field;
  QLineEdit* other;
  std::vector<std::pair<Range, EditKind>> edits;
};

}  // namespace

TEST_CASE("Typing commits with Enter and with leaving the field, comma as well as point", "[fields]") {
  Page page(spacing());
  page.type("0,1");
  REQUIRE(page.edits.size() == 1);
  CHECK(page.edits[0].first.likely == Catch::Approx(1e-4));
  CHECK(page.edits[0].second == EditKind::Whole);
  CHECK(page.field->edit()->text() == "0.1");
  page.type("0.2", Qt::Key_Tab);
  REQUIRE(page.edits.size() == 2);
  CHECK(page.edits[1].first.likely == Catch::Approx(2e-4));
}

TEST_CASE("A bad number shows a sentence and changes nothing; Esc restores", "[fields]") {
  Page page(spacing());
  for (const auto& [text, part] : {std::pair{"soon", "not understood"}, {"50", "must lie between"}, {"1 2", "one number"}, {"-", "must be a number"}}) {
    INFO(text);
    page.type(text);
    CHECK(page.edits.empty());
    CHECK(page.field->problem().contains(part));
    CHECK(page.field->value()->likely == 80e-6);
    CHECK(page.field->edit()->text() == text);
  }
  QTest::keyClick(page.field->edit(), Qt::Key_Escape);
  CHECK(page.field->problem().isEmpty());
  CHECK(page.field->edit()->text() == "0.08");
}

TEST_CASE("A bad entry is not wiped when the same value is set again", "[fields]") {
  Page page(spacing());
  page.type("soon");
  page.field->setValue(80e-6);
  CHECK(page.field->edit()->text() == "soon");
  page.field->setValue(90e-6);
  CHECK(page.field->edit()->text() == "0.09");
}

TEST_CASE("Keys step, page keys ten at a time, and stop at the limits", "[fields]") {
  Page page(spacing());
  QTest::keyClick(page.field->edit(), Qt::Key_Up);
  QTest::keyClick(page.field->edit(), Qt::Key_PageUp);
  REQUIRE(page.edits.size() == 2);
  CHECK(page.edits[1].first.likely == Catch::Approx(190e-6));
  CHECK(page.edits[1].second == EditKind::Step);
  for (int press = 0; press < 30; ++press) QTest::keyClick(page.field->edit(), Qt::Key_PageDown);
  CHECK(page.field->value()->likely == 1e-5);
}

TEST_CASE("The wheel edits only the focused field", "[fields]") {
  Page page(spacing());
  page.wheel(page.field->edit());
  CHECK(page.edits.size() == 1);
  page.other->setFocus();
  page.wheel(page.field->edit());
  CHECK(page.edits.size() == 1);
}

TEST_CASE("A value with more digits than are shown is not rounded by passing through", "[fields]") {
  Page page(spacing());
  page.field->setValue(83.333333e-6);
  page.field->edit()->setFocus();
  page.other->setFocus();
  CHECK(page.edits.empty());
  CHECK(page.field->value()->likely == 83.333333e-6);
}

TEST_CASE("A field for a property takes a range and don't know", "[fields]") {
  auto description = spacing();
  description.range = description.unknown = true;
  Page page(description);
  page.type("0.1..0.2");
  REQUIRE(page.edits.size() == 1);
  CHECK(page.edits[0].first.high == Catch::Approx(2e-4));
  QSignalSpy unknown(page.field, &QuantityField::unknownChosen);
  page.type("don't know");
  CHECK(unknown.count() == 1);
  CHECK_FALSE(page.field->value());
}

TEST_CASE("The wheel over a chooser without the focus chooses nothing", "[fields]") {
  Page page(spacing());
  auto* chooser = new Chooser("Metal", "What is under the coat.");
  chooser->add("a", "one");
  chooser->add("b", "two");
  page.widget.layout()->addWidget(chooser);
  QTest::qWait(1);
  QSignalSpy chosen(chooser, &Chooser::chosen);
  page.wheel(chooser);
  CHECK(chooser->id() == "a");
  chooser->setId("zinc-bath");
  CHECK(chooser->id() == "zinc-bath");
  CHECK(chosen.count() == 0);
}

TEST_CASE("A field says its name and explains itself", "[fields]") {
  Page page(spacing());
  page.field->setProvenance(KnownFrom::Gauge);
  CHECK(page.field->edit()->accessibleName() == "Line spacing");
  CHECK(page.field->edit()->toolTip().endsWith('.'));
  auto* mark = page.field->findChild<ProvenanceMark*>("provenance");
  REQUIRE(mark);
  CHECK(mark->accessibleName().contains("measured"));
}

TEST_CASE("What is wrong in a field goes with the part it was about", "[fields]") {
  Page page(spacing());
  page.type("0.1x");
  REQUIRE_FALSE(page.field->problem().isEmpty());
  page.field->setValue(80e-6);
  CHECK_FALSE(page.field->problem().isEmpty());  // still to be mended
  page.field->dropTyped();
  CHECK(page.field->problem().isEmpty());
  CHECK(page.field->edit()->text() == "0.08");
}

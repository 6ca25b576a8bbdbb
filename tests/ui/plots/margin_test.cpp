// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "tests/support/fake_assessment.h"
#include "tests/ui/deepened.h"
#include "tests/ui/plots/shown_panel.h"
#include "ui/plan/fact_list.h"
#include "ui/plan/margin_bar.h"
#include "ui/plan/verdict_panel.h"
#include "ui/plan/verdict_row.h"
#include "ui/style/theme.h"

#include <QTest>

using namespace bw;
using namespace bw::test;

namespace {

/// Limits out of order: touch only warns, tint is far, paint is tight and met.
Assessment threeLimits() {
  Assessment made = fake::threeLayers();
  LimitResult tint{"first straw tint", "front", 160, 260, 0.42, "heat-tint colours of steel", false};
  LimitResult touch{"touch", "front", 160, 65, -2.1, "a short touch of bare metal", true};
  LimitResult paint{"paint behind", "back", 150, 150, 0.0, "alkyd paint, common practice, no source", false};
  paint.limitUpTo_C = 180;
  paint.predictedRange_C = Spread{135, 150, 175};
  paint.reached_s = 240;
  paint.stillHand_s = 2.1;
  made.thermal.limits = {touch, tint, paint};
  made.thermal.stillHand = StillHandHeat{{0.1, 1, 10}, {100, 150, 240}, {90, 140, 230}, {100, 150, 240}, 0};
  made.thermal.flatness = FlatnessTerms{0.7, 0.42, 0.18, 86, 0.034};
  made.verdict.push_back({"flatness", "Stays flat?", Status::Near, "Index 0.7.", ""});
  return made;
}

const DetailList& detailsOf(const VerdictPanel& panel, const std::string& check) {
  for (VerdictRowView* row : panel.rows())
    if (row->check() == check) return *row->details();
  FAIL("no such row");
  return *panel.rows().front()->details();
}

}  // namespace

TEST_CASE("Under the question of heat stands each limit with what is predicted, tightest first", "[margins]") {
  VerdictPanel panel;
  showPanel(panel, threeLimits());
  const auto& bars = detailsOf(panel, "temperature").margins();
  REQUIRE(bars.size() == 3);
  CHECK(bars[0]->line().name == "paint behind, back");
  CHECK(plain(bars[0]->line().words) == "135 to 175 °C, likely 150; limit 150 °C, some bear 180; met after 4 min; hand may stop 2.1 s");
  CHECK(bars[1]->line().name == "first straw tint, front");
  CHECK(plain(bars[1]->line().words) ==
        "160 °C; limit 260 °C; hand stopping: not within the 10 s followed. Single estimate, spread not computed");
  CHECK(plain(bars[2]->line().words).contains("warning only"));
  CHECK(plain(bars[0]->accessibleName()).startsWith("paint behind, back: 135 to 175 °C"));
  CHECK(bars[0]->accessibleDescription().contains("alkyd paint"));
  CHECK(bars[0]->toolTip().contains("alkyd paint"));
}

TEST_CASE("The bar of a limit runs from the start to beyond it, in order", "[margins]") {
  VerdictPanel panel;
  showPanel(panel, threeLimits());
  const MarginBar* bar = detailsOf(panel, "temperature").margins()[0];
  CHECK(bar->xOf(20) == 1);
  CHECK(bar->xOf(135) < bar->xOf(150));
  CHECK(bar->xOf(150) < bar->xOf(175));
  CHECK(bar->xOf(175) < bar->xOf(180));
  CHECK(bar->xOf(180) < bar->width() - 5);
  CHECK(bar->xOf(1e9) == bar->width() - 1);
}

TEST_CASE("The bar draws its line from end to end, a lighter band as far as some bear, hatching beyond", "[margins]") {
  VerdictPanel panel;
  showPanel(panel, threeLimits());
  rowOf(panel, "temperature")->setOpen(true);
  rowOf(panel, "temperature")->setUnfolded(true);
  QCoreApplication::processEvents();
  MarginBar* bar = detailsOf(panel, "temperature").margins()[0];
  const QImage image = bar->grab().toImage();
  const Tones tones = tonesOf(bar->palette());
  const int bottom = bar->height() - 16 - 4, top = bottom - 9;
  const auto has = [&](double x, const QColor& colour) {
    for (int y = top; y <= bottom; ++y)
      if (image.pixelColor(static_cast<int>(x), y) == colour) return true;
    return false;
  };
  CHECK(has(bar->xOf(140), tones.accent));
  CHECK(has(bar->xOf(170), tones.accent));
  CHECK_FALSE(has(bar->xOf(120), tones.accent));
  const QColor band = blend(tones.sheet, tones.line, 0.45);
  CHECK(has((bar->xOf(150) + bar->xOf(180)) / 2, band));
  CHECK_FALSE(has(bar->xOf(120), band));
  CHECK_FALSE(has(bar->xOf(180) + 6, band));
}

TEST_CASE("While the spread of the limits is on its way the bars say so, and those of before stay dimmed", "[margins]") {
  Assessment first = threeLimits();
  for (LimitResult& limit : first.thermal.limits) limit.predictedRange_C.reset();
  VerdictPanel panel;
  showPanel(panel, first, true);
  CHECK(detailsOf(panel, "temperature").margins()[0]->line().words.endsWith("Spread follows"));
  showPanel(panel, threeLimits());
  showPanel(panel, first, true);
  CHECK(plain(detailsOf(panel, "temperature").margins()[0]->line().words).startsWith("135 to 175 °C"));
  CHECK_FALSE(detailsOf(panel, "temperature").isEnabled());
}

TEST_CASE("A face with a limit stands with it; one without keeps a bar of its own", "[margins]") {
  Assessment made = threeLimits();
  made.thermal.back_C = 150;
  made.thermal.front_C = 171;
  VerdictPanel panel;
  showPanel(panel, made);
  QStringList names;
  for (const RangeBar* bar : detailsOf(panel, "temperature").bars()) names << bar->line().name;
  CHECK(names == QStringList{"Front face"});
}

TEST_CASE("The three terms of flatness open under its question", "[margins]") {
  VerdictPanel panel;
  showPanel(panel, threeLimits());
  const auto& facts = detailsOf(panel, "flatness").facts();
  REQUIRE(facts.size() == 3);
  CHECK(plain(facts[1]->text()) == "Pops out of plane while hot: 0.42 of 1, where trouble may begin.");
  for (const FactLine* fact : facts) CHECK(fact->toolTip().endsWith('.'));
  Assessment none = threeLimits();
  none.thermal.flatness.reset();
  showPanel(panel, none);
  CHECK(detailsOf(panel, "flatness").facts().empty());
}

TEST_CASE("No text of a limit's bar is smaller than 12 px", "[margins]") {
  VerdictPanel panel;
  showPanel(panel, threeLimits());
  for (const MarginBar* bar : detailsOf(panel, "temperature").margins()) CHECK(QFontInfo(bar->font()).pixelSize() >= space::leastFont);
}

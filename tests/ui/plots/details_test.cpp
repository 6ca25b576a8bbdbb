// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "tests/support/fake_assessment.h"
#include "tests/ui/deepened.h"
#include "tests/ui/plots/shown_panel.h"
#include "ui/plan/answer_line.h"
#include "ui/plan/fact_list.h"
#include "ui/plan/find_out_next.h"
#include "ui/plan/verdict_panel.h"
#include "ui/plan/verdict_row.h"
#include "ui/style/format.h"
#include "ui/style/range_text.h"
#include "ui/style/theme.h"

#include <QTest>

#include <limits>

using namespace bw;
using namespace bw::test;

namespace {

constexpr double never = std::numeric_limits<double>::infinity();

Assessment deepThreeLayers() {
  Assessment made = fake::threeLayers();
  made.removal.passesNeeded = 5;
  made.removal.clearedFraction = 0.9;
  made.removal.heatIntoPartFraction = 0.4;
  made.removal.layers[0].passes = 2;
  made.removal.layers[0].clearsUpTo_rad = 0.8378;  // 48 degrees
  made.removal.layers[1].stallReason = "most of the light goes back out";
  made.removal.layers[2].lost = true;
  made.removal.layers[2].removed_m = 6e-6;
  made.removal.stillHand = StillHand{0.3, 0.9};
  made.thermal.back_C = 150;
  made.thermal.limits = {{"paint behind", "back", 150, 160, 0.07, "typical", false}};
  made.job.totalTime_s = 4500;
  made.finish.etch_m = 2e-6;
  Ranges ranges;
  ranges.passesNeeded = {4, 5, 7};
  ranges.clearedFraction = {0.8, 0.9, 0.97};
  ranges.heatIntoPartFraction = {0.35, 0.4, 0.5};
  ranges.back_C = Spread{135, 150, 175};
  ranges.totalTime_s = Spread{65 * 60, 75 * 60, 95 * 60};
  ranges.etch_m = Spread{0.7e-6, 2e-6, 3e-6};
  ranges.layers = {{{1, 2, 3}, {}, 0}, {{3, never, never}, {}, 0.7}, {{4, 5, 7}, {}, 0}};
  ranges.influences = {
      {"thickness of cream", 0.6, {6, 6, 8}}, {"light taken up by grey", 0.3, {4, 5, 7}}, {"density of grey", 0.01, {4, 5, 7}}};
  made.ranges = ranges;
  return made;
}

RangeBar* barOf(const VerdictPanel& panel, const std::string& check, const QString& name) {
  for (RangeBar* bar : rowOf(panel, check)->details()->bars())
    if (bar->line().name == name) return bar;
  return nullptr;
}

}  // namespace

TEST_CASE("A range is told with its ends, what is likely, and the unit once", "[ranges]") {
  CHECK(plain(format::range({135, 150, 175}, format::temperature)) == "135 to 175 °C, likely 150");
  CHECK(plain(format::range({3900, 5000, 7500}, format::duration)) == "65 min to 2 h 5 min, likely 83 min");
  CHECK(plain(format::range({45, 60, 80}, format::duration)) == "45 to 80 s, likely 60");
  CHECK(plain(format::range({2e-6, 2e-6, 2.01e-6}, format::length)) == "2.0 µm");
  CHECK(plain(format::ends({0.5e-6, 1e-6, 2e-3}, format::length)) == "0.50 µm to 2.0 mm");
}

TEST_CASE("A range of passes says when it never ends", "[ranges]") {
  CHECK(plain(format::range({4, 5, 7}, format::passes, 0)) == "4 to 7 passes, likely 5");
  CHECK(plain(format::range({1, 1, 1}, format::passes, 0)) == "1 pass");
  CHECK(plain(format::range({1, 2, 3}, format::passes, 0)) == "1 to 3 passes, likely 2");
  CHECK(plain(format::range({4, 6, never}, format::passes, 0.12)) == "4 passes or more, likely 6; never clears in 12 % of cases");
  CHECK(plain(format::range({4, never, never}, format::passes, 0.62)) == "4 passes or more; never clears in 62 % of cases");
  CHECK(plain(format::range({never, never, never}, format::passes, 1)) == "never clears in 100 % of cases");
  CHECK(plain(format::range({2400, 3600, never}, format::duration, 0.12)) == "40 min or more, likely 60; never clears in 12 % of cases");
}

TEST_CASE("Rows of the verdict draw their ranges with the limit as a post", "[ranges]") {
  VerdictPanel panel;
  showPanel(panel, deepThreeLayers());
  RangeBar* passes = barOf(panel, "removal", "Passes until clear");
  REQUIRE(passes);
  CHECK(plain(wordsOf(passes->line())) == "4 to 7 passes, likely 5; 4 planned");
  CHECK(passes->xOf(4) < passes->xOf(5));
  CHECK(passes->xOf(5) < passes->xOf(7));
  CHECK(passes->xOf(7) < passes->width());
  CHECK(passes->xOf(never) == passes->width() - 1);
  CHECK(plain(passes->accessibleName()) == "Passes until clear: 4 to 7 passes, likely 5; 4 planned");
  CHECK(barOf(panel, "temperature", "Back face") == nullptr);  // it stands with its limit
  const auto& margins = rowOf(panel, "temperature")->details()->margins();
  REQUIRE(margins.size() == 1);
  CHECK(plain(margins[0]->line().words) == "135 to 175 °C, likely 150; limit 160 °C");
  CHECK(plain(wordsOf(barOf(panel, "finish", "Etch")->line())) == "0.70 to 3.0 µm, likely 2.0");
  CHECK(plain(wordsOf(barOf(panel, "time", "Time in all until clear")->line())) == "65 to 95 min, likely 75");
  CHECK(barOf(panel, "time", "Price until clear") == nullptr);  // nothing known, nothing drawn
}

TEST_CASE("A range bar draws its line from end to end, and hatches beyond the limit", "[ranges]") {
  RangeBar bar;
  bar.setLine({"Back face", "Hottest there.", format::temperature, 150, Spread{135, 150, 175}, 160, "limit 160 °C"});
  bar.resize(240, bar.heightForWidth(240));
  const QImage image = bar.grab().toImage();
  const QColor accent = tonesOf(bar.palette()).accent;
  const auto hasAccent = [&](double x) {
    for (int y = bar.height() - 15; y < bar.height() - 2; ++y)
      if (image.pixelColor(static_cast<int>(x), y) == accent) return true;
    return false;
  };
  CHECK(hasAccent(bar.xOf(140)));
  CHECK(hasAccent(bar.xOf(172)));
  CHECK_FALSE(hasAccent(bar.xOf(120)));
  CHECK_FALSE(hasAccent(bar.xOf(175) + 6));
}

TEST_CASE("Until a spread is there the single estimate stands in its place and says so", "[ranges]") {
  Assessment first = deepThreeLayers();
  first.ranges.reset();
  VerdictPanel panel;
  showPanel(panel, first);
  RangeBar* passes = barOf(panel, "removal", "Passes until clear");
  REQUIRE(passes);
  CHECK(plain(wordsOf(passes->line())) == "5 passes; 4 planned. Single estimate, spread not computed");
  CHECK(panel.findOutNext()->state().contains("spread not computed"));
  showPanel(panel, first, true);
  CHECK(plain(wordsOf(passes->line())) == "5 passes; 4 planned. Spread follows");
  showPanel(panel, deepThreeLayers());
  showPanel(panel, first, true);  // what stands there stays until the new spread comes
  CHECK(plain(wordsOf(passes->line())) == "4 to 7 passes, likely 5; 4 planned");
  CHECK_FALSE(passes->isEnabled());
  showPanel(panel, first);
  CHECK(plain(wordsOf(passes->line())) == "5 passes; 4 planned. Single estimate, spread not computed");
  CHECK(passes->isEnabled());
}

TEST_CASE("Layers say when they clear, why they stall, what is lost and up to which tilt", "[ranges]") {
  VerdictPanel panel;
  showPanel(panel, deepThreeLayers());
  const auto& facts = rowOf(panel, "removal")->details()->facts();
  REQUIRE(facts.size() == 4);
  CHECK(plain(facts[0]->text()) == "cream: clear after 1 to 3 passes, likely 2; clears up to 48° of tilt");
  CHECK(plain(facts[1]->text()) ==
        "grey: clear after 3 passes or more; never clears in 70 % of cases; stalls: most of the light goes back out");
  CHECK(plain(facts[2]->text()) == "red oxide: should stay, but the planned passes take 20 % of it");
  CHECK(plain(facts[3]->text()) == "A hand that stands still is through after 0.30 s, 95 % of the frame after 0.90 s.");
  for (const FactLine* fact : facts) CHECK(fact->toolTip().endsWith('.'));
}

TEST_CASE("What the passes hang on is drawn as bars with a sentence, the greatest first", "[ranges]") {
  VerdictPanel panel;
  showPanel(panel, deepThreeLayers());
  const auto& bars = panel.findOutNext()->bars();
  REQUIRE(bars.size() == 2);  // what matters for 1 % gets none
  CHECK(plain(bars[0]->sentence()) == "thickness of cream: 4 to 7 passes becomes 6 to 8 passes");
  CHECK(bars[0]->share() == 0.6);
  CHECK(plain(bars[1]->sentence()) == "light taken up by grey: still 4 to 7 passes");
  CHECK(panel.findOutNext()->state().isEmpty());
  Assessment certain = deepThreeLayers();
  certain.ranges->influences.clear();
  showPanel(panel, certain);
  CHECK(panel.findOutNext()->bars().empty());
  CHECK(panel.findOutNext()->state().contains("Nothing that is uncertain"));
}

TEST_CASE("The second result changes the verdict in place: focus, folding and what to find out stay", "[ranges]") {
  VerdictPanel panel;
  showPanel(panel, deepThreeLayers());
  panel.activateWindow();
  REQUIRE(QTest::qWaitForWindowActive(&panel));
  VerdictRowView* row = rowOf(panel, "temperature");
  row->head()->setFocus();
  QTest::keyClick(row->head(), Qt::Key_Space);
  CHECK_FALSE(row->isOpen());
  Assessment first = deepThreeLayers();
  first.ranges.reset();
  panel.setAssessment(fake::shared(first), true);
  CHECK(panel.findOutNext()->bars().size() == 2);  // those of before, until the new ones are there
  CHECK_FALSE(panel.findOutNext()->isEnabled());
  panel.setAssessment(fake::shared(deepThreeLayers()));
  CHECK(panel.findOutNext()->isEnabled());
  CHECK(rowOf(panel, "temperature") == row);
  CHECK(row->head()->hasFocus());
  CHECK_FALSE(row->isOpen());
}

TEST_CASE("The answer line gives ranges where they are known, and keeps its numbers", "[ranges]") {
  AnswerLine line;
  line.setProject(fake::panel());
  Assessment first = deepThreeLayers();
  first.ranges.reset();
  line.setAssessment(fake::shared(first));
  const auto number = [&line](const char* key) { return line.findChild<KeyNumber*>(QLatin1String(key)); };
  KeyNumber* passes = number("removal.passes_needed");
  REQUIRE(passes);
  CHECK(passes->text() == "5");
  line.setAssessment(fake::shared(deepThreeLayers()));
  CHECK(number("removal.passes_needed") == passes);
  CHECK(passes->text() == "4 to 7");
  CHECK(passes->accessibleName().contains("likely 5"));
  CHECK(plain(number("job.total_time_s")->text()) == "65 to 95 min");
  CHECK(plain(number("thermal.worst_margin")->text()) == "135 to 175 of 160 °C");
}

TEST_CASE("No text of ranges and findings is smaller than 12 px", "[ranges]") {
  VerdictPanel panel;
  showPanel(panel, deepThreeLayers());
  for (const QWidget* child : panel.findChildren<QWidget*>()) CHECK(QFontInfo(child->font()).pixelSize() >= space::leastFont);
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/some_recipes.h"
#include "tests/ui/support.h"
#include "ui/document/edits.h"
#include "ui/library/prediction_lines.h"
#include "ui/library/recipe_words.h"
#include "ui/library/setting_lines.h"
#include "ui/recipes/applied_recipe.h"
#include "ui/recipes/span_edit.h"

#include "tests/support/catch.h"

#include <QSignalSpy>
#include <QtTest>

#include <algorithm>

using namespace bw;

namespace {

QString valueOf(const std::vector<SettingLine>& lines, const char* name) {
  const auto found = std::ranges::find(lines, QLatin1String(name), &SettingLine::name);
  return found == lines.end() ? QString() : found->value;
}

const SettingChange* changeOf(const AppliedRecipe& applied, const char* what) {
  const auto found = std::ranges::find(applied.changes, QLatin1String(what), &SettingChange::what);
  return found == applied.changes.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("Settings are told exactly, in the order pulse, lines, hand, passes", "[recipes]") {
  const Recipe recipe = test::SomeRecipes::number(3);
  Settings settings = recipe.version.plan.settings;
  settings.powerFraction = 0.735;
  settings.repetitionRate_Hz = 123e3;
  settings.pause_s = 90;
  Machine machine = recipe.version.machines.front();
  machine.kind = MachineKind::Pulsed;
  machine.ratedPower_W = 300;
  const auto lines = settingLines(settings, &machine);
  CHECK(valueOf(lines, "Power") == QString("73.5\u00a0% of 300\u00a0W"));
  CHECK(valueOf(lines, "Repetition rate") == QString("123\u00a0kHz"));
  CHECK(valueOf(lines, "Scan frame") == QString("30 × 15\u00a0mm"));
  CHECK(valueOf(lines, "Pause after each") == QString("90\u00a0s"));
  CHECK(lines.front().name == "Power");
  CHECK(lines.back().name == "Pause after each");
  machine.kind = MachineKind::Continuous;
  CHECK(valueOf(settingLines(settings, &machine), "Repetition rate").isEmpty());
}

TEST_CASE("What was predicted stands beside what was measured of the same", "[recipes]") {
  RecipeVersion version;
  Prediction& prediction = version.predicted;
  prediction.numbers["thermal.back_C"] = {70, 95, 130};
  prediction.numbers["removal.passes_needed"] = {4, 5, std::nullopt};
  prediction.numbers["job.total_time_s"] = {{}, 1800, {}};
  Proof& proof = version.proof.emplace();
  proof.trials.resize(1);
  proof.trials[0].readings = {{"back_C", 104, 6, {}}, {"thickness_before_um", 82.5, {}, {}}};
  const auto lines = predictionLines(version);
  REQUIRE(lines.size() == 4);
  CHECK(lines[0].name == "Passes to clear");
  CHECK(lines[0].predicted.startsWith(QString("4\u00a0passes or more")));  // no upper bound: in some of them it never clears
  CHECK(lines[1].name == "Back face, highest");
  CHECK(lines[1].predicted == QString("70 to 130\u00a0°C, likely\u00a095"));
  CHECK(lines[1].proven == QString("104\u00a0±\u00a06\u00a0°C"));
  CHECK(lines[1].outside.isEmpty());
  CHECK(lines[2].predicted == QString("30\u00a0min"));
  CHECK(lines[2].proven.isEmpty());
  CHECK(lines[3].name == "Thickness before");
  CHECK(lines[3].proven == QString("82.5\u00a0µm"));
  // Outside the range by more than the reading's own uncertainty.
  proof.trials[0].readings[0] = {"back_C", 140, 6, {}};
  CHECK(predictionLines(version)[1].outside == "above the predicted range");
  proof.trials[0].readings[0].uncertainty = 12;
  CHECK(predictionLines(version)[1].outside.isEmpty());
  proof.trials[0].readings[0] = {"back_C", 60, {}, {}};
  CHECK(predictionLines(version)[1].outside == "below the predicted range");
}

TEST_CASE("A condition from..to is read as it is typed, and what is not understood is said", "[recipes]") {
  SpanEdit edit("Coat thickness", "tip", quantities::filmThickness);
  QSignalSpy changed(&edit, &SpanEdit::changed);
  QString said;
  QObject::connect(&edit, &SpanEdit::problem, [&said](const QString& sentence) { said = sentence; });
  QTest::keyClicks(&edit, "80..150");
  REQUIRE(edit.span());
  CHECK(edit.span()->low == Catch::Approx(80e-6));
  CHECK(edit.span()->high == Catch::Approx(150e-6));
  CHECK(said.isEmpty());
  edit.selectAll();
  QTest::keyClicks(&edit, "thick");
  CHECK_FALSE(edit.span());
  CHECK(said.startsWith("Coat thickness"));
  edit.selectAll();
  QTest::keyClick(&edit, Qt::Key_Delete);
  CHECK(said.isEmpty());
  CHECK(!changed.empty());
}

TEST_CASE("Applying a recipe tells each change, keeps the plan's name and hand, and takes its machine in", "[recipes]") {
  ProjectDocument document;
  document.replace(test::panel(), {});
  RecipeVersion recipe = test::SomeRecipes::number(2).version;
  recipe.machines.front().id = recipe.plan.machine = "from-elsewhere";
  recipe.plan.settings.pause_s = 240;
  const AppliedRecipe applied = appliedTo(document.project(), document.plan(), recipe);
  CHECK(applied.plan.name == document.plan().name);
  CHECK(applied.plan.hand == document.plan().hand);
  REQUIRE(applied.machines.size() == 1);
  REQUIRE(changeOf(applied, "Pause after each"));
  CHECK(changeOf(applied, "Pause after each")->then == QString("240\u00a0s"));
  CHECK(applied.notes.size() == 1);
  const Project before = document.project();
  edits::applyPlan(document, "apply", applied.machines, applied.plan);
  CHECK(document.plan().settings == recipe.plan.settings);
  CHECK(document.machine()->id == "from-elsewhere");
  CHECK(appliedTo(document.project(), document.plan(), recipe).changes.empty());
  CHECK(document.undoStack().count() == 1);
  document.undoStack().undo();
  CHECK(document.project() == before);
}

TEST_CASE("A machine the project has already stays, and what differs is told", "[recipes]") {
  const Project project = test::panel();
  RecipeVersion recipe = recipeFrom(project, {}, {});
  CHECK(appliedTo(project, project.plans.front(), recipe).notes.isEmpty());
  recipe.machines.front().M2 += 1;
  const AppliedRecipe applied = appliedTo(project, project.plans.front(), recipe);
  CHECK(applied.machines.empty());
  REQUIRE(applied.notes.size() == 1);
  CHECK(applied.notes[0].contains("stays"));
}

TEST_CASE("Steps name only areas and layers that this part has, and it is told", "[recipes]") {
  const Project project = test::panel();
  RecipeVersion recipe = recipeFrom(project, {}, {});
  Step step;
  step.name = "bulk";
  step.machine = recipe.plan.machine;
  step.settings = recipe.plan.settings;
  step.areas = {"no such area"};
  step.until = "no such layer";
  recipe.plan.steps = {step};
  const AppliedRecipe applied = appliedTo(project, project.plans.front(), recipe);
  REQUIRE(applied.plan.steps.size() == 1);
  CHECK(applied.plan.steps[0].areas.empty());
  CHECK_FALSE(applied.plan.steps[0].until);
  CHECK(applied.notes.size() == 2);
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/library_file.h"
#include "core/job/hazards.h"
#include "core/materials/resolve.h"
#include "tests/ui/support.h"
#include "ui/document/edits.h"
#include "ui/plan/answer_line.h"
#include "ui/plan/before_beam_dialog.h"
#include "ui/plan/precaution_row.h"
#include "ui/plan/verdict_panel.h"
#include "ui/start/example_band.h"

#include "tests/support/catch.h"

#include <QCheckBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

using namespace bw;
using test::Window;

namespace {

/// The quick model, with what the coat and the part make of cautions and precautions.
AssessmentRunner::Model cautiousModel() {
  AssessmentRunner::Model model = test::quickModel();
  model.assess = [quick = model.assess](const Snapshot& snapshot, std::stop_token stop, const TakeEarly& early) {
    Assessment made = quick(snapshot, stop, early);
    const Project& project = *snapshot.project;
    made.precautions = precautions(project, *findPlan(project, snapshot.planName), shippedLibrary());
    const Metal metal = resolveMetal(project.part, project.library, shippedLibrary());
    made.air.hazards = hazards(coatedAreas(project, {}, shippedLibrary()), metal, project.part);
    return made;
  };
  return model;
}

KeyNumber* beforeBeamNumber(Window& window) { return window->findChild<KeyNumber*>(QStringLiteral("before_beam")); }

BeforeBeamDialog* openList(Window& window) {
  window.click(beforeBeamNumber(window));
  auto* dialog = window->findChild<BeforeBeamDialog*>();
  REQUIRE(dialog != nullptr);
  return dialog;
}

PrecautionRow* rowOf(BeforeBeamDialog* dialog, const std::string& start) {
  for (PrecautionRow* row : dialog->rows())
    if (row->precaution().id.starts_with(start)) return row;
  return nullptr;
}

bool isStopped(Window& window) { return !openStops(window->assessment()->precautions).empty(); }

}  // namespace

TEST_CASE("Fuel behind the metal stops everything until it is settled by name", "[window]") {
  Window window(cautiousModel());
  window->openExample();
  edits::setBehind(window.document(), {Behind::Fuel});
  window.settle();
  REQUIRE(isStopped(window));
  CHECK(window->findChild<AnswerLine*>()->numbers().size() == 1);
  CHECK_FALSE(window.find<QPushButton>("mend")->isVisible());
  const QString cautions = window.find<QLabel>("cautions")->text();
  CHECK(cautions.indexOf("Fuel behind the face") < cautions.indexOf("Eyes"));

  BeforeBeamDialog* dialog = openList(window);
  PrecautionRow* fuel = dialog->rows().front();
  REQUIRE(fuel->precaution().id == "fuel-behind");
  auto* tick = fuel->findChild<QCheckBox*>("settle");
  auto* name = dialog->findChild<QLineEdit*>("beforeBeamName");
  name->clear();
  fuel->findChild<QLineEdit*>("reason")->setText("tank taken out and rinsed");
  CHECK_FALSE(tick->isEnabled());  // by nobody
  name->setText("mk");
  fuel->findChild<QLineEdit*>("reason")->clear();
  CHECK_FALSE(tick->isEnabled());  // without a reason
  fuel->findChild<QLineEdit*>("reason")->setText("tank taken out and rinsed");
  REQUIRE(tick->isEnabled());
  tick->click();
  window.settle();
  CHECK_FALSE(isStopped(window));
  const Project& project = window.document().project();
  REQUIRE(project.beforeBeam.size() == 1);
  CHECK(project.beforeBeam[0].by == "mk");
  CHECK(project.beforeBeam[0].note == "tank taken out and rinsed");
  CHECK(rowOf(dialog, "fuel-behind")->precaution().cleared);
  window.document().undoStack().undo();
  window.settle();
  CHECK(isStopped(window));
}

TEST_CASE("What is open before the beam is on is counted, opened by the count and ticked off by name", "[window]") {
  Window window(cautiousModel());
  window->openExample();
  window.settle();
  const std::size_t open = openCount(window->assessment()->precautions);
  REQUIRE(open > 3);
  CHECK(beforeBeamNumber(window)->text() == QString("%1 open").arg(open));
  BeforeBeamDialog* dialog = openList(window);
  dialog->findChild<QLineEdit*>("beforeBeamName")->setText("mk");
  rowOf(dialog, "fire-watch")->findChild<QCheckBox*>("settle")->click();
  window.settle();
  CHECK(beforeBeamNumber(window)->text() == QString("%1 open").arg(open - 1));

  // A test is answered, not ticked: the layers then say what was found.
  PrecautionRow* lead = rowOf(dialog, "test-lead");
  REQUIRE(lead != nullptr);
  CHECK_FALSE(lead->findChild<QCheckBox*>("settle")->isVisibleTo(lead));
  lead->findChild<QPushButton*>("noneFound")->click();
  window.settle();
  CHECK(beforeBeamNumber(window)->text() == QString("%1 open").arg(open - 2));
  REQUIRE(rowOf(dialog, "test-lead") != nullptr);
  CHECK(rowOf(dialog, "test-lead")->precaution().cleared->note == "none found");
  const auto& hazards = window->assessment()->air.hazards;
  CHECK(std::ranges::none_of(hazards, [](const Hazard& hazard) { return hazard.text.starts_with("Lead"); }));

  rowOf(dialog, "test-lead")->findChild<QCheckBox*>("settle")->click();  // opened again
  window.settle();
  CHECK_FALSE(rowOf(dialog, "test-lead")->precaution().cleared);
  CHECK(beforeBeamNumber(window)->text() == QString("%1 open").arg(open - 1));
  window.document().undoStack().undo();
  window.settle();
  CHECK(rowOf(dialog, "test-lead")->precaution().cleared);
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/assess.h"

#include "core/assess/removal_work.h"
#include "core/assess/stage_memo.h"
#include "core/assess/verdict_rows.h"
#include "core/assess/workings.h"
#include "core/job/work.h"
#include "core/text/text.h"

#include <algorithm>

namespace bw {

namespace {

/// What the model of this version leaves out, where it matters for this plan.
void noteLimitsOfModel(const Work& work, Assessment& assessment) {
  auto& notes = assessment.notes;
  if (assessment.ranges)
    notes.push_back("ranges: " + std::to_string(assessment.ranges->samples) +
                    " draws of coat, metal and hand, nine in ten inside; those of the heat by how each temperature answers to thickness, "
                    "conductivity, specific heat, cooling and travel; those of the dose for swaths that do not start in step");
  else
    notes.push_back(
        assessment.drawsTooLong
            ? "ranges: those of the dose are for swaths that do not start in step; all else is a single estimate, for to follow this coat "
              "in even two dozen draws would take too long"
            : "ranges: those of the dose are for swaths that do not start in step; all else is a single estimate, spread not computed");
  if (work.plan.steps.size() > 1) notes.push_back("only the first step of the plan, \"" + work.step.name + "\", is assessed");
  if (std::ranges::any_of(work.coat, [](const LayerMaterial& m) { return m.behaviour == Behaviour::Spalls; }))
    notes.push_back("removal: rust and scale often hide a second layer; it shows only once the first is off");
  if (!work.coat.empty() && work.pulsed())
    notes.push_back(
        "removal: the part's own warmth from frame to frame is left out; on a thin sheet warmed by many frames coats go sooner");
  if (!work.coat.empty())
    notes.push_back(
        std::string("removal: a film flakes off what is heated beneath it with a guessed chance, nine in ten between 0.4 and 10 % ") +
        (work.pulsed() ? "a strong pulse" : "a passage of the beam"));
  if (std::ranges::any_of(work.project.part.areas, [](const Area& a) { return a.tilt_rad != 0; })) {
    notes.push_back(
        "removal and heat hold for faces square to the beam; on tilted ones the dose is told for a slope across the travel, in focus all "
        "over");
  }
  if (std::ranges::any_of(work.project.part.areas, [](const Area& a) { return a.coat || a.thickness_m; })) {
    notes.push_back("areas with a coat or thickness of their own are assessed as the part's");
  }
  if (work.machine.deliveredPower_W && *work.machine.deliveredPower_W != work.machine.ratedPower_W)
    notes.push_back("power: reckoned with the " + text::number(*work.machine.deliveredPower_W) +
                    " W measured at the part; the eyes with no less than the rated " + text::number(work.machine.ratedPower_W) + " W");
  if (work.pulsed() && work.settings().dutyFraction < 1)
    notes.push_back("duty of a pulsed beam: each pulse is reckoned with the share of its energy that the duty leaves on the mean");
  if (!work.pulsed() && work.settings().dutyFraction < 1) {
    notes.push_back(work.machine.gate_Hz ? "heat: a gated beam is taken at its mean power"
                                         : "duty of a continuous beam: the machine states no gate rate, so it is taken as evenly dimmed");
  }
  if (assessment.thermal.boils(assessment.thermal.flash_C)) {
    notes.push_back("heat: where it is hottest the metal boils, at " + text::temperature(assessment.thermal.boiling_C) +
                    "; no temperature is told beyond that, and what the vapour carries off is not followed");
  }
  if (assessment.thermal.near_C) {
    if (assessment.thermal.flash_C.value_or(0) > work.metal.melting_C.range.likely)
      notes.push_back("heat: the beam melts the bare metal for an instant; the oxide of melts colours by other laws, which are not modelled");
    notes.push_back(
        "heat: near heat takes its properties at one middling temperature: the hottest is right to about 1 % of the rise, what cools or "
        "lies aside on hot steel to about 5 % of the highest; an oblique travel is laid out along the nearer side; areas are worked as "
        "one strip");
    if (std::ranges::any_of(work.project.part.areas, [](const Area& a) { return a.area_m2 > 0; }) &&
        areaOf_m2(areasOf(work.project.part, work.step)) > work.project.part.size_m[0] * work.project.part.size_m[1])
      notes.push_back("heat: the areas together are larger than the part's face; the heat is that of going over the face once a pass");
  }
}

}  // namespace

void conclude(const Work& work, Assessment& assessment) {
  assessment.findOutNext.clear();
  judge(work, assessment);
  assessment.workings = workingsOf(work, assessment);
  assessment.answer = answerLine(work, assessment);
  assessment.notes.resize(std::min(assessment.notes.size(), assessment.stageNotes));
  assessment.stageNotes = assessment.notes.size();
  noteLimitsOfModel(work, assessment);
}

namespace {

/// Told beside the heat, which changes nothing of what is copied.
void tellDose(const Work& work, const Assessment& soFar, const DoseFound& found, const TakeEarly& early) {
  if (!early || !found.dose) return;
  auto known = std::make_shared<Assessment>(soFar);
  takeDose(work, found, *known);
  known->doseOnly = true;
  known->verdict = {evennessRow(*known)};
  early(std::move(known));
}

/// The heat needs nothing of the dose but that there is one, and takes longest: it is begun beside it where there will be one.
void assessDoseAndHeat(Work& work, Assessment& assessment, const TakeEarly& early) {
  const bool moves = work.settings().travelSpeed_m_s > 0 && work.scan->whyNoDose.empty();
  auto dose = work.crew.beside([&] {
    auto found = doseFound(work);
    tellDose(work, assessment, *found, early);
    if (found->map) work.places = placesFound(work);
    return found;
  });
  if (moves) work.bare = bareFound(work);
  takeDose(work, *dose.get(), assessment);
  if (!assessment.dose) work.bare = nullptr;
  throwIfStopped(work.stop);
  assessBareHeat(work, assessment);
}

}  // namespace

Assessment assess(const Project& project, const std::string& planName, const Library& shipped, std::stop_token stop,
                  const SceneRequest& scene, const Lent& lent) {
  Work work = prepare(project, planName, shipped, std::move(stop));
  work.scene = scene;
  work.memo = lent.memo;
  work.crew = lent.crew;
  Assessment assessment;
  assessment.plan = work.plan.name;
  assessment.machine = work.machine.id;
  assessScan(work, assessment);
  throwIfStopped(work.stop);
  assessDoseAndHeat(work, assessment, lent.early);
  for (const auto stage : {assessRemoval, assessLimits, assessFinish, assessJob}) {
    throwIfStopped(work.stop);
    stage(work, assessment);
  }
  assessment.physics = std::make_shared<const Physics>(Physics{work.scan, work.bare});
  conclude(work, assessment);
  return assessment;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/machine_limits.h"
#include "core/assess/work.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

const Plan& planNamed(const Project& project, const std::string& name) {
  if (project.plans.empty()) throw Unusable("the project has no plan (nothing to assess); add one with a machine and settings");
  if (name.empty()) return project.plans.front();
  if (const Plan* plan = findPlan(project, name)) return *plan;
  std::string known;
  for (const Plan& plan : project.plans) known += (known.empty() ? "\"" : ", \"") + plan.name + "\"";
  throw Unusable("there is no plan \"" + name + "\"; the project has " + known);
}

void require(bool holds, const std::string& what) {
  if (!holds) throw Unusable(what);
}

/// What a pattern needs to be drawn at all.
void checkPattern(const Settings& s) {
  const auto positive = [](double value) { return std::isfinite(value) && value > 0; };
  require(positive(s.width_m), "the frame's width is not above 0 mm");
  require(!hasHeight(s.pattern) || (std::isfinite(s.height_m) && s.height_m >= 0), "the frame's height is below 0 mm");
  require(!needsTwoAxes(s.pattern) || positive(s.lineSpacing_m), "the line spacing is not above 0 mm; a pattern on two axes needs one");
  if (swings(s.pattern))
    require(positive(s.oscillationRate_Hz.value_or(0)), "the oscillation rate is not above 0 Hz; a swinging pattern needs one");
  else
    require(positive(s.scanSpeed_m_s), "the scan speed is not above 0 mm/s");
}

void checkSettings(const Settings& s, const Machine& machine) {
  const auto positive = [](double value) { return std::isfinite(value) && value > 0; };
  const auto notNegative = [](double value) { return std::isfinite(value) && value >= 0; };
  require(positive(machine.ratedPower_W), "the machine's rated power is not above 0 W");
  require(positive(machine.spotDiameter_m), "the machine's spot diameter is not above 0 um");
  require(positive(machine.wavelength_m), "the machine's wavelength is not above 0 nm");
  require(std::isfinite(machine.M2) && machine.M2 >= 1, "the machine's M2 is below 1; no beam is better than 1");
  require(notNegative(machine.scan.turnaround_s), "the head's turnaround time is below 0 us");
  require(notNegative(s.powerFraction), "the power setting is below 0 %");
  require(notNegative(s.dutyFraction), "the duty is below 0 %");
  require(std::isfinite(s.focusOffset_m), "the focus offset is not a number of mm");
  if (machine.kind == MachineKind::Pulsed) {
    require(positive(s.repetitionRate_Hz), "the repetition rate is not above 0 kHz; a pulsed machine needs one");
    require(positive(s.pulseDuration_s), "the pulse duration is not above 0 ns; a pulsed machine needs one");
  }
  checkPattern(s);
  require(notNegative(s.edgeTrim_m), "the edge trim is below 0 mm");
  require(notNegative(s.travelSpeed_m_s), "the travel speed is below 0 mm/s");
  require(std::isfinite(s.travelAngle_rad), "the travel angle is not a number of degrees");
  require(s.travelSpeed_m_s == 0 || positive(s.stepOver_m), "the step-over is not above 0 mm");
  require(s.passes >= 1, "there is less than one pass");
  require(notNegative(s.pause_s), "the pause is below 0 s");
}

}  // namespace

Work prepare(const Project& project, const std::string& planName, const Library& shipped, std::stop_token stop) {
  const Plan& plan = planNamed(project, planName);
  const Step step = stepsOf(plan).front();
  const Machine* machine = findMachine(project, step.machine);
  if (!machine) throw Unusable("plan \"" + plan.name + "\" names the machine \"" + step.machine + "\", which the project does not have");
  require(std::isfinite(project.part.thickness_m.likely) && project.part.thickness_m.likely > 0, "the part's thickness is not above 0 mm");
  const auto& size = project.part.size_m;
  require(std::isfinite(size[0]) && std::isfinite(size[1]) && size[0] > 0 && size[1] > 0, "the part's size is not above 0 mm");
  require(std::isfinite(project.part.filmCoefficient_W_m2K) && project.part.filmCoefficient_W_m2K >= 0,
          "the part's film coefficient is below 0 W/m2K");
  Work work{project,
            plan,
            shipped,
            step,
            withOptic(*machine, step.optic),
            resolveMetal(project.part, project.library, shipped),
            resolveCoat(project.coat, project.library, shipped),
            stop,
            {},
            {},
            {},
            {}};
  checkSettings(work.settings(), work.machine);
  return work;
}

Work withSettings(const Work& work, const Settings& settings) {
  Work changed = work;
  changed.step.settings = settings;
  checkSettings(changed.settings(), changed.machine);
  return changed;
}

BareMetal bareMetal(const Metal& metal, double absorptance, double before_C) {
  BareMetal bare;
  bare.absorptance = absorptance;
  bare.conductivity_W_mK = metal.conductivity_W_mK.likely;
  bare.heatCapacity_J_m3K = metal.density_kg_m3.likely * metal.specificHeat_J_kgK.likely;
  bare.melting_C = metal.melting_C.range.likely;
  bare.boiling_C = std::max(metal.boiling_C.likely, bare.melting_C);
  bare.vaporisation_J_m3 = metal.vaporisation_J_m3.likely;
  bare.before_C = before_C;
  return bare;
}

}  // namespace bw

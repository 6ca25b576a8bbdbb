// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/carried_recipe.h"

#include "core/assess/machine_limits.h"
#include "core/values/unusable.h"

#include <algorithm>
#include <set>

namespace bw {

namespace {

/// One step's settings, the optic put in before and none after.
std::vector<Carried> carryStep(const Machine& from, const std::optional<std::string>& optic, Settings& settings, const Machine& to) {
  CarryOver over = carryOver(withOptic(from, optic), settings, to);
  settings = over.settings;
  return std::move(over.carried);
}

std::vector<Machine> machinesNamed(const RecipeVersion& version, const Machine& to) {
  std::vector<Machine> machines{to};
  for (const Step& step : stepsOf(version.plan)) {
    const auto known = std::ranges::find(version.machines, step.machine, &Machine::id);
    if (step.machine != to.id && known != version.machines.end() &&
        std::ranges::find(machines, step.machine, &Machine::id) == machines.end())
      machines.push_back(*known);
  }
  return machines;
}

}  // namespace

CarriedRecipe carriedTo(const RecipeVersion& version, const Machine& to) {
  const Machine* found = mainMachine(version);
  if (!found) throw Unusable("recipe \"" + version.name + "\" does not hold its machine's profile; one that does can be carried over");
  const Machine from = *found;
  CarriedRecipe result{version, {}};
  RecipeVersion& out = result.version;
  Plan& plan = out.plan;
  if (plan.steps.empty()) {
    result.carried = carryStep(from, std::nullopt, plan.settings, to);
    plan.machine = to.id;
  }
  for (Step& step : plan.steps) {
    if (step.machine != from.id) continue;
    std::vector<Carried> carried = carryStep(from, step.optic, step.settings, to);
    if (result.carried.empty()) result.carried = std::move(carried);
    step.machine = to.id;
    step.optic.reset();
  }
  if (!plan.steps.empty() && plan.machine == from.id) plan.machine = to.id;
  out.machines = machinesNamed(out, to);
  out.number = 0;
  out.savedAt.clear();
  out.savedBy.clear();
  out.predicted = {};
  out.proof.reset();
  out.note = "Carried over from the " + from.name + " to the " + to.name + ": planned, not proven." +
             (version.note.empty() ? "" : "\n" + version.note);
  return result;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/proof.h"

#include "core/library/differences.h"

#include <algorithm>

namespace bw {
namespace {

/// What of a machine shapes its work. Its name, its price, the weather and the supply it needs, and when it was looked at do not.
Machine working(Machine machine) {
  machine.name.clear();
  machine.minAmbient_C.reset();
  machine.supplyPower_W.reset();
  machine.hourlyCost.reset();
  machine.checkedOn.reset();
  machine.warmUp_s.reset();
  machine.extraDraw_W.reset();
  machine.extras.clear();
  return machine;
}

/// The first differences, in one sentence.
std::string changes(const std::vector<Difference>& differences) {
  static constexpr std::size_t most = 3;
  std::string text;
  for (std::size_t i = 0; i < std::min(most, differences.size()); ++i) text += (i == 0 ? "" : "; ") + inWords(differences[i]);
  if (differences.size() > most) text += "; and " + std::to_string(differences.size() - most) + " more";
  return text;
}

void compareMachines(const std::vector<Machine>& then, const std::vector<Machine>& now, const char* where,
                     std::vector<std::string>& reasons) {
  for (const Machine& old : then) {
    const auto today = std::ranges::find(now, old.id, &Machine::id);
    if (today == now.end()) continue;
    const std::vector<Difference> changed = differences(working(old), working(*today));
    if (changed.empty()) continue;
    const std::string reason =
        "The machine " + (old.name.empty() ? old.id : old.name) + where + " is not as it was proven: " + changes(changed) + ".";
    if (std::ranges::find(reasons, reason) == reasons.end()) reasons.push_back(reason);
  }
}

/// Whether any trial was made with the settings of a step. Trials that name no settings say nothing against it.
bool triedAsSet(const Proof& proof, const Plan& plan) {
  const std::vector<Step> steps = stepsOf(plan);
  bool silent = true;
  for (const Trial& trial : proof.trials) {
    if (trial.settings == Settings{}) continue;
    silent = false;
    if (std::ranges::find(steps, trial.settings, &Step::settings) != steps.end()) return true;
  }
  return silent;
}

}  // namespace

std::vector<std::string> staleReasons(const RecipeVersion& version, const std::vector<Machine>& machinesNow,
                                      const std::string& modelVersion) {
  std::vector<std::string> reasons;
  if (!version.proof) return reasons;
  const Proof& proof = *version.proof;
  if (!proof.modelVersion.empty() && proof.modelVersion != modelVersion) {
    reasons.push_back("The model is of version " + modelVersion + "; it was proven with version " + proof.modelVersion + ".");
  }
  compareMachines(proof.machines, version.machines, " of this recipe", reasons);
  for (const Machine& machine : version.machines) {
    if (std::ranges::find(proof.machines, machine.id, &Machine::id) == proof.machines.end() && !proof.machines.empty()) {
      reasons.push_back("It was proven on another machine than " + (machine.name.empty() ? machine.id : machine.name) + ".");
    }
  }
  compareMachines(proof.machines, machinesNow, " in the library", reasons);
  if (!triedAsSet(proof, version.plan)) reasons.push_back("None of its trials was made with the settings it has now.");
  return reasons;
}

}  // namespace bw

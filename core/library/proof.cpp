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

bool wasSeen(const Trial& trial, Seen what) { return std::ranges::find(trial.seen, what) != trial.seen.end(); }

std::optional<double> meanOf(const Trial& trial, const std::string& kind) {
  double sum = 0;
  int count = 0;
  for (const Reading& reading : trial.readings) {
    if (reading.kind != kind) continue;
    sum += reading.value;
    ++count;
  }
  return count > 0 ? std::optional(sum / count) : std::nullopt;
}

TrialOutcome asSeen(const Trial& trial) {
  if (wasSeen(trial, Seen::Not)) return TrialOutcome::Failed;
  if (wasSeen(trial, Seen::Patchy) || wasSeen(trial, Seen::Residue)) return TrialOutcome::Partly;
  return wasSeen(trial, Seen::Cleared) ? TrialOutcome::Cleared : TrialOutcome::Unfinished;
}

TrialOutcome asMeasured(const Trial& trial) {
  constexpr double bare_um = 2, bareShare = 0.1;
  if (const auto left = meanOf(trial, "thickness_after_um")) {
    const double before = meanOf(trial, "thickness_before_um").value_or(0);
    return *left < std::max(bare_um, bareShare * before) ? TrialOutcome::Cleared : TrialOutcome::Partly;
  }
  return meanOf(trial, "passes_to_clear").value_or(0) > 0 ? TrialOutcome::Cleared : TrialOutcome::Unfinished;
}

int gravity(TrialOutcome outcome) {
  switch (outcome) {
    case TrialOutcome::Failed:
      return 3;
    case TrialOutcome::Partly:
      return 2;
    case TrialOutcome::Cleared:
      return 1;
    case TrialOutcome::Unfinished:
      break;
  }
  return 0;
}

bool isWithItsSettings(const Trial& trial, const Plan& plan) {
  const std::vector<Step> steps = stepsOf(plan);
  return std::ranges::find(steps, trial.settings, &Step::settings) != steps.end();
}

bool isSigned(const Trial& trial, const Proof& proof) {
  return !(trial.date.empty() && proof.date.empty()) && !(trial.initials.empty() && proof.initials.empty());
}

/// The prediction's key for what a reading measures; empty: none.
std::string predictedAs(const Reading& reading, TrialOutcome outcome) {
  if (reading.kind == "passes_to_clear" || (reading.kind == "passes" && outcome == TrialOutcome::Cleared)) return "removal.passes_needed";
  if (reading.kind == "front_C" || reading.kind == "face_C") return "thermal.front_C";
  if (reading.kind == "back_C") return "thermal.back_C";
  return reading.kind == "etch_um" ? "finish.etch_um" : "";
}

}  // namespace

TrialOutcome outcomeOf(const Trial& trial) {
  return std::max(asSeen(trial), asMeasured(trial), [](auto a, auto b) { return gravity(a) < gravity(b); });
}

std::string inWords(TrialOutcome outcome) {
  switch (outcome) {
    case TrialOutcome::Failed:
      return "failed";
    case TrialOutcome::Partly:
      return "partly cleared";
    case TrialOutcome::Cleared:
      return "cleared";
    case TrialOutcome::Unfinished:
      break;
  }
  return "unfinished";
}

bool isProven(const RecipeVersion& version) {
  if (!version.proof) return false;
  const Proof& proof = *version.proof;
  const Trial* newest = nullptr;
  const auto dateOf = [&](const Trial& trial) { return trial.date.empty() ? proof.date : trial.date; };
  for (const Trial& trial : proof.trials) {
    if (!isWithItsSettings(trial, version.plan) || outcomeOf(trial) == TrialOutcome::Unfinished) continue;
    if (!newest || dateOf(trial) >= dateOf(*newest)) newest = &trial;
  }
  return newest && outcomeOf(*newest) == TrialOutcome::Cleared && isSigned(*newest, proof);
}

std::vector<OutsideRange> outsidePrediction(const RecipeVersion& version, const Trial& trial) {
  std::vector<OutsideRange> outside;
  if (!isWithItsSettings(trial, version.plan)) return outside;
  const TrialOutcome outcome = outcomeOf(trial);
  for (const Reading& reading : trial.readings) {
    const auto number = version.predicted.numbers.find(predictedAs(reading, outcome));
    if (number == version.predicted.numbers.end()) continue;
    const double doubt = reading.uncertainty.value_or(0);
    const auto& [low, likely, high] = number->second;
    const bool above = high && reading.value - doubt > *high, below = low && reading.value + doubt < *low;
    if (above || below) outside.push_back({number->first, reading, above});
  }
  return outside;
}

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
  const bool tried = std::ranges::any_of(proof.trials, [&](const Trial& trial) { return isWithItsSettings(trial, version.plan); });
  if (!tried)
    reasons.push_back("None of its trials was made with the settings it has now.");
  else if (!isProven(version))
    reasons.push_back("Its newest trial with these settings was not seen to clear.");
  return reasons;
}

}  // namespace bw

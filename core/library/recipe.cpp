// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/recipe.h"

#include <algorithm>
#include <set>

namespace bw {
namespace {

template <class T>
void copyIn(const std::string& id, const std::vector<T>& own, const std::vector<T>& others, std::vector<T>& to) {
  for (const std::vector<T>* from : {&own, &others}) {
    const auto found = std::ranges::find(*from, id, &T::id);
    if (found == from->end()) continue;
    to.push_back(*found);
    return;
  }
}

/// Ids of the coatings, each once, in the order they appear.
std::vector<std::string> coatingsOf(const Part& part, const Coat& coat) {
  std::vector<std::string> ids;
  const auto note = [&](const Coat& layers) {
    for (const Layer& layer : layers) {
      if (std::ranges::find(ids, layer.coating) == ids.end()) ids.push_back(layer.coating);
    }
  };
  note(coat);
  for (const Area& area : part.areas) note(area.coat.value_or(Coat{}));
  return ids;
}

std::vector<Machine> machinesOf(const Plan& plan, const std::vector<Machine>& machines) {
  std::vector<Machine> named;
  for (const Step& step : stepsOf(plan)) {
    if (std::ranges::find(named, step.machine, &Machine::id) == named.end()) copyIn(step.machine, machines, {}, named);
  }
  return named;
}

}  // namespace

const Machine* mainMachine(const RecipeVersion& version) {
  const std::vector<Step> steps = stepsOf(version.plan);
  const auto found = std::ranges::find(version.machines, steps.front().machine, &Machine::id);
  return found == version.machines.end() ? nullptr : &*found;
}

Project projectOf(const RecipeVersion& version) {
  Project project;
  project.name = version.name;
  project.part = version.part;
  project.coat = version.coat;
  project.machines = version.machines;
  project.plans = {version.plan};
  if (version.proof) project.trials = version.proof->trials;
  project.library = version.materials;
  project.notes = version.note;
  return project;
}

RecipeVersion recipeFrom(const Project& project, const std::string& plan, const Library& materials) {
  RecipeVersion version;
  version.name = project.name;
  version.part = project.part;
  version.coat = project.coat;
  if (const Plan* found = plan.empty() && !project.plans.empty() ? &project.plans.front() : findPlan(project, plan)) version.plan = *found;
  version.machines = machinesOf(version.plan, project.machines);
  copyIn(project.part.substrate, project.library.substrates, materials.substrates, version.materials.substrates);
  for (const std::string& id : coatingsOf(project.part, project.coat)) {
    copyIn(id, project.library.coatings, materials.coatings, version.materials.coatings);
  }
  if (!project.trials.empty()) {
    Proof& proof = version.proof.emplace();
    proof.trials = project.trials;
    proof.machines = version.machines;
  }
  return version;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/values/project.h"

#include <algorithm>

namespace bw {

const Machine* findMachine(const Project& project, const std::string& id) {
  const auto found = std::ranges::find(project.machines, id, &Machine::id);
  return found == project.machines.end() ? nullptr : &*found;
}

const Plan* findPlan(const Project& project, const std::string& name) {
  const auto found = std::ranges::find(project.plans, name, &Plan::name);
  return found == project.plans.end() ? nullptr : &*found;
}

std::vector<Step> stepsOf(const Plan& plan) {
  if (!plan.steps.empty()) return plan.steps;
  Step step;
  step.name = plan.name;
  step.machine = plan.machine;
  step.settings = plan.settings;
  return {step};
}

}  // namespace bw

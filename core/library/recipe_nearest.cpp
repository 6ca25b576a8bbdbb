// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/recipe_nearest.h"

namespace bw {

NearestQuery nearestTo(const Project& project, const std::string& plan) {
  NearestQuery query;
  query.part = project.part;
  query.coat = project.coat;
  query.materials = project.library;
  const Plan* found = plan.empty() && !project.plans.empty() ? &project.plans.front() : findPlan(project, plan);
  if (!found) return query;
  const Step step = stepsOf(*found).front();
  if (const Machine* machine = findMachine(project, step.machine)) {
    query.machine = *machine;
    query.optic = step.optic;
  }
  return query;
}

}  // namespace bw

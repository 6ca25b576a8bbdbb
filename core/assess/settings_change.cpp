// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/settings_change.h"

#include <algorithm>

namespace bw {

Project withSettings(Project project, const std::string& planName, const Settings& settings) {
  const auto plan = std::ranges::find(project.plans, planName, &Plan::name);
  if (plan == project.plans.end()) return project;
  (plan->steps.empty() ? plan->settings : plan->steps.front().settings) = settings;
  return project;
}

Project onMachine(Project project, const std::string& planName, const std::string& machine, const Settings& settings) {
  project = withSettings(std::move(project), planName, settings);
  const auto plan = std::ranges::find(project.plans, planName, &Plan::name);
  if (plan == project.plans.end()) return project;
  if (plan->steps.empty()) {
    plan->machine = machine;
  } else {
    plan->steps.front().machine = machine;
    plan->steps.front().optic.reset();
  }
  return project;
}

}  // namespace bw

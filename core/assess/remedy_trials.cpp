// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/remedy_trials.h"

#include "core/assess/removal_work.h"
#include "core/assess/settings_change.h"

#include <algorithm>

namespace bw {

Settings firstSettings(const Project& project, const std::string& planName) {
  const Plan* plan = findPlan(project, planName);
  return plan ? stepsOf(*plan).front().settings : Settings{};
}

RemedyTrials::RemedyTrials(const Project& project, const Assessment& now, const Library& shipped, std::stop_token stop, const Lent& lent)
    : m_project(project),
      m_now(now),
      m_shipped(shipped),
      m_stop(std::move(stop)),
      m_lent(lent),
      m_planned(firstSettings(project, now.plan)) {}

Project RemedyTrials::changed(const Candidate& candidate) const {
  if (candidate.machine.empty()) return withSettings(m_project, m_now.plan, candidate.settings);
  Project project = onMachine(m_project, m_now.plan, candidate.machine, candidate.settings);
  if (candidate.newMachine) project.machines.push_back(*candidate.newMachine);
  return project;
}

/// All but the heat; the metal as warm as it is now.
Assessment RemedyTrials::quickLook(const Candidate& candidate) const {
  const Project project = changed(candidate);
  Work work = prepare(project, m_now.plan, m_shipped, m_stop);
  work.memo = m_lent.memo;
  work.crew = m_lent.crew;
  Assessment look;
  assessScan(work, look);
  assessDose(work, look);
  work.nearBare_C = m_now.thermal.nearBare_C.value_or(project.part.startTemperature_C);
  assessRemoval(work, look);
  judge(work, look);
  return look;
}

std::shared_ptr<const Assessment> RemedyTrials::inFull(const Candidate& candidate) {
  --m_left;
  auto outcome = std::make_shared<Assessment>(assess(changed(candidate), m_now.plan, m_shipped, m_stop, {}, m_lent));
  outcome->physics = nullptr;  // there are many outcomes, and none is looked into further
  return outcome;
}

/// As many as are needed now, and as many spare ones as the plan had.
int RemedyTrials::passesFor(const Candidate& candidate, const RemovalResult& removal) const {
  const int needed = removal.passesNeeded.value_or(0), before = m_now.removal.passesNeeded.value_or(0);
  if (needed <= 0 || (candidate.setsPasses && needed <= candidate.settings.passes)) return candidate.settings.passes;
  const int spare = before > 0 && m_planned.passes > before ? m_planned.passes - before : 0;
  return needed + spare;
}

namespace {

bool gets(const Assessment& after, const Assessment& before, const std::string& check) {
  return severity(statusOf(after, check)) < severity(statusOf(before, check));
}

/// What the quick look is enough to refuse.
bool isHopeless(const Candidate& candidate, const Assessment& look, const Assessment& before) {
  const bool told = candidate.check == "evenness" || candidate.check == "removal" || candidate.check == "machine";
  if (told && !gets(look, before, candidate.check)) return true;
  return statusOf(look, "removal") == Status::Fails && statusOf(before, "removal") != Status::Fails;
}

std::string labelWith(const std::string& label, int passes, int planned) {
  if (passes == planned) return label;
  const std::string text = label + "; " + passesText(passes);
  return passes < planned ? text + " instead of " + std::to_string(planned) : text;
}

}  // namespace

std::optional<Remedy> RemedyTrials::tried(const Candidate& wanted, const Assessment& before) {
  if (m_left <= 0) return std::nullopt;
  Candidate candidate = wanted;
  try {
    const Assessment first = quickLook(candidate);
    const int asked = candidate.settings.passes;
    candidate.settings.passes = passesFor(candidate, first.removal);
    const Assessment look = candidate.settings.passes == asked ? first : quickLook(candidate);
    if (isHopeless(candidate, look, before)) return std::nullopt;
    auto outcome = inFull(candidate);
    if (const int passes = passesFor(candidate, outcome->removal); passes != candidate.settings.passes && m_left > 0) {
      candidate.settings.passes = passes;
      outcome = inFull(candidate);
    }
    const bool saysPasses = candidate.family == "passes";
    Remedy remedy{candidate.check, candidate.label, "", candidate.settings, outcome, candidate.machine};
    if (!saysPasses) remedy.label = labelWith(candidate.label, candidate.settings.passes, m_planned.passes);
    remedy.newMachine = candidate.newMachine;
    return remedy;
  } catch (const Unusable&) {  // another machine may not do with these settings at all
    return std::nullopt;
  }
}

}  // namespace bw

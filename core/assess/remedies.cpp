// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/machine_limits.h"
#include "core/assess/remedy_trials.h"
#include "core/assess/remedy_words.h"
#include "core/assess/settings_change.h"
#include "core/job/hazards.h"
#include "core/text/text.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <set>
#include <tuple>

namespace bw {

namespace {

// How many changes are assessed in full at most (a second or two each): single ones, two together, three, on machines not yet there.
constexpr int mostSingles = 30, mostPairs = 10, mostThrees = 5, mostElsewhere = 4;

/// What a state weighs beside those of other rows: one that fails as much as three that are near their limit.
int weight(Status status) { return status == Status::Fails ? 3 : status == Status::Meets ? 0 : 1; }

/// By how much a row is worse than before. What was near its limit and is not known any more is worse, too.
int worsening(Status before, Status after) {
  if (before == Status::Near && after == Status::NotKnown) return 1;
  return std::max(0, weight(after) - weight(before));
}

/// How far a remedy is from perfect: its own row first, then every other row that it makes worse.
int burden(const Remedy& remedy, const Assessment& now) {
  int sum = 10 * weight(statusOf(*remedy.outcome, remedy.check));
  for (const VerdictRow& row : now.verdict) sum += 5 * worsening(row.status, statusOf(*remedy.outcome, row.check));
  return sum;
}

int failing(const Assessment& assessment) {
  return static_cast<int>(std::ranges::count(assessment.verdict, Status::Fails, &VerdictRow::status));
}

/// What fails, then what else is not met, then time: less is better.
std::tuple<int, int, double> shortfall(const Assessment& assessment) {
  int sum = 0;
  for (const VerdictRow& row : assessment.verdict) sum += weight(row.status);
  return {failing(assessment), sum, assessment.job.totalTime_s.value_or(0)};
}

/// A check that did not fail fails now: such a change mends nothing.
bool spoils(const Assessment& outcome, const Assessment& now) {
  return std::ranges::any_of(
      outcome.verdict, [&](const VerdictRow& row) { return row.status == Status::Fails && statusOf(now, row.check) != Status::Fails; });
}

/// A row that is no longer known is not mended.
bool betters(const Assessment& outcome, const Assessment& now, const std::string& check) {
  const Status after = statusOf(outcome, check);
  return after != Status::NotKnown && severity(after) < severity(statusOf(now, check));
}

bool helps(const Remedy& remedy, const Assessment& now) {
  return betters(*remedy.outcome, now, remedy.check) && burden(remedy, now) < 10 * weight(statusOf(now, remedy.check)) &&
         !spoils(*remedy.outcome, now);
}

/// The rows that fail and that the outcome betters, in the verdict's order.
std::vector<std::string> mendedRows(const Assessment& now, const Assessment& outcome) {
  std::vector<std::string> checks;
  for (const VerdictRow& row : now.verdict)
    if (row.status == Status::Fails && betters(outcome, now, row.check)) checks.push_back(row.check);
  return checks;
}

std::string lowered(std::string label) {
  if (!label.empty()) label[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(label[0])));
  return label;
}

/// Single changes first; where none of them leaves nothing that fails, a further one on top of the best of those before.
class RemedySearch {
 public:
  RemedySearch(const Project& project, const Assessment& now, const Library& shipped, const std::stop_token& stop, const Lent& lent)
      : m_project(project), m_now(now), m_stop(stop), m_trials(project, now, shipped, stop, lent) {}

  /// Each of a list by itself; `most` of them assessed in full.
  void tryEach(const std::vector<Candidate>& candidates, int most);
  /// One more change on top of each of the best so many; true where fewer checks fail after the best of them than before.
  bool tryTogether(std::size_t bases, int most);
  /// Something fails, and no change found so far leaves nothing that fails.
  bool isWanting() const { return m_fewest > 0; }
  std::vector<Remedy> take() { return std::move(m_found); }

 private:
  struct Step {
    Candidate candidate;
    Remedy remedy;
  };
  void offer(Remedy remedy, const std::vector<std::string>& checks);
  void tryOnTop(const Step& base);
  bool tryOnTop(const Step& base, Candidate next);
  std::vector<Step> bestSteps(std::size_t most) const;
  std::optional<Machine> machineOf(const Remedy& remedy) const;

  const Project& m_project;
  const Assessment& m_now;
  std::stop_token m_stop;
  RemedyTrials m_trials;
  std::vector<Step> m_steps;  // those that better their own row, whether they help as a whole or not
  std::vector<Remedy> m_found;
  int m_fewest = failing(m_now);  // checks that still fail after the best of those found
};

void RemedySearch::offer(Remedy remedy, const std::vector<std::string>& checks) {
  remedy.effect = effectOf(checks, m_now, *remedy.outcome);
  m_fewest = std::min(m_fewest, failing(*remedy.outcome));
  m_found.push_back(std::move(remedy));
}

/// The mildest of a family; of the paces for a hand that stands still the first that leaves nothing that fails, or all.
void RemedySearch::tryEach(const std::vector<Candidate>& candidates, int most) {
  m_trials.allow(most);
  std::set<std::string> served;
  for (const Candidate& candidate : candidates) {
    if (served.contains(candidate.check + candidate.family)) continue;
    const auto remedy = m_trials.tried(candidate, m_now);
    if (!remedy || !betters(*remedy->outcome, m_now, candidate.check)) continue;
    m_steps.push_back({candidate, *remedy});
    if (!helps(*remedy, m_now)) continue;
    if (candidate.family != "pace" || failing(*remedy->outcome) == 0) served.insert(candidate.check + candidate.family);
    offer(*remedy, {candidate.check});
  }
}

std::vector<RemedySearch::Step> RemedySearch::bestSteps(std::size_t most) const {
  std::vector<Step> best = m_steps;
  std::ranges::stable_sort(best, {}, [](const Step& step) { return shortfall(*step.remedy.outcome); });
  std::set<std::string> seen;
  std::erase_if(best, [&](const Step& step) { return !(shortfall(*step.remedy.outcome) < shortfall(m_now)); });
  std::erase_if(best, [&](const Step& step) { return !seen.insert(step.candidate.check + step.candidate.family).second; });
  if (best.size() > most) best.resize(most);
  return best;
}

bool RemedySearch::tryTogether(std::size_t bases, int most) {
  const int before = m_fewest;
  m_trials.allow(most);
  for (const Step& base : bestSteps(bases))
    if (isWanting()) tryOnTop(base);
  return m_fewest < before;
}

std::optional<Machine> RemedySearch::machineOf(const Remedy& remedy) const {
  if (remedy.newMachine) return remedy.newMachine;
  const Plan* plan = findPlan(m_project, m_now.plan);
  const Machine* found = findMachine(m_project, remedy.machine.empty() ? m_now.machine : remedy.machine);
  if (!found || !plan) return std::nullopt;
  return remedy.machine.empty() ? withOptic(*found, stepsOf(*plan).front().optic) : *found;
}

void RemedySearch::tryOnTop(const Step& base) {
  const std::optional<Machine> machine = machineOf(base.remedy);
  if (!machine) return;
  std::set<std::string> served;
  for (const Candidate& next : candidatesFor(m_project, *base.remedy.outcome, *machine, base.remedy.settings, m_stop)) {
    const bool wanted = statusOf(*base.remedy.outcome, next.check) == Status::Fails && next.machine.empty() && next.family != "passes";
    if (!wanted || served.contains(next.check + next.family)) continue;
    if (tryOnTop(base, next)) served.insert(next.check + next.family);
    if (!isWanting()) return;
  }
}

/// True where the check that it is for is better for it.
bool RemedySearch::tryOnTop(const Step& base, Candidate next) {
  const std::string check = next.check;
  next.family = base.candidate.family + ", " + next.family;
  next.label = base.candidate.label + "; " + lowered(next.label);
  next.machine = base.remedy.machine;
  next.newMachine = base.remedy.newMachine;
  next.setsPasses = base.candidate.setsPasses;
  auto remedy = m_trials.tried(next, *base.remedy.outcome);
  if (!remedy || !betters(*remedy->outcome, *base.remedy.outcome, check)) return false;
  m_steps.push_back({next, *remedy});
  const auto mended = mendedRows(m_now, *remedy->outcome);
  if (mended.empty() || spoils(*remedy->outcome, m_now) || failing(*remedy->outcome) >= m_fewest) return true;
  remedy->check = mended.front();
  offer(std::move(*remedy), mended);
  return true;
}

/// Enough passes for 19 of 20 such jobs, where the plan's are enough for the likely one only and nothing else gets worse by them.
std::optional<Remedy> forTheUnlikely(const Project& project, const Assessment& shown, const Assessment& now, const Settings& settings,
                                     const Library& shipped, const std::stop_token& stop, const Lent& lent) {
  if (!shown.ranges || statusOf(now, "removal") != Status::Meets || statusOf(shown, "removal") != Status::Near) return std::nullopt;
  const double passes = shown.ranges->passesNeeded.high;
  if (std::isinf(passes) || passes <= settings.passes) return std::nullopt;
  Remedy remedy{"removal", "Plan " + text::whole(passes) + " passes", "", settings, nullptr};
  remedy.settings.passes = static_cast<int>(passes);
  remedy.outcome =
      std::make_shared<const Assessment>(assess(withSettings(project, now.plan, remedy.settings), now.plan, shipped, stop, {}, lent));
  for (const VerdictRow& row : now.verdict)
    if (worsening(row.status, statusOf(*remedy.outcome, row.check)) > 0) return std::nullopt;
  const std::string time = timeChange(now, *remedy.outcome);
  remedy.effect = "enough in 19 of 20 such jobs" + (time.empty() ? "" : ", " + time);
  return remedy;
}

/// The failing row that stands highest.
std::string firstFailing(const Assessment& now) {
  const auto row = std::ranges::find(now.verdict, Status::Fails, &VerdictRow::status);
  return row == now.verdict.end() ? std::string() : row->check;
}

}  // namespace

std::vector<Remedy> findRemedies(const Project& project, const Assessment& shown, const Library& shipped, std::stop_token stop,
                                 const std::vector<MachineOffer>& others, const StageMemo* known, const Crew& crew) {
  if (!openStops(shown.precautions).empty()) return {};  // no setting mends that
  // Outcomes are told without ranges, so they are compared with an assessment without.
  StageMemo memo = known ? *known : StageMemo();
  const Lent lent{&memo, crew};
  const Assessment now = shown.ranges ? assess(project, shown.plan, shipped, stop, {}, lent) : shown;
  const Plan* plan = findPlan(project, now.plan);
  const Machine* found = plan ? findMachine(project, stepsOf(*plan).front().machine) : nullptr;
  if (!found) return {};
  const Machine machine = withOptic(*found, stepsOf(*plan).front().optic);
  const Settings settings = stepsOf(*plan).front().settings;
  RemedySearch search(project, now, shipped, stop, lent);
  search.tryEach(candidatesFor(project, now, machine, settings, stop), mostSingles);
  if (search.isWanting() && search.tryTogether(3, mostPairs) && search.isWanting()) search.tryTogether(1, mostThrees);
  if (search.isWanting()) {
    search.tryEach(candidatesOn(others, project, firstFailing(now)), mostElsewhere);
    if (search.isWanting() && !others.empty()) search.tryTogether(1, mostThrees);
  }
  std::vector<Remedy> remedies = search.take();
  if (auto remedy = forTheUnlikely(project, shown, now, settings, shipped, stop, lent)) remedies.push_back(*remedy);
  std::ranges::stable_sort(remedies, {}, [&](const Remedy& r) {
    return std::tuple(failing(*r.outcome), burden(r, now), r.outcome->job.totalTime_s.value_or(0));
  });
  return remedies;
}

}  // namespace bw

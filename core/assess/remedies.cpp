// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/assess.h"

#include "core/assess/carry_over.h"
#include "core/assess/machine_limits.h"
#include "core/assess/settings_change.h"
#include "core/assess/work.h"
#include "core/dose/advice.h"
#include "core/heat/limits.h"
#include "core/job/hazards.h"
#include "core/text/text.h"
#include "core/values/unusable.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace bw {

namespace {

using namespace text;

/// A change worth trying. Of one family (the same knob turned further and further) only the mildest that helps is offered.
struct Candidate {
  std::string check;
  std::string family;
  std::string label;
  Settings settings;
  std::string machine = {};  // another one than the plan's
};

Status statusOf(const Assessment& assessment, const std::string& check) {
  const auto row = std::ranges::find(assessment.verdict, check, &VerdictRow::check);
  return row == assessment.verdict.end() ? Status::NotKnown : row->status;
}

/// Collects changes of one setting at a time.
class Candidates {
 public:
  explicit Candidates(const Settings& now) : m_now(now) {}

  template <class Change>
  void add(const std::string& check, const std::string& family, const std::string& label, Change change) {
    Settings settings = m_now;
    change(settings);
    if (!(settings == m_now)) m_list.push_back({check, family, label, settings});
  }
  void addOnMachine(const std::string& check, const std::string& label, const std::string& machine, const Settings& settings) {
    m_list.push_back({check, "machine " + machine, label, settings, machine});
  }
  std::vector<Candidate> take() { return std::move(m_list); }

 private:
  Settings m_now;
  std::vector<Candidate> m_list;
};

/// To whole millimetres a second where it is fast enough for that.
double roundedTravel(double speed_m_s) { return speed_m_s > 5e-3 ? std::round(speed_m_s * 1e3) / 1e3 : speed_m_s; }

void forRemoval(Candidates& out, const Assessment& now, const Machine& machine, const Settings& s) {
  if (now.removal.passesNeeded && *now.removal.passesNeeded > s.passes) {
    out.add("removal", "passes", "Plan " + std::to_string(*now.removal.passesNeeded) + " passes",
            [&](Settings& c) { c.passes = *now.removal.passesNeeded; });
  }
  if (now.removal.passesNeeded) return;
  if (machine.kind == MachineKind::Pulsed) {
    for (const double factor : {0.6, 0.3}) {
      const double rate = std::round(s.repetitionRate_Hz * factor / 1e3) * 1e3;
      if (rate < machine.repetitionRate_Hz[0] || rate <= 0) break;
      out.add("removal", "rate", "Repetition rate " + number(rate / 1e3, 3) + " kHz: more energy in each pulse",
              [&](Settings& c) { c.repetitionRate_Hz = rate; });
    }
  }
  if (s.powerFraction < 1) out.add("removal", "power", "Full power", [](Settings& c) { c.powerFraction = 1; });
  for (const double factor : {0.5, 0.25}) {
    const double scan = s.scanSpeed_m_s * factor, travel = roundedTravel(s.travelSpeed_m_s * factor);
    out.add("removal", "scan", "Scan " + number(scan, 3) + " m/s and travel " + number(travel * 1e3) + " mm/s: more energy in one passage",
            [&](Settings& c) {
              c.scanSpeed_m_s = scan;
              c.travelSpeed_m_s = travel;
            });
  }
}

std::string travelText(double speed_m_s) { return number(speed_m_s * 1e3, 3) + " mm/s"; }

/// One knob after another: no light in the turns, swaths that hide each other's edges, frames that lie a whole number deep. Travelling
/// faster in proportion to a narrower step-over keeps dose and time.
template <class Advise>
Settings evenAllRound(Settings s, double litExtent_m, int overlaid, const Advise& advise) {
  s.beamOffInTurns = true;
  const double before = s.stepOver_m;
  if (overlaid > 1)
    s.stepOver_m = std::floor(litExtent_m / overlaid * 1e4) / 1e4;
  else if (const auto stepped = advise(s).stepOver(); stepped && stepped->stepOver_m > 0.8 * before)
    s = *stepped;
  s.travelSpeed_m_s = roundedTravel(s.travelSpeed_m_s * before / std::max(s.stepOver_m, before / 8));
  if (const auto spaced = advise(s).lineSpacing()) return *spaced;
  return advise(s).travelSpeed().value_or(s);
}

std::string inWords(const Settings& before, const Settings& after) {
  std::string text;
  const auto add = [&](bool changed, const std::string& words) { text += changed ? (text.empty() ? "" : ", ") + words : ""; };
  add(after.stepOver_m != before.stepOver_m, "step over " + number(after.stepOver_m * 1e3, 3) + " mm");
  add(after.travelSpeed_m_s != before.travelSpeed_m_s, "travel " + travelText(after.travelSpeed_m_s));
  add(after.lineSpacing_m != before.lineSpacing_m,
      "lines " + length(after.lineSpacing_m) + " apart, frame " + length(after.height_m) + " high");
  add(after.edgeTrim_m != before.edgeTrim_m, "beam off " + length(after.edgeTrim_m) + " before the ends of the lines");
  add(after.beamOffInTurns && !before.beamOffInTurns, "beam off in the turns");
  if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

/// Each knob turned to its least ripple by itself, then several together.
void forEvenness(Candidates& out, const Assessment& now, const Machine& machine, const Settings& s, const std::stop_token& stop) {
  const Emission emission = emissionOf(machine, s, now.beam);
  const auto advise = [&](const Settings& c) {
    return EvennessAdvice(c, machine.scan, emission, machine.beamProfile, now.beam.spotDiameter_m / 2, stop);
  };
  const auto add = [&](const char* family, const std::optional<Settings>& turned) {
    if (turned) out.add("evenness", family, inWords(s, *turned), [&](Settings& c) { c = *turned; });
  };
  const EvennessAdvice advice = advise(s);
  const bool turns = s.pattern == Pattern::Line || s.pattern == Pattern::Raster || s.pattern == Pattern::Crossed;
  Settings dark = s;
  dark.beamOffInTurns = true;
  if (turns && !s.oneWay) add("turns", dark);
  add("trim", advice.edgeTrim());
  add("lines", advice.lineSpacing());
  add("travel", advice.travelSpeed());
  add("step-over", advice.stepOver());
  if (s.lineSpacing_m > now.beam.spotDiameter_m / 2 && (hasHeight(s.pattern) || isRound(s.pattern))) {
    Settings close = s;
    close.lineSpacing_m = std::max(1e-6, std::floor(now.beam.spotDiameter_m / 2 * 1e5) / 1e5);
    add("close lines", close);
  }
  for (const int overlaid : {1, 2, 3, 4}) {
    const Settings even = evenAllRound(s, now.profile.litExtent_m, overlaid, advise);
    if (even.stepOver_m > 0 && even.stepOver_m <= 1.2 * s.stepOver_m) add("all round", even);
  }
}

void forTemperature(Candidates& out, const Settings& s) {
  out.add("temperature", "order", "Lay every second swath first, then those between",
          [](Settings& c) { c.swathOrder = SwathOrder::EverySecond; });
  const bool lines = s.pattern == Pattern::Line || s.pattern == Pattern::Raster || s.pattern == Pattern::Crossed;
  if (lines && !s.oneWay) out.add("temperature", "turns", "Beam off in the turns", [](Settings& c) { c.beamOffInTurns = true; });
  if (lines && s.width_m > 0)
    out.add("temperature", "trim", "Beam off " + length(s.edgeTrim_m + s.width_m / 40) + " before the ends of the lines",
            [&](Settings& c) { c.edgeTrim_m += s.width_m / 40; });
  for (const double pause : {60.0, 180.0, 600.0}) {
    if (s.passes > 1 && pause > s.pause_s)
      out.add("temperature", "wait", "Wait " + duration(pause) + " between passes", [&](Settings& c) { c.pause_s = pause; });
  }
  for (const double factor : {1.5, 3.0}) {
    const double speed = roundedTravel(s.travelSpeed_m_s * factor);
    const int passes = static_cast<int>(std::ceil(s.passes * factor));
    out.add("temperature", "travel", "Travel " + number(speed * 1e3) + " mm/s in " + std::to_string(passes) + " passes", [&](Settings& c) {
      c.travelSpeed_m_s = speed;
      c.passes = passes;
    });
  }
  for (const double factor : {0.8, 0.5}) {
    const double power = std::round(s.powerFraction * factor * 100) / 100;
    if (power > 0) out.add("temperature", "power", "Power " + percent(power), [&](Settings& c) { c.powerFraction = power; });
  }
}

void forFinish(Candidates& out, const Settings& s, const Assessment& now) {
  for (const double factor : {0.8, 0.6}) {
    out.add("finish", "power", "Power " + percent(s.powerFraction * factor), [&](Settings& c) { c.powerFraction *= factor; });
  }
  const double offset = now.beam.rayleighRange_m;
  out.add("finish", "focus", "Head " + length(offset) + " out of focus: a wider spot", [&](Settings& c) { c.focusOffset_m += offset; });
}

/// Another machine of the project, with the settings that some plan of it has, or these carried over.
void forOtherMachines(Candidates& out, const std::string& check, const Project& project, const Machine& machine, const Settings& s) {
  for (const Machine& other : project.machines) {
    if (other.id == machine.id) continue;
    const auto its = std::ranges::find_if(project.plans, [&](const Plan& plan) { return stepsOf(plan).front().machine == other.id; });
    const bool known = its != project.plans.end();
    const Settings settings = known ? stepsOf(*its).front().settings : carryOver(machine, s, other).settings;
    out.addOnMachine(check, "Take the " + other.name + (known ? ", set as in \"" + its->name + "\"" : ""), other.id, settings);
  }
}

std::vector<Candidate> candidatesFor(const Project& project, const Assessment& now, const Machine& machine, const Settings& s,
                                     const std::stop_token& stop) {
  Candidates out(s);
  if (statusOf(now, "machine") == Status::Fails) {
    out.add("machine", "machine", "Bring the settings within the machine's limits", [&](Settings& c) { c = withinMachine(machine, c); });
  }
  const auto wanting = [&](const char* check) { return severity(statusOf(now, check)) >= severity(Status::Near); };
  if (wanting("removal")) forRemoval(out, now, machine, s);
  if (wanting("evenness")) forEvenness(out, now, machine, s, stop);
  if (wanting("temperature")) forTemperature(out, s);
  if (statusOf(now, "temperature") == Status::Fails)
    forOtherMachines(out, "temperature", project, machine, s);
  else if (statusOf(now, "removal") == Status::Fails)
    forOtherMachines(out, "removal", project, machine, s);
  if (wanting("finish")) forFinish(out, s, now);
  return out.take();
}

std::string fromTo(const std::string& name, const std::string& before, const std::string& after) {
  return name + " " + before + " to " + after;
}

std::string timeChange(const Assessment& before, const Assessment& after) {
  if (!before.job.totalTime_s || !after.job.totalTime_s) return "";
  const double change = *after.job.totalTime_s - *before.job.totalTime_s;
  if (std::abs(change) < 20) return "no more time";
  return (change > 0 ? "+" : "-") + duration(std::abs(change));
}

const LimitResult* sameLimit(const Assessment& assessment, const std::string& name) {
  const auto found = std::ranges::find(assessment.thermal.limits, name, &LimitResult::name);
  return found == assessment.thermal.limits.end() ? nullptr : &*found;
}

std::string effectOf(const std::string& check, const Assessment& before, const Assessment& after) {
  std::string effect;
  if (check == "evenness" && before.dose && after.dose) {
    const DoseResult &was = *before.dose, &is = *after.dose;
    const bool misses = was.missedFraction > std::max(was.ripple, was.rippleAlong), across = was.ripple >= was.rippleAlong;
    effect = misses   ? fromTo("share missed", percent(was.missedFraction), percent(is.missedFraction))
             : across ? fromTo("ripple", percent(was.ripple), percent(is.ripple))
                      : fromTo("ripple along the travel", percent(was.rippleAlong), percent(is.rippleAlong));
    const double other = across ? is.rippleAlong - was.rippleAlong : is.ripple - was.ripple;
    if (other > 0.05)
      effect += across ? fromTo(", along the travel", percent(was.rippleAlong), percent(is.rippleAlong))
                       : fromTo(", across", percent(was.ripple), percent(is.ripple));
  }
  if (check == "removal") effect = after.removal.passesNeeded ? "passes needed: " + std::to_string(*after.removal.passesNeeded) : "";
  if (check == "finish" && before.finish.meltDepth_m && after.finish.meltDepth_m) {
    effect = fromTo("melt depth", length(*before.finish.meltDepth_m), length(*after.finish.meltDepth_m));
  }
  if (check == "temperature") {
    const LimitResult* worst = tellingLimit(before.thermal.limits);
    const LimitResult* same = worst ? sameLimit(after, worst->name) : nullptr;
    if (same) effect = fromTo(worst->name, whole(worst->predicted_C), temperature(same->predicted_C));
  }
  const std::string time = timeChange(before, after);
  return effect + (effect.empty() || time.empty() ? "" : ", ") + time;
}

/// What a state weighs beside those of other rows: one that fails as much as three that are near their limit.
int weight(Status status) { return status == Status::Fails ? 3 : status == Status::Meets ? 0 : 1; }

/// By how much a row is worse than before. What was near its limit and is not known any more is worse, too.
int worsening(Status before, Status after) {
  if (before == Status::Near && after == Status::NotKnown) return 1;
  return std::max(0, weight(after) - weight(before));
}

/// How far a candidate is from perfect: its own row first, then every other row that it makes worse.
int burden(const Remedy& remedy, const Assessment& now) {
  int sum = 10 * weight(statusOf(*remedy.outcome, remedy.check));
  for (const VerdictRow& row : now.verdict) sum += 5 * worsening(row.status, statusOf(*remedy.outcome, row.check));
  return sum;
}

/// A row that is no longer known is not mended.
bool helps(const Remedy& remedy, const Assessment& now) {
  const Status before = statusOf(now, remedy.check), after = statusOf(*remedy.outcome, remedy.check);
  return after != Status::NotKnown && severity(after) < severity(before) && burden(remedy, now) < 10 * weight(before);
}

/// Enough passes for 19 of 20 such jobs, where the plan's are enough for the likely one only and nothing else gets worse by them.
std::optional<Remedy> forTheUnlikely(const Project& project, const Assessment& shown, const Assessment& now, const Settings& settings,
                                     const Library& shipped, const std::stop_token& stop) {
  if (!shown.ranges || statusOf(now, "removal") != Status::Meets || statusOf(shown, "removal") != Status::Near) return std::nullopt;
  const double passes = shown.ranges->passesNeeded.high;
  if (std::isinf(passes) || passes <= settings.passes) return std::nullopt;
  Remedy remedy{"removal", "Plan " + whole(passes) + " passes", "", settings, nullptr};
  remedy.settings.passes = static_cast<int>(passes);
  remedy.outcome = std::make_shared<const Assessment>(assess(withSettings(project, now.plan, remedy.settings), now.plan, shipped, stop));
  for (const VerdictRow& row : now.verdict)
    if (worsening(row.status, statusOf(*remedy.outcome, row.check)) > 0) return std::nullopt;
  const std::string time = timeChange(now, *remedy.outcome);
  remedy.effect = "enough in 19 of 20 such jobs" + (time.empty() ? "" : ", " + time);
  return remedy;
}

}  // namespace

std::vector<Remedy> findRemedies(const Project& project, const Assessment& shown, const Library& shipped, std::stop_token stop) {
  if (!openStops(shown.precautions).empty()) return {};  // no setting mends that
  // Outcomes are told without ranges, so they are compared with an assessment without.
  const Assessment now = shown.ranges ? assess(project, shown.plan, shipped, stop) : shown;
  const Plan* plan = findPlan(project, now.plan);
  const Machine* found = plan ? findMachine(project, stepsOf(*plan).front().machine) : nullptr;
  if (!found) return {};
  const Machine machine = withOptic(*found, stepsOf(*plan).front().optic);
  std::vector<Remedy> remedies;
  std::set<std::string> served;
  for (const Candidate& candidate : candidatesFor(project, now, machine, stepsOf(*plan).front().settings, stop)) {
    if (served.contains(candidate.check + candidate.family)) continue;
    Remedy remedy{candidate.check, candidate.label, "", candidate.settings, nullptr, candidate.machine};
    const auto reassess = [&] {
      const Project changed = remedy.machine.empty() ? withSettings(project, now.plan, remedy.settings)
                                                     : onMachine(project, now.plan, remedy.machine, remedy.settings);
      try {
        remedy.outcome = std::make_shared<const Assessment>(assess(changed, now.plan, shipped, stop));
      } catch (const Unusable&) {  // another machine may not do with these settings at all
        remedy.outcome = nullptr;
      }
    };
    reassess();
    if (!remedy.outcome) continue;
    const auto needed = remedy.outcome->removal.passesNeeded;
    if (candidate.check == "removal" && needed && *needed > remedy.settings.passes) {  // it comes off now, only not in so few
      remedy.settings.passes = *needed;
      remedy.label += "; " + std::to_string(*needed) + " passes";
      reassess();
    }
    remedy.effect = effectOf(candidate.check, now, *remedy.outcome);
    if (!helps(remedy, now)) continue;
    served.insert(candidate.check + candidate.family);
    remedies.push_back(std::move(remedy));
  }
  if (auto remedy = forTheUnlikely(project, shown, now, stepsOf(*plan).front().settings, shipped, stop)) remedies.push_back(*remedy);
  std::ranges::stable_sort(remedies, {},
                           [&](const Remedy& r) { return std::pair(burden(r, now), r.outcome->job.totalTime_s.value_or(0)); });
  return remedies;
}

}  // namespace bw

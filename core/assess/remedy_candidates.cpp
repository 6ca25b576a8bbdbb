// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/remedy_candidates.h"

#include "core/assess/carry_over.h"
#include "core/assess/machine_limits.h"
#include "core/assess/removal_work.h"
#include "core/dose/advice.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

using namespace text;

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
  void addOnMachine(const std::string& check, const std::string& label, const std::string& machine, const Settings& settings,
                    bool setsPasses) {
    m_list.push_back({check, "machine " + machine, label, settings, machine, {}, setsPasses});
  }
  std::vector<Candidate> take() { return std::move(m_list); }

 private:
  Settings m_now;
  std::vector<Candidate> m_list;
};

/// To whole millimetres a second where it is fast enough for that.
double roundedTravel(double speed_m_s) { return speed_m_s > 5e-3 ? std::round(speed_m_s * 1e3) / 1e3 : speed_m_s; }

std::string travelText(double speed_m_s) { return number(speed_m_s * 1e3, 3) + " mm/s"; }

/// A layer that should stay goes: less of the beam on it.
void forKept(Candidates& out, const Assessment& now, const Settings& s) {
  const int needed = now.removal.passesNeeded.value_or(0);
  if (needed > 0 && needed < s.passes) out.add("removal", "passes", "Plan " + passesText(needed), [&](Settings& c) { c.passes = needed; });
  for (const double factor : {0.8, 0.6, 0.4}) {
    const double power = std::round(s.powerFraction * factor * 100) / 100;
    if (power > 0) out.add("removal", "less power", "Power " + percent(power), [&](Settings& c) { c.powerFraction = power; });
  }
  for (const double ranges : {1.0, 2.0}) {
    const double offset = s.focusOffset_m + ranges * now.beam.rayleighRange_m;
    out.add("removal", "focus", "Head " + length(offset) + " out of focus: a wider spot", [&](Settings& c) { c.focusOffset_m = offset; });
  }
}

bool losesKept(const RemovalResult& removal) { return std::ranges::any_of(removal.layers, &LayerResult::lost); }

void forRemoval(Candidates& out, const Assessment& now, const Machine& machine, const Settings& s) {
  if (losesKept(now.removal)) return forKept(out, now, s);
  if (now.removal.passesNeeded && *now.removal.passesNeeded > s.passes) {
    out.add("removal", "passes", "Plan " + passesText(*now.removal.passesNeeded),
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
    out.add("temperature", "travel", "Travel " + travelText(speed), [&](Settings& c) { c.travelSpeed_m_s = speed; });
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

/// Paces a hand can hold (common practice, no source), the usual ones first, each turned to where frames lie evenly.
void forStillHand(Candidates& out, const Assessment& now, const Machine& machine, const Settings& s, const std::stop_token& stop) {
  for (const double pace_m_s : {0.010, 0.020, 0.005, 0.040, 0.002}) {
    Settings moving = s;
    moving.travelSpeed_m_s = pace_m_s;
    if (!(moving.stepOver_m > 0)) moving.stepOver_m = 0.9 * s.width_m;
    const EvennessAdvice advice(moving, machine.scan, emissionOf(machine, moving, now.beam), machine.beamProfile,
                                now.beam.spotDiameter_m / 2, stop);
    moving = advice.travelSpeed().value_or(moving);
    out.add("removal", "pace", "Travel " + travelText(moving.travelSpeed_m_s), [&](Settings& c) { c = moving; });
  }
}

/// Another machine of the project, with the settings that some plan of it has, or these carried over.
void forOtherMachines(Candidates& out, const std::string& check, const Project& project, const Machine& machine, const Settings& s) {
  for (const Machine& other : project.machines) {
    if (other.id == machine.id) continue;
    const auto its = std::ranges::find_if(project.plans, [&](const Plan& plan) { return stepsOf(plan).front().machine == other.id; });
    const bool known = its != project.plans.end();
    const Settings settings = known ? stepsOf(*its).front().settings : carryOver(machine, s, other).settings;
    out.addOnMachine(check, "Take the " + other.name + (known ? ", set as in \"" + its->name + "\"" : ""), other.id, settings, known);
  }
}

}  // namespace

Status statusOf(const Assessment& assessment, const std::string& check) {
  const auto row = std::ranges::find(assessment.verdict, check, &VerdictRow::check);
  return row == assessment.verdict.end() ? Status::NotKnown : row->status;
}

std::vector<Candidate> candidatesFor(const Project& project, const Assessment& now, const Machine& machine, const Settings& s,
                                     const std::stop_token& stop) {
  Candidates out(s);
  if (statusOf(now, "machine") == Status::Fails) {
    out.add("machine", "machine", "Bring the settings within the machine's limits", [&](Settings& c) { c = withinMachine(machine, c); });
  }
  if (!(s.travelSpeed_m_s > 0)) {
    forStillHand(out, now, machine, s, stop);
    return out.take();
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

std::vector<Candidate> candidatesOn(const std::vector<MachineOffer>& others, const Project& project, const std::string& check) {
  std::vector<Candidate> list;
  for (const auto& [machine, settings, own] : others) {
    if (findMachine(project, machine.id)) continue;
    const std::string label = own ? "Take the shop's " + machine.name + " (not in this project yet)"
                                  : "Take a machine like " + machine.name + " (typical, not in this project)";
    list.push_back({check, "machine " + machine.id, label, settings, machine.id, machine, true});
  }
  return list;
}

}  // namespace bw

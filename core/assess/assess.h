// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "core/values/crew.h"
#include "core/values/project.h"
#include "core/values/stopped.h"
#include "core/values/unusable.h"

#include <functional>

namespace bw {

struct StageMemo;

/// Takes what is known before the rest: an assessment with its dose and no more (`doseOnly`). Called once at most, from any thread.
using TakeEarly = std::function<void(std::shared_ptr<const Assessment>)>;

/// What a caller lends to an assessment.
struct Lent {
  StageMemo* memo = nullptr;  // stages of earlier assessments, that what has not changed is not made anew; the answer is the same without
  Crew crew = Crew(1);        // threads
  TakeEarly early = {};       // is told the dose as soon as it is known, while the heat is still sought
};

/// Predicts what a plan does to the part. The one entry of window, command line and tests.
/// `planName` empty: the first plan. `shipped` is the library the project's own entries are laid over.
/// `scene` asks for a dose map of some other part of the work besides. Same inputs, same answer; nothing outside the arguments is read.
/// Throws Unusable where there is no such plan or machine, or a setting makes no sense; Stopped when told to stop.
Assessment assess(const Project& project, const std::string& planName, const Library& shipped, std::stop_token stop = {},
                  const SceneRequest& scene = {}, const Lent& lent = {});

/// The same assessment looked into further: the spread of its results when everything uncertain varies, what to find out next, a map of
/// what each pass leaves, the time of a still hand, the tilt at which layers stop clearing. Takes some tenths of a second. Verdict, answer
/// and notes are given anew. Same inputs, same answer. Throws as assess().
Assessment inDepth(const Project& project, const Library& shipped, const Assessment& first, std::stop_token stop = {},
                   const Crew& crew = Crew(1));

/// A change of settings that helps a check, and what it would bring.
struct Remedy {
  std::string check;    // the verdict row it is for
  std::string label;    // "Wait 90 s between passes"
  std::string effect;   // "back 118 to 146 °C, +6 min"
  Settings settings;    // the whole settings after it
  std::shared_ptr<const Assessment> outcome;
  std::string machine = {};  // the other machine it takes; empty: the plan's own
  std::size_t step = 0;      // of the plan, which is changed: the one that was assessed
  std::optional<Machine> newMachine = {};  // that machine, where the project does not have it yet
};

/// A machine that could be taken, and what it would be set to.
struct MachineOffer {
  Machine machine;
  Settings settings;
  bool own = false;  // the shop has it; otherwise one typical of its kind
};

/// Looks for one-click changes that mend what fails, best first, each assessed in full; where no single one leaves nothing that fails, for
/// two and three together, then for one of `others`, machines that the project does not have, the shop's own first. None makes a check fail
/// that did not. The number of assessments is bounded; same inputs, same answer. `known`: stages of earlier assessments.
std::vector<Remedy> findRemedies(const Project& project, const Assessment& shown, const Library& shipped, std::stop_token stop = {},
                                 const std::vector<MachineOffer>& others = {}, const StageMemo* known = nullptr,
                                 const Crew& crew = Crew(1));

}  // namespace bw

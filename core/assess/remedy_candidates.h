// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assess.h"

#include <string>
#include <vector>

namespace bw {

/// A change worth trying. Of one family (the same knob turned further and further) only the mildest that helps is offered.
struct Candidate {
  std::string check;
  std::string family;
  std::string label;
  Settings settings;
  std::string machine = {};                // another one than the plan's
  std::optional<Machine> newMachine = {};  // that one, where the project does not have it
  bool setsPasses = false;                 // its passes are meant; they are raised where they do not do, never lowered
};

/// State of a check; not known where there is no such row.
Status statusOf(const Assessment& assessment, const std::string& check);

/// Changes of these settings, which `now` tells of, for the checks that fail or are near their limit; `machine` with its optic put in.
std::vector<Candidate> candidatesFor(const Project& project, const Assessment& now, const Machine& machine, const Settings& settings,
                                     const std::stop_token& stop);

/// Those of the machines that the project does not have.
std::vector<Candidate> candidatesOn(const std::vector<MachineOffer>& others, const Project& project, const std::string& check);

}  // namespace bw

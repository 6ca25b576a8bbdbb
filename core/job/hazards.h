// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/job/air.h"
#include <string>
#include <vector>

namespace bw {

/// What may hurt people, filters or the part, one sentence or two each; fire first, then what is breathed in, the worst first.
std::vector<Hazard> hazards(const std::vector<CoatedArea>& areas, const Metal& metal, const Part& part);

/// All that has to be settled before the beam is on. Stops come first: fuel or a closed cavity behind the metal, asbestos and PCB. Then
/// what does not keep anybody from planning: tests of the coat, what lies behind, extraction, eyewear, fire watch. An item is settled by
/// the project's clearance of its id, which names what it concerns, so that another layer or beam opens it again; what was found by a test
/// stays in the list. Common practice of hot work and of laser safety, no source; local rules go before it.
/// Throws Unusable for an unknown coating; no eyewear is named for a step whose machine is missing.
std::vector<Precaution> precautions(const Project& project, const Plan& plan, const Library& shipped);

/// Those that keep the beam off whatever else is planned: neither settled nor waived.
std::vector<Precaution> openStops(const std::vector<Precaution>& all);
std::size_t openCount(const std::vector<Precaution>& all);

/// Notes what a test showed in every layer that this was open for. Throws Unusable for an unknown coating.
Coat withTested(Coat coat, const std::string& component, Presence found, const Library& own, const Library& shipped);
/// What the layers say themselves of a component is forgotten: what their coatings say holds again.
Coat withoutTest(Coat coat, const std::string& component);

}  // namespace bw

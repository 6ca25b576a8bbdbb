// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/work.h"
#include "core/removal/passes.h"

namespace bw {

/// How the passes of the plan follow each other.
PassRhythm rhythmOf(const Work& work);

/// The bare metal as the beam meets it once the part is warm.
BareMetal warmMetal(const Work& work);

/// The hits of one pass at any place. Needs the work's strikes.
HitFinder hitsOf(const Work& work);

/// The places that stand for the surface, from the memo where they are known; nothing where too much light falls on one.
std::shared_ptr<const std::vector<Place>> placesFound(const Work& work);

/// The spread of the results. Needs the assessment's places. Nothing where even a few draws would take too long to follow.
std::optional<Ranges> rangesOf(const Work& work, const Assessment& assessment);

/// What to measure to know better, from what the ranges depend on most.
std::vector<FindOutNext> measurements(const Ranges& ranges);

/// "1 pass"; "4 to 7 passes", "5 passes or more", "no number of passes".
std::string passesText(int passes);
std::string passesText(const Spread& passes);

}  // namespace bw

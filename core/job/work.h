// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/job/job_result.h"
#include "core/values/project.h"

#include <optional>
#include <vector>

namespace bw {

// Shares and times of handwork. Common practice, no source: the shop's own log replaces them.
inline constexpr double beamOnShare = 0.7;     // of working time; the rest goes to looking, turning, repositioning
inline constexpr double tightShare = 0.6;      // of the open face's pace where the head barely fits
inline constexpr double hiddenShare = 0.35;    // and where it works round a corner
inline constexpr double leastTiltShare = 0.2;  // a steep face is turned to the beam rather than stripped slower still
inline constexpr double setUp_s = 15 * 60;     // guards, extraction, goggles, focus, a test stripe

/// The areas a step strips: those it names, or all; one of the part's size where it has none.
std::vector<Area> areasOf(const Part& part, const Step& step);

/// Sum of them, each as often as it occurs.
double areaOf_m2(const std::vector<Area>& areas);

/// Share of the open face's pace on this area: access, and the cosine by which a tilted face takes less of the beam.
double paceShare(const Area& area);

/// Work of a step that takes so many passes: beam time = passes x area / (travel x step-over x pace share); working time beam time /
/// beam-on share + pauses + warm-up + set-up. Energy is the machine's draw over the beam time and what else it draws all the time.
/// Without passes (it never clears) or with a still hand only the area is known. Cost = working time x (what an hour of the machine costs
/// + what an hour of work costs); the machine's own price of an hour goes before the project's.
JobResult job(const Project& project, const Step& step, const Machine& machine, std::optional<int> passes);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/dose/repeat_cell.h"

namespace bw {

/// What is needed to lay down strokes of the hand one by one.
struct Strokes {
  const Frame& frame;
  double travelSpeed_m_s = 0;
  double travelAngle_rad = 0;
  double stepOver_m = 0;
  Emission emission;
  SpotProfile profile;
  double spotRadius_m = 0;
  std::optional<Wander> wander = {};
};

/// A rectangle of the part with the strokes that reach it: the first of a stroke, its end, a still hand, the corner of an area.
/// Across is reckoned from the middle of the swath (of the first swath in a corner), along from where the head's middle starts or stops.
struct ScenePlan {
  Point low = Point::Zero();
  Point high = Point::Zero();
  std::vector<Stroke> strokes;
  double beamOn_s = 0;  // of each stroke
};

/// Nothing for the endless middle and one endless swath, which are no strokes. Precondition: a travel speed above 0, but for a still hand.
ScenePlan planScene(const Strokes& work, const SceneRequest& request);

/// Rows that the scene would be summed from, and its points: what it costs; asked before it is made.
double sceneRows(const Strokes& work, const ScenePlan& plan);

/// The dose of these strokes, frame after frame, at points no more than longestStep_m apart. Throws Stopped.
DoseMap sceneMap(const Strokes& work, const ScenePlan& plan, double longestStep_m, std::stop_token stop = {}, const Crew& crew = {});

/// One endless swath without its neighbours: periodic along the travel, as wide as its spots reach.
DoseMap oneSwathMap(const std::vector<DabRow>& rows, const SpotProfile& profile, const Footprint& spot, const LitBounds& lit,
                    double advance_m, double longestStep_m, std::stop_token stop = {}, const Crew& crew = {});

}  // namespace bw

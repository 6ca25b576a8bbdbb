// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/scene_map.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr double aroundWork = 3;  // spot radii around what the beam's centre reaches

Point marginOf(const Strokes& work) { return Point::Constant(aroundWork * work.spotRadius_m); }

/// How deep a view along the travel goes beyond the stretch where frames still begin or already end: two advances, or half a frame.
double depthOf(const Strokes& work, const LitBounds& lit) {
  return std::max(2 * work.travelSpeed_m_s * work.frame.period_s(), 0.5 * (lit.high.y() - lit.low.y())) +
         2 * aroundWork * work.spotRadius_m;
}

/// Strokes side by side from `begin_m` on, `from` and `to` counted in swaths.
void addStrokes(ScenePlan& plan, const Strokes& work, int from, int to, double begin_m, double length_m) {
  const double move = length_m / work.travelSpeed_m_s;
  for (int swath = from; swath <= to; ++swath)
    plan.strokes.push_back({Point(swath * work.stepOver_m, begin_m), 0, move, false, work.wander});
  plan.beamOn_s = move;
}

/// How many neighbours on one side reach into a swath's own lit extent.
int neighbours(const Strokes& work, const LitBounds& lit) {
  const double reach = lit.high.x() - lit.low.x() + 2 * aroundWork * work.spotRadius_m;
  return static_cast<int>(std::clamp(std::ceil(reach / work.stepOver_m), 1.0, 1e5));  // too many are refused by sceneRows
}

ScenePlan planStart(const Strokes& work, const LitBounds& lit, bool corner) {
  ScenePlan plan;
  const int sides = neighbours(work, lit);
  plan.low = lit.low - marginOf(work);
  plan.high = Point(lit.high.x() + aroundWork * work.spotRadius_m + (corner ? work.stepOver_m : 0), lit.high.y() + depthOf(work, lit));
  addStrokes(plan, work, corner ? 0 : -sides, corner ? sides + 1 : sides, 0, plan.high.y() - lit.low.y() + aroundWork * work.spotRadius_m);
  return plan;
}

/// The hand stops at 0; it came from far enough that the view's beginning is steady.
ScenePlan planEnd(const Strokes& work, const LitBounds& lit) {
  ScenePlan plan;
  const int sides = neighbours(work, lit);
  plan.low = Point(lit.low.x(), lit.low.y() - depthOf(work, lit)) - marginOf(work);
  plan.high = lit.high + marginOf(work);
  const double length = lit.high.y() - plan.low.y() + aroundWork * work.spotRadius_m;
  addStrokes(plan, work, -sides, sides, -length, length);
  return plan;
}

ScenePlan planStill(const Strokes& work, const LitBounds& lit, double still_s) {
  return {lit.low - marginOf(work), lit.high + marginOf(work), {{Point::Zero(), still_s, 0, false, {}}}, still_s};
}

/// Every whole frame of a still hand is the same.
std::vector<DabRow> stillRows(const Strokes& work, const Travel& travel, double beamOn_s) {
  const double frames = std::floor(beamOn_s / work.frame.period_s() * (1 + 1e-12));
  std::vector<DabRow> rows;
  if (frames >= 1) rows = rowsOf(work.frame, travel, work.emission, work.spotRadius_m);
  for (DabRow& row : rows) row.energy_J *= frames;
  const auto rest = rowsOf(work.frame, travel, work.emission, work.spotRadius_m, {frames * work.frame.period_s(), beamOn_s});
  rows.insert(rows.end(), rest.begin(), rest.end());
  return rows;
}

/// Rows of one stroke that can reach the view.
void addRows(std::vector<DabRow>& out, const Strokes& work, const ScenePlan& plan, const Stroke& stroke, const std::stop_token& stop) {
  const Travel travel(work.travelSpeed_m_s, work.travelAngle_rad, stroke);
  const Point low = plan.low - marginOf(work), high = plan.high + marginOf(work);
  const auto frames = static_cast<std::int64_t>(std::ceil(plan.beamOn_s / work.frame.period_s() - 1e-9));
  for (std::int64_t n = 0; n < frames; ++n) {
    throwIfStopped(stop);
    for (const DabRow& row :
         rowsOf(work.frame, travel, work.emission, work.spotRadius_m, {static_cast<double>(n) * work.frame.period_s(), plan.beamOn_s})) {
      const Point spread = row.step.cwiseAbs(), from = row.first.cwiseMin(row.last()) - spread,
                  to = row.first.cwiseMax(row.last()) + spread;
      if ((from.array() < high.array()).all() && (to.array() > low.array()).all()) out.push_back(row);
    }
  }
}

}  // namespace

ScenePlan planScene(const Strokes& work, const SceneRequest& request) {
  const LitBounds lit = litBounds(work.frame, Travel(work.travelSpeed_m_s, work.travelAngle_rad));
  const double middle = (lit.low.x() + lit.high.x()) / 2;
  ScenePlan plan;
  switch (request.scene) {
    case Scene::StrokeStart:
      plan = planStart(work, lit, false);
      break;
    case Scene::StrokeEnd:
      plan = planEnd(work, lit);
      break;
    case Scene::Corner:
      plan = planStart(work, lit, true);
      break;
    case Scene::StillHand:
      plan = planStill(work, lit, request.still_s);
      break;
    default:
      return plan;
  }
  for (Stroke& stroke : plan.strokes) stroke.start.x() -= middle;
  plan.low.x() -= middle;
  plan.high.x() -= middle;
  return plan;
}

double sceneRows(const Strokes& work, const ScenePlan& plan) {
  const double each = rowCount(work.frame, Travel(work.travelSpeed_m_s, work.travelAngle_rad), work.emission, work.spotRadius_m);
  const bool still = plan.strokes.size() == 1 && plan.strokes.front().move_s == 0;
  return each * (still ? 2 : std::ceil(plan.beamOn_s / work.frame.period_s()) * static_cast<double>(plan.strokes.size()));
}

DoseMap sceneMap(const Strokes& work, const ScenePlan& plan, double longestStep_m, std::stop_token stop, const Crew& crew) {
  std::vector<DabRow> rows;
  for (const Stroke& stroke : plan.strokes) {
    if (stroke.move_s == 0) {
      const auto still = stillRows(work, Travel(0, work.travelAngle_rad, stroke), plan.beamOn_s);
      rows.insert(rows.end(), still.begin(), still.end());
    } else {
      addRows(rows, work, plan, stroke, stop);
    }
  }
  const Point size = plan.high - plan.low;
  const Grid grid = gridOf({size.x(), size.y()}, longestStep_m);
  DoseMap map = sumOnto({grid.columns, grid.rows, plan.low, Point(size.x() / grid.columns, size.y() / grid.rows), false}, rows,
                        work.profile, roundSpot(work.spotRadius_m), stop, crew);
  map.originAcross_m = plan.low.x();
  map.originAlong_m = plan.low.y();
  return map;
}

DoseMap oneSwathMap(const std::vector<DabRow>& rows, const SpotProfile& profile, const Footprint& spot, const LitBounds& lit,
                    double advance_m, double longestStep_m, std::stop_token stop, const Crew& crew) {
  const double reach = aroundWork * spot.across_m, low = lit.low.x() - reach, width = lit.high.x() + reach - low;
  std::vector<DabRow> moved = rows;
  for (DabRow& row : moved) row.first.x() -= low;
  const RepeatCell cell{width, advance_m};
  DoseMap map = steadyMap(moved, profile, spot, cell, gridOf(cell, longestStep_m), stop, crew);
  map.originAcross_m = -width / 2;
  return map;
}

}  // namespace bw

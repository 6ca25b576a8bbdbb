// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/part_heat.h"

#include "core/heat/heat_windows.h"
#include "core/heat/laid_light.h"
#include "core/values/stopped.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace bw {

namespace {

constexpr double handedOver = 2;  // cells that heat has spread by then
constexpr double framesOld = 10;
constexpr int mostWindows = 8;
constexpr double leastCell = 0.25;  // of the thickness: narrower ones would not be even through it

}  // namespace

PartHeat::PartHeat(const PartSheet& sheet, const PartGrid& grid, const Plate& near, double spotRadius_m, double framePeriod_s)
    : m_sheet(sheet), m_grid(grid), m_near(near), m_radius(spotRadius_m), m_enthalpy(sheet.metal), m_law(m_sheet, m_enthalpy) {
  const double cell = std::max({std::sqrt(sheet.size_m.prod() / grid.cells), sheet.size_m.maxCoeff() / 400, leastCell * sheet.thickness_m});
  m_across = std::max(1, static_cast<int>(std::round(sheet.size_m.x() / cell)));
  m_along = std::max(1, static_cast<int>(std::round(sheet.size_m.y() / cell)));
  m_finest = std::max(sheet.size_m.x() / m_across, sheet.size_m.y() / m_along);
  const double finest = std::max(grid.finest_m, sheet.thickness_m);  // finer ones would not be even through the thickness
  while (grid.finest_m > 0 && m_finest > finest && m_windows < mostWindows) {
    ++m_windows;
    m_finest /= 2;
  }
  const double spread = handedOver * m_finest;
  m_pace = spread * spread / (2 * near.diffusivity_m2_s());
  m_handover = std::max({near.mixingAge_s(), m_windows > 0 ? 0 : m_pace, framesOld * framePeriod_s});
  if (m_windows == 0) m_pace = m_handover;
}

/// One run: the cells' state, stepped.
class PartHeat::Runner {
 public:
  Runner(const PartHeat& part, const HandTour& tour, const FrameBoxes& boxes, double power_W)
      : m_part(part),
        m_tour(tour),
        m_late(part.m_windows > 0 ? 0 : part.m_handover),
        m_start(part.m_enthalpy.enthalpy_J_m3(part.m_sheet.start_C)),
        m_windows(tour, boxes.all, part.m_near.diffusivity_m2_s(), part.m_grid.windowMemory, part.m_grid.windowPad),
        m_light(tour, laidBoxes(part, boxes), power_W, laidVariance(part), m_late) {
    for (int level = 0; level <= part.m_windows; ++level)
      m_blocks.emplace_back(part.m_law, part.m_sheet.size_m, part.m_across << level, part.m_along << level);
    m_blocks.front().fill(m_start);
    for (const CellBlock& block : m_blocks) m_fastest.push_back(part.m_law.fastest_1_s(block.cell_m()));
    PartField& field = m_result.field;
    field.across = part.m_across;
    field.along = part.m_along;
    field.cell_m = m_blocks.front().cell_m();
    field.ofAllAges = part.m_windows > 0;
    for (int level = 1; level <= part.m_windows; ++level) {
      const CellBlock& block = m_blocks[static_cast<std::size_t>(level)];
      field.windows.push_back({block.part(), block.cell_m(), {}, {}});
    }
  }

  PartRun run(double end_s, const std::stop_token& stop) {
    m_end = end_s;
    double now = 0, step = 0;
    keepPart(0);
    while (now < end_s * (1 - 1e-12)) {
      throwIfStopped(stop);
      step = std::min(stepFrom(now, step), end_s - now);
      const double next = now + step < end_s * (1 - 1e-12) ? now + step : end_s;
      advance(0, now, next, 0, 1);
      now = next;
      keepPart(now, now >= end_s * (1 - 1e-12));
    }
    m_result.young_J = m_late > 0 ? m_light.landed_J(now - m_late, now) : 0;  // what is too young to be handed over
    const CellBlock& part = m_blocks.front();
    for (const double h : part.state()) m_result.stored_J += (h - m_start) * part.cellVolume_m3();
    m_result.absorbed_J += m_result.young_J;
    return std::move(m_result);
  }

 private:
  static double laidVariance(const PartHeat& part) {
    const double spot = part.m_radius * part.m_radius / 4;
    return part.m_windows > 0 ? spot : spot + 2 * part.m_near.diffusivity_m2_s() * part.m_handover;
  }

  static std::vector<LightBox> laidBoxes(const PartHeat& part, const FrameBoxes& boxes) {
    const bool blurred =
        part.m_windows > 0 || boxes.all.size.maxCoeff() < 3 * handedOver * part.m_finest;  // turns and lines are not told apart
    return blurred ? std::vector{boxes.all} : boxes.whole;
  }

  double workStep(double speed_m_s) const {
    const PartGrid& grid = m_part.m_grid;
    const double inOne = std::exp2(m_part.m_windows);  // finest steps
    const double perStep = m_part.m_windows > 0 ? grid.cellsPerStep / 2 : grid.cellsPerStep;
    const double longest = std::max(inOne * perStep * m_part.m_pace, m_tour.end_s() / grid.mostSteps);
    const double step = std::min(grid.cellsPerStep * m_blocks.front().cell_m().y() / std::max(std::abs(speed_m_s), 1e-12), longest);
    return std::max(step, std::min(m_tour.end_s() / grid.mostSteps, inOne * m_part.m_pace / 8));
  }

  /// As the hand moved when the heat now handed over was laid; ever longer where nothing comes, up to the next that does.
  double stepFrom(double now_s, double before_s) const {
    const double laid = now_s - m_late;
    auto next = std::ranges::upper_bound(m_tour.strokes, laid + 1e-9, {}, &TourStroke::end_s);
    if (next != m_tour.strokes.end() && next->begin_s <= laid + 1e-9) return workStep(next->speed_m_s);
    const double longest = 0.1 / std::max(m_part.m_near.lossRate_1_s(), 1e-6);
    const double left = next == m_tour.strokes.end() ? m_end - now_s : next->begin_s - laid;
    const double quiet = std::min(std::max(longest, left / 50), std::max(1.25 * before_s, m_part.m_pace / 20));
    return next == m_tour.strokes.end() ? quiet : std::max(1e-9, std::min(quiet, next->begin_s - laid));
  }

  const ChebyshevStages& stagesOf(int count) {
    const auto known = m_stages.find(count);
    return known != m_stages.end() ? known->second : m_stages.emplace(count, chebyshevStages(count)).first->second;
  }

  /// One step of a level, and two half ones of the window within: first the coarse cells as if alone, then the fine ones between what these
  /// were and became, and in the end what the fine ones know better (Berger and Colella 1989, J. Comput. Phys. 82, 64).
  void advance(std::size_t level, double from_s, double to_s, double fromShare, double toShare) {
    const double step = to_s - from_s, middle = from_s + step / 2;
    CellBlock& block = m_blocks[level];
    CellBlock* fine = openWindow(level + 1, from_s, to_s);
    CellRange covered;
    BorderHeat asCoarse;
    if (fine) {
      covered = coarser(fine->range(), 2);
      asCoarse = CellBlock::noHeat(covered, block.part());
      fine->beginAround(block);
    }
    const double kept = std::exp(-m_part.m_near.lossRate_1_s() * m_late);
    const double energy = m_light.lay(from_s, to_s, kept, covered, block);
    m_result.absorbed_J += energy;
    m_result.lost_J += energy * (1 - kept);
    const ChebyshevStages& method = stagesOf(chebyshevCount(step, m_fastest[level]));
    m_result.lost_J += block.step(step, method, fromShare, toShare, covered, asCoarse);
    if (fine) {
      fine->endAround(block);
      advance(level + 1, from_s, middle, 0, 0.5);
      advance(level + 1, middle, to_s, 0.5, 1);
      block.takeFrom(*fine, asCoarse);
    }
    if (level > 0) keepWindow(level, to_s, true);
  }

  /// Puts a level where it is needed; nothing where it is not.
  CellBlock* openWindow(std::size_t level, double from_s, double to_s) {
    if (level >= m_blocks.size()) return nullptr;
    CellBlock &block = m_blocks[level], &coarse = m_blocks[level - 1];
    const CellRange range = finer(m_windows.during(from_s, to_s, coarse), 2);
    if (range.empty()) {
      for (std::size_t i = level; i < m_blocks.size(); ++i) m_blocks[i].moveTo({}, coarse);
      return nullptr;
    }
    const bool opened = block.range().empty();
    block.moveTo(range, coarse);
    if (opened) keepWindow(level, from_s, false);
    return &block;
  }

  /// Keeps the cells as they are, unless the last kept are so near in time that so many would be too many.
  void keepPart(double now_s, bool last = false) {
    constexpr double mostKept = 2500;
    PartField& field = m_result.field;
    const bool first = field.time_s.empty();
    if (!first && !last && now_s - field.time_s.back() < m_end / mostKept) return;
    if (!first && now_s <= field.time_s.back()) return;
    field.time_s.push_back(now_s);
    field.enthalpy_J_m3.emplace_back(m_blocks.front().state().begin(), m_blocks.front().state().end());
  }

  void keepWindow(std::size_t level, double now_s, bool follows) {
    constexpr double mostKept = 1.6e7;  // cells in all
    const CellBlock& block = m_blocks[level];
    PartField::Window& kept = m_result.field.windows[level - 1];
    if (follows && now_s < m_end && now_s - kept.time_s.back() < m_end * static_cast<double>(block.state().size()) / mostKept) return;
    if (!kept.time_s.empty() && now_s <= kept.time_s.back()) return;
    kept.time_s.push_back(now_s);
    kept.moments.push_back({block.range(), follows, {block.state().begin(), block.state().end()}});
  }

  const PartHeat& m_part;
  const HandTour& m_tour;
  double m_late;  // that heat enters the cells
  double m_start;
  double m_end = 0;
  HeatWindows m_windows;
  LaidLight m_light;
  std::vector<CellBlock> m_blocks;  // the part, and windows ever finer
  std::vector<double> m_fastest;
  std::map<int, ChebyshevStages> m_stages;
  PartRun m_result;
};

PartRun PartHeat::run(const HandTour& tour, const FrameBoxes& boxes, double power_W, double cooling_s, const std::stop_token& stop) const {
  return Runner(*this, tour, boxes, power_W).run(tour.end_s() + cooling_s, stop);
}

}  // namespace bw

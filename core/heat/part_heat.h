// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/frame_boxes.h"
#include "core/heat/hand_tour.h"
#include "core/heat/part_field.h"
#include "core/heat/part_sheet.h"

#include <stop_token>

namespace bw {

/// How finely it is followed.
struct PartGrid {
  double cells = 1600;
  double cellsPerStep = 0.6;  // that the hand may move
  double mostSteps = 2000;    // while it works, or as many as an eighth of the handover age asks for

  double finest_m = 0;        // windows round the hand, each of half the cell, until cells are no wider than this; 0: none
  double windowMemory = 2.2;  // coarse cells that heat has spread over when a window leaves it
  double windowPad = 2.7;     // coarse cells that a window reaches beyond the frame
};

struct PartRun {
  PartField field;
  double absorbed_J = 0;  // landed on the part, of all ages
  double stored_J = 0;    // in the cells at the end, over the start
  double lost_J = 0;      // to the air
  double young_J = 0;     // at the end, not yet handed over
};

/// The part on a grid of cells, heat conduction with temperature-dependent properties. Without windows every joule enters its cells when it
/// is `handover_s` old, spread by then over a Gaussian that they resolve; PathHeat knows younger heat. With windows it enters the finest of
/// them at once, frames smeared evenly, and PathHeat has what that smearing leaves out of heat younger than `handover_s`: see WorkHeat.
class PartHeat {
 public:
  /// `near` gives the constant properties that heat spreads and cools with until it is handed over.
  PartHeat(const PartSheet& sheet, const PartGrid& grid, const Plate& near, double spotRadius_m, double framePeriod_s);

  /// Age from which cells alone have the heat: spread evenly through the thickness, over ten frames and, without windows, over two cells.
  double handover_s() const { return m_handover; }

  /// The tour's light, `power_W` while lit, and then `cooling_s` without.
  PartRun run(const HandTour& tour, const FrameBoxes& boxes, double power_W, double cooling_s, const std::stop_token& stop = {}) const;

  const MetalEnthalpy& enthalpy() const { return m_enthalpy; }

 private:
  class Runner;
  PartSheet m_sheet;
  PartGrid m_grid;
  Plate m_near;
  double m_radius;
  MetalEnthalpy m_enthalpy;
  SheetLaw m_law;
  int m_across, m_along;
  int m_windows = 0;
  double m_finest = 0;  // widest of the finest cells
  double m_pace = 0;    // time in which heat spreads over two of these
  double m_handover;
};

}  // namespace bw

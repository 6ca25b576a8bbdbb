// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/cell_block.h"
#include "core/heat/frame_boxes.h"
#include "core/heat/hand_tour.h"

namespace bw {

/// Where a part needs finer cells than it has: where the hand has been so recently that its heat has not yet spread over a few cells.
class HeatWindows {
 public:
  /// `memory` is how far heat spreads, and `pad` how far the window reaches beyond where it was laid, in coarse cells.
  HeatWindows(const HandTour& tour, const LightBox& frame, double diffusivity_m2_s, double memory, double pad);

  /// Cells of a coarse block to be made finer during one of its steps; none where no heat is young enough. Keeps clear of the block's own
  /// border, and is never larger than so many cells: of strokes so far apart that it would be, the newest count.
  CellRange during(double from_s, double to_s, const CellBlock& coarse) const;

 private:
  CellRange within(double from_s, double to_s, const CellBlock& coarse) const;

  const HandTour& m_tour;
  LightBox m_frame;
  double m_diffusivity;
  double m_memory;
  double m_pad;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/cell_block.h"
#include "core/heat/frame_boxes.h"
#include "core/heat/hand_tour.h"

#include <vector>

namespace bw {

/// Adds to cells [first, first + means.size()) of a bar [0, length] the mean over each, per metre, of something laid evenly over
/// [middle - size/2, middle + size/2] and then diffused with that variance between insulated ends; what was laid beyond the ends is lost.
void addCellMeans(double middle, double size, double variance, double length, double cell_m, int first, double weight,
                  std::vector<double>& means);

/// A tour's light as it warms a part's cells: frames smeared over boxes, blurred, so late after it came.
class LaidLight {
 public:
  LaidLight(const HandTour& tour, std::vector<LightBox> boxes, double power_W, double variance_m2, double late_s);

  /// Lays the mean over an interval into a block's source, times `kept`; returns the joules, before that, outside `covered`.
  double lay(double from_s, double to_s, double kept, const CellRange& covered, CellBlock& block);

  /// What comes at a tour's times, joules on the part.
  double landed_J(double from_s, double to_s) const;

 private:
  struct Moment {
    Point middle;
    double energy_J;
  };
  /// Shares of a box's light across, of the swath that it was last laid in.
  struct Across {
    double middle_m = 0;
    int first = 0;
    std::vector<double> shares;  // empty: of none yet
  };
  const std::vector<double>& acrossOf(std::size_t box, const CellBlock& block);

  template <class Visit>
  void eachMoment(const TourStroke& stroke, double from_s, double to_s, Visit visit) const;
  double layBox(std::size_t index, const CellRange& covered, double perSecond, CellBlock& block);

  const HandTour& m_tour;
  std::vector<LightBox> m_boxes;
  double m_power;
  double m_variance;
  double m_late;
  std::vector<Moment> m_moments;
  std::vector<Across> m_acrossOf;  // each box
  std::vector<double> m_along;
};

}  // namespace bw

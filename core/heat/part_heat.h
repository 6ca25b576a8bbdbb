// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/plate.h"

namespace bw {

/// The hand's way over the part: passes of side-by-side swaths, each one stroke long.
struct Tour {
  double travelSpeed_m_s = 0;
  double stepOver_m = 0;
  double strokeLength_m = 0;
  int swaths = 1;
  int passes = 1;
  double pause_s = 0;
  double partAcross_m = 0;  // size of the part across the travel
  double partAlong_m = 0;
  double frameAcross_m = 0;  // extent of lit beam centres
  double frameAlong_m = 0;

  double strokeTime_s() const { return strokeLength_m / travelSpeed_m_s; }
  double passTime_s() const { return swaths * strokeTime_s() + pause_s; }
  double workTime_s() const { return (passes - 1) * passTime_s() + swaths * strokeTime_s(); }

  /// When the frame's middle goes over the middle of the last swath of a pass, counted from 0.
  double crossing_s(int pass) const { return pass * passTime_s() + (swaths - 0.5) * strokeTime_s(); }
};

/// Part heat: rise of the sheet, even through its thickness, in the middle of the last swath of the tour, where the heat of the neighbours
/// and of the part's edge comes together; per absorbed watt of mean power (time-averaged, turns included), from energy older than the
/// plate's mixing age.
///
/// The swath under the beam is a moving rectangle of lit beam centres (the spot's own width is below what diffusion adds); its neighbours
/// and the pass before are strips laid down at once, older passes rectangles of the whole worked area, which lies in the middle of the
/// part. All are mirrored at the part's edges and die away with the plate's loss rate. Closed forms: erf of a strip over a diffusing
/// width (Carslaw and Jaeger 2nd ed. section 2.2). Within 5 % of cosine modes in the tests.
/// Left out: depth profile of parts so thick that a stroke ends before heat has crossed them.
class PartHeat {
 public:
  PartHeat(const Plate& plate, const Tour& tour);

  /// `time_s` from the beginning of the work.
  double rise_K_W(double time_s) const;

  /// Of that, what the swath under the beam alone has raised: the local bump above the surrounding sheet.
  double bump_K_W(double time_s) const;

  /// Full width at half rise of the bump across the travel, at that time after it was laid.
  double bumpWidth_m(double age_s) const;

 private:
  int passAt(double time_s) const;
  double underBeam_K_W(double time_s, int pass) const;
  double acrossShare_1_m(double centre_m, double width_m, double variance_m2) const;
  double alongShare_1_m(double centre_m, double length_m, double variance_m2) const;
  double swaths_K_W(int nearest, int count, double age_s) const;
  double neighbours_K_W(double time_s, int pass) const;
  double older_K_W(double time_s, int before) const;

  Plate m_plate;
  Tour m_tour;
};

}  // namespace bw

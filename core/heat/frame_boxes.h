// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/scan/frame.h"

#include <vector>

namespace bw {

/// Light spread evenly over a box that moves straight for a while; axes (across, along), times within the frame.
struct LightBox {
  double begin_s = 0;
  double duration_s = 0;
  Point middle = Point::Zero();  // at the beginning
  Point velocity = Point::Zero();
  Point size = Point::Zero();
  double interval_s = 0;  // of a row: from one of its stretches to the next
  double share = 0;  // of the time that the beam is lit there: of the power while lit, what the box gets
};

/// What boxes get wrong of the light's shape, relative to a peak blurred to the standard deviation s:
/// skew_m3/s^3 + bulge_m4/s^4 + slant_m2/s^2.
struct Misshape {
  double skew_m3 = 0;
  double bulge_m4 = 0;
  double slant_m2 = 0;

  double at(double variance_m2) const;

  /// Variance from which it is no more than a share of the peak.
  double below_m2(double share) const;
};

/// A scan frame seen from ever further away: heat that has spread no longer tells where in a line, and later where in a frame, it was put.
/// A row of like stretches (the lines of a raster, its turns to the right, those to the left) becomes one stretch that moves slowly along
/// the stack; later the whole row becomes a box that stands. Other patterns are cut into tiles, each a box that stands.
struct FrameBoxes {
  double period_s = 0;
  bool hasRows = false;         // made of lines along or across the travel and their turns
  std::vector<LightBox> rows;   // empty without
  double rowInterval_s = 0;     // from one line to the next of its kind: what a row's smearing forgets
  double rowGap_m = 0;          // between the lines
  bool longRows = false;        // none of less than four
  std::vector<LightBox> whole;  // one box for each row, or one for each tile of the frame with the mean and variances of its light
  LightBox all;                 // one for everything
  Misshape wholeWrong;          // what `whole` gets wrong
  Misshape allWrong;            // and what `all` does
};

/// Whether light that moves from one middle to another along the travel passes an end of a part so long: then only short pieces of the way have
/// one share on the metal.
bool passesEnd(const Point& from, const Point& to, const Point& size, double length_m);

/// `travelAngle_rad` from +x, as in Travel.
FrameBoxes boxesOf(const Frame& frame, double travelAngle_rad);

}  // namespace bw

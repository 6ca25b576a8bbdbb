// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/beam/profile.h"
#include "core/scan/path.h"

#include <vector>

namespace bw {

/// Axis of the part that a dose is looked at along.
enum class Axis { Across = 0, Along = 1 };

/// Evenly spaced places along an axis.
struct Places {
  double low_m = 0;
  double step_m = 0;
  int count = 0;
};

/// The rows' energy seen edge-on, J/m along the axis: all that falls on a place whatever its other coordinate, each dab spread by the
/// spot's own width. Costs the dabs and the places, not their product. Gaussian spots exactly, others by their shape's sum in one
/// direction; placing dabs on nodes half a step apart widens the spot by h^2/6 in variance, 1.3e-3 of its radius for places w/8 apart.
/// Precondition: the places cover every row with three spot radii around it.
std::vector<double> edgeOn(const std::vector<DabRow>& rows, Axis axis, const SpotProfile& profile, double spotRadius_m,
                           const Places& places);

/// Lowest and highest place of the rows' energy along an axis.
struct Extent {
  double low_m = 0;
  double high_m = 0;
};

Extent extentOf(const std::vector<DabRow>& rows, Axis axis);

/// The same energy folded into a period: what stands there when the pattern repeats along the axis. Places no further apart than an eighth
/// of a spot radius, in periods up to 25000 radii. Periods below half a radius are even.
std::vector<double> foldedEdgeOn(const std::vector<DabRow>& rows, Axis axis, const SpotProfile& profile, double spotRadius_m,
                                 double period_m);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <optional>
#include <stop_token>
#include <vector>

namespace bw {

class WorkHeat;
struct HandTour;

/// Temperature over the part, means through the thickness and over a cell, the frame under the beam smeared evenly. Cell (column, row)
/// covers [column, column + 1] x [row, row + 1] cells from the part's corner.
struct PartMap {
  int columns = 0;  // along x
  int rows = 0;     // along y
  double cellX_m = 0;
  double cellY_m = 0;
  std::vector<double> time_s;                                // from the beginning of the work, cooling afterwards included
  std::vector<std::vector<float>> temperature_C;             // [time][row * columns + column]
  std::vector<std::optional<std::array<double, 2>>> hand_m;  // [time] middle of the frame; nothing in pauses and afterwards
  std::vector<float> highest_C;                              // over all of the job, of each cell
  std::vector<float> highestAt_s;                            // and when
};

/// Middle of the frame at a time; nothing in pauses and afterwards.
std::optional<std::array<double, 2>> handAt(const HandTour& tour, double time_s);

/// The map at up to `times` moments, and the highest of every cell: looked for each time the hand has moved by a cell, or, where swaths
/// crowd in a cell, so often that one of them is met over it; of many passes in the first and last three. In the tour's axes:
/// columns across the travel, rows along it. Throws Stopped.
PartMap partMap(const WorkHeat& heat, int times, const std::stop_token& stop = {});

/// The same seen in the part's axes, for a travel at that angle from +x (to the nearest quarter turn).
PartMap inPartAxes(const PartMap& map, double travelAngle_rad);

/// A place of the tour's axes in the part's.
std::array<double, 2> inPartAxes(const std::array<double, 2>& acrossAlong_m, const std::array<double, 2>& partSize_m,
                                 double travelAngle_rad);

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

namespace bw {

/// Accumulated fluence over a rectangle of the part, row by row. Columns run across the travel, rows along it.
/// Cell (column, row) covers [column, column + 1] x [row, row + 1] cells; its value stands at the centre.
struct DoseMap {
  int columns = 0;
  int rows = 0;
  double cellAcross_m = 0;
  double cellAlong_m = 0;
  double originAcross_m = 0;  // where the first column begins
  double originAlong_m = 0;
  std::vector<float> dose_J_m2;

  float at(int column, int row) const {
    return dose_J_m2[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) + static_cast<std::size_t>(column)];
  }
  double across_m() const { return columns * cellAcross_m; }
  double along_m() const { return rows * cellAlong_m; }
};

/// Dose across the travel, averaged along it. Position 0 is the middle of the lit extent of the swath.
struct SwathProfile {
  std::vector<double> position_m;
  std::vector<double> oneSwath_J_m2;
  std::vector<double> summed_J_m2;  // with the neighbours at the step-over
  double litExtent_m = 0;           // of lit beam centres, overshoot included
  double middle_m = 0;              // where position 0 lies on the dose map's axis across the travel
};

/// Which part of the work a dose map shows. Endless: the middle of the area, every swath beside the next, as the numbers mean it.
enum class Scene { Endless, OneSwath, StrokeStart, StrokeEnd, StillHand, Corner };

struct SceneRequest {
  Scene scene = Scene::Endless;
  double still_s = 1;  // how long a still hand stands

  bool operator==(const SceneRequest&) const = default;
};

}  // namespace bw

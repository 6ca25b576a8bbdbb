// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/part_heat.h"
#include "core/heat/path_heat.h"
#include "core/heat/work_heat.h"
#include "tests/core/heat/beams.h"
#include "tests/support/table.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

namespace bw::test {

/// Everything of one heated tour.
struct Heated {
  Frame frame;
  Plate plate;
  PartHeat part;
  PathHeat near;
  PartRun run;
  WorkHeat heat;

  Heated(const PartSheet& sheet, const Frame& lines, HandTour tour, double radius_m, double power_W, double cooling_s, PartGrid grid = {},
         std::optional<Plate> nearPlate = {})
      : frame(lines),
        plate(nearPlate.value_or(plateAt(sheet, 20))),
        part(sheet, grid, plate, radius_m, lines.period_s()),
        near(frame, quarterTurn, {false, 0, 1}, radius_m, plate, std::move(tour), part.handover_s()),
        run(part.run(near.tour(), near.boxes(), power_W, cooling_s)),
        heat(near, part.enthalpy(), run.field, power_W) {}
  Heated(const Heated&) = delete;

  double mean_C(const Point& place, double time_s, double youngest_s = 0) const {
    const Faces faces = heat.at({place, time_s, youngest_s, 0, Smear::Frames});
    return (faces.front_C + 2 * faces.back_C) / 3;  // under a steady flux the faces are q L/3k above and q L/6k below it
  }
};

/// Lines so quick and close that they are an even rectangle.
inline Frame rectangle(double across_m, double along_m) { return raster(across_m, along_m * 69 / 70, 200, along_m / 70); }

/// Windows down to that cell.
inline PartGrid windows(double cells, double finest_m) {
  PartGrid grid{cells};
  grid.finest_m = finest_m;
  return grid;
}

inline const MetalHeat carbonSteel{ThermalCurve::CarbonSteel, ThermalCurve::CarbonSteel, 54 - 0.0333 * 20, 439.8, 7850};

/// The sheets of tests/reference/heat, 1.0 x 0.6 m x 0.8 mm: constant properties, or carbon steel that glows.
inline PartSheet constantSheet() {
  return {{ThermalCurve::Constant, ThermalCurve::Constant, 50, 480, 7850}, 0.8e-3, Point(1.0, 0.6), 12, 0, 20, 20};
}
inline PartSheet steelSheet() { return {carbonSteel, 0.8e-3, Point(1.0, 0.6), 12, 0.7, 20, 20}; }

/// Their hand: two strokes there and back, a rectangle of 30 x 14 mm behind a spot of radius 3 mm.
inline HandTour thereAndBack() {
  HandTour tour;
  tour.part_m = Point(1.0, 0.6);
  tour.strokes = {{0, 60, 0, Point(0.4855, 0), 0.01, 1, 0}, {60, 120, 60, Point(0.5145, 0.6), -0.01, 1, 0}};
  return tour;
}

inline const Point probes[] = {{0.4855, 0.3}, {0.5, 0.3},  {0.5145, 0.3}, {0.4855, 0.05},
                               {0.5, 0.58},   {0.56, 0.3}, {0.3, 0.3},    {0.5145, 0.58}};

/// Largest difference from a table of packaged finite elements, all probes and seconds.
inline double worstOf(const Heated& heated, const std::string& table) {
  double worst = 0;
  for (const std::vector<double>& row : readTable("reference/heat/" + table)) {
    for (std::size_t i = 0; i < std::size(probes); ++i)
      worst = std::max(worst, std::abs(heated.mean_C(probes[i], std::max(row[0], 1e-9)) - row[i + 1]));
  }
  return worst;
}

}  // namespace bw::test

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/metal_enthalpy.h"
#include "core/heat/plate.h"
#include "core/scan/frame.h"

#include <vector>

namespace bw {

/// A part as its heat sees it: a sheet that is even through its thickness, faces and edges losing heat by convection to the air and by
/// radiation to surroundings as warm as the air.
struct PartSheet {
  MetalHeat metal;
  double thickness_m = 0;
  Point size_m = Point::Zero();  // (across, along)
  double filmCoefficient_W_m2K = 0;
  double emissivity = 0;
  double ambient_C = 20;
  double start_C = 20;

  bool operator==(const PartSheet&) const = default;
};

/// The sheet's properties at one temperature, radiation as a film coefficient.
Plate plateAt(const PartSheet& sheet, double temperature_C);

/// What a sheet's metal does at an enthalpy: conducts by its potential, and loses heat at both faces.
class SheetLaw {
 public:
  SheetLaw(const PartSheet& sheet, const MetalEnthalpy& metal);

  /// Potential (W/m) and loss (W/m3) as straight lines of the enthalpy, right near one.
  struct Line {
    double potential = 0, perPotential = 0;
    double loss = 0, perLoss = 0;
  };
  const Line& lineAt(double enthalpy_J_m3) const { return m_lines[m_metal.placeOf(enthalpy_J_m3).entry]; }
  double potential_W_m(double enthalpy_J_m3) const {
    const Line& line = lineAt(enthalpy_J_m3);
    return line.potential + line.perPotential * enthalpy_J_m3;
  }

  double thickness_m() const { return m_thickness; }

  /// The fastest that anything decays in cells of that size, what their edges lose included, 1/s.
  double fastest_1_s(const Point& cell_m) const;

 private:
  const MetalEnthalpy& m_metal;
  double m_thickness;
  double m_film_1_s;          // no film takes heat from the metal faster
  std::vector<Line> m_lines;  // beside the enthalpy's table
};

}  // namespace bw

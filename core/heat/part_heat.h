// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/frame_boxes.h"
#include "core/heat/hand_tour.h"
#include "core/heat/metal_enthalpy.h"
#include "core/heat/part_field.h"
#include "core/heat/plate.h"

#include <stop_token>

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
};

/// How finely it is followed.
struct PartGrid {
  double cells = 1600;
  double cellsPerStep = 0.6;  // that the hand may move
  double mostSteps = 2000;    // while it works, or as many as an eighth of the handover age asks for
};

struct PartRun {
  PartField field;
  double absorbed_J = 0;  // landed on the part, of all ages
  double stored_J = 0;    // in the cells at the end, over the start
  double lost_J = 0;      // to the air
  double young_J = 0;     // landed and not yet handed over at the end
};

/// The sheet with constant properties that near heat takes, at a temperature: film and radiation as one coefficient there.
Plate plateAt(const PartSheet& sheet, double temperature_C);

/// Part heat: everything that is older than the handover age, on a grid.
///
/// Each joule enters the grid when it is `handover_s` old, as what diffusion with the near plate's constant properties has made of it by
/// then: the boxes of its frame blurred with variance w^2/4 + 2 alpha age per axis, mirrored at the edges, less what the air took. With the
/// handover of handoverAge_s() the blur is two cells wide or more, which a grid of second order carries. From there on
///   dh/dt = laplace(potential(h)) - loss(T(h))/L + sources/L
/// in enthalpy h with Kirchhoff's potential, so k(T) and c(T) take nothing from the energy's balance; central differences, and in time the
/// Runge-Kutta-Chebyshev method of second order (B. P. Sommeijer, L. F. Shampine, J. G. Verwer, J. Comput. Appl. Math. 88 (1998) 315),
/// whose stages grow with the root of the step where an explicit method would have to halve it. Throws Stopped.
class PartHeat {
 public:
  PartHeat(const PartSheet& sheet, const PartGrid& grid, const Plate& near, double spotRadius_m, double framePeriod_s);

  /// Age at which near heat hands over: spread over two cells, evenly through the thickness to 0.2 %, and ten frames old.
  double handover_s() const { return m_handover; }

  /// The tour's light, `power_W` while lit, and then `cooling_s` without.
  PartRun run(const HandTour& tour, const FrameBoxes& boxes, double power_W, double cooling_s, const std::stop_token& stop = {}) const;

  const MetalEnthalpy& enthalpy() const { return m_enthalpy; }

 private:
  class Runner;
  struct Drain {
    double potential_W_m = 0;
    double loss_W_m3 = 0;  // both faces'
  };
  PartSheet m_sheet;
  PartGrid m_grid;
  Plate m_near;
  double m_radius;
  MetalEnthalpy m_enthalpy;
  std::vector<Drain> m_drains;  // beside the enthalpy's table
  int m_across, m_along;
  double m_handover;
};

}  // namespace bw

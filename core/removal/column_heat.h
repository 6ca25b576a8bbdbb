// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/removal/column_cells.h"

#include <algorithm>

namespace bw {

/// Air and surroundings before a column's face. The back of the part is insulated.
struct ColumnAir {
  double filmCoefficient_W_m2K = 0;
  double emissivity = 0;
  double air_C = 20;
};

/// Heat in a column of cells, per area:
///   d held_i / dt = source_i + g_(i-1) (T_(i-1) - T_i) - g_i (T_i - T_(i+1)),  less convection and radiation at the face,
/// T a function of what is held (flat on a coat's plateau, until it holds what it leaves at, and while metal melts), g the two half cells
/// in series.
///
/// Steps by ROS2, a linearly implicit method of second order that stays so whatever the Jacobian and damps stiff parts fully
/// (gamma = 1 - 1/sqrt 2): J. G. Verwer, E. J. Spee, J. G. Blom, W. Hundsdorfer, SIAM J. Sci. Comput. 20 (1999) 1456,
/// from memory. Both stages are
/// differences of flows between cells, so energy is kept to rounding. The difference from its first stage, of first order, bounds the
/// error of a step.
class ColumnHeat {
 public:
  ColumnHeat(const std::vector<ColumnCell>& cells, std::size_t coatCells, const ColumnMetal& metal, const ColumnAir& air);

  double held_J_m2(std::size_t cell) const { return m_held[cell]; }
  void put(std::size_t cell, double held_J_m2) { m_held[cell] = held_J_m2; }
  double rise_K(std::size_t cell) const;

  /// A step of the cells from `first` on, which take up `shares` of the irradiance. Nothing changes before it is accepted. Returns the
  /// error as the greatest difference from the first-order result, in kelvins of a cold cell.
  double tryStep(std::size_t first, const std::vector<double>& shares, double irradiance_W_m2, double dt_s);
  void accept(std::size_t first);
  double lost_J_m2() const { return m_lost; }  // to the air, since the start

 private:
  using Values = std::vector<double>;

  /// Of what a cell of the coat holds, the part that warms it.
  double warming_J_m2(std::size_t cell, double held_J_m2) const {
    return std::min(held_J_m2, m_plateau[cell]) + std::max(0.0, held_J_m2 - m_leaves[cell]);
  }
  void temperatures(const Values& held, std::size_t first);
  void rates(std::size_t first, const Values& shares, double irradiance_W_m2, Values& out) const;
  double loss_W_m2(double rise_K) const;
  double lossSlope_W_m2K(double rise_K) const;
  void factor(std::size_t first, double implicit_s);
  void solve(std::size_t first, Values& right) const;

  ColumnMetal m_metal;
  ColumnAir m_air;
  std::size_t m_coatCells;
  Values m_size, m_perJoule, m_plateau, m_leaves, m_held;
  // Room for a step, kept between steps: temperatures and their slopes, links to the cell below, the factors, the two stages.
  Values m_rise, m_slope, m_link, m_lower, m_upper, m_pivot, m_first, m_second, m_next;
  double m_lost = 0, m_losing = 0;
};

}  // namespace bw

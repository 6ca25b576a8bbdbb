// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/removal/column.h"

#include <memory>

namespace bw::test {

/// A coat of two layers on carbon steel with its curves, and pulses that warm it but remove nothing.
struct HeatedCells {
  HeatedCells();
  std::vector<LightPiece> pulses(int count, double period_s, double share) const;  // of what brings the cold top to its removal temperature

  std::vector<CoatLayer> layers;
  Metal metal;
  double start_C = 20;
  double thickness_m = 1e-3;
};

/// The heat equation on a column's cells as a system of ordinary differential equations for their temperatures, left to the stiff
/// integrator msbdf of the GNU Scientific Library. Light by exp(-z/d), which matched absorptances give.
class CellsAsOde {
 public:
  CellsAsOde(const HeatedCells& heated, const std::vector<ColumnCell>& cells, const char* method = "msbdf");

  /// Constant light; error of a step relative to the temperatures, and as many hundred kelvins.
  void advance(double irradiance_W_m2, double duration_s, double error);
  double rise_K(std::size_t cell) const { return m_rise[cell]; }

 private:
  struct System;
  std::shared_ptr<System> m_system;
  std::vector<double> m_rise;
};

}  // namespace bw::test

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/removal/ledger.h"

#include <span>
#include <stop_token>
#include <vector>

namespace bw {

/// Removal at one still point under a continuous beam: a coarse one-dimensional column of cells through the coat and the metal.
///
/// Enthalpy form, implicit in temperature. Light enters by the top layer's absorptance and is taken up from the present surface down, each
/// layer over its own optical depth; what is left heats the metal's face. A cell's temperature stops at the removal temperature while it
/// takes up the rest of its removal enthalpy; then it leaves, and what it held beyond that goes to the next. The last film counts as gone
/// when it is thinner than its limit, or when the metal's face under it has reached the removal temperature.
///
/// Cells of a sixth of the optical depth, at least 30 in the coat and at most 60 a layer. Left out: heat that spreads sideways (fair while
/// the spot is wider than heat travels between lines), ejection time, scattering, residue, scorching. Temperatures are rises.
class Column {
 public:
  /// `metal` as in the ledger; `thickness_m` of the part.
  /// Shining and resting throw Stopped when told to stop.
  Column(std::span<const CoatLayer> coat, const BareMetal& metal, double thickness_m, std::stop_token stop = {});

  void beginPass() {}  // nothing yet that a pass leaves
  void rest(double gap_s) { advance(0, gap_s); }
  void shine(double fluence_J_m2, double duration_s);

  bool isBare() const { return m_top == m_coatCells; }
  double depth_m() const;
  double progress_m() const { return depth_m(); }
  double left_m(std::size_t layer) const;
  double etch_m() const { return 0; }  // a continuous beam that boils metal is outside this model
  double stored_J_m2() const;          // in the coat
  const EnergyAccount& energy() const { return m_energy; }

 private:
  struct Cell {
    std::size_t layer = 0;
    double size_m = 0;
    double capacity_J_m2K = 0;
    double conductivity_W_mK = 0;
    double plateau_J_m2 = 0;  // held when the temperature stops rising; infinite in the metal
    double leaves_J_m2 = 0;   // held when it goes
    double opticalDepth_m = 0;
    double held_J_m2 = 0;

    bool onPlateau() const { return held_J_m2 >= plateau_J_m2; }
    double rise_K() const { return (onPlateau() ? plateau_J_m2 : held_J_m2) / capacity_J_m2K; }
  };

  void addCoat(std::span<const CoatLayer> coat);
  void addMetal(const BareMetal& metal, double thickness_m);
  void advance(double irradiance_W_m2, double duration_s);
  double longestStep_s() const;
  void step(double irradiance_W_m2, double dt_s);
  void absorb(double energy_J_m2);
  void conduct(double dt_s);
  void shed();
  void drop(std::size_t until);
  double metalHeld_J_m2() const;

  std::vector<CoatLayer> m_layers;
  double m_metalAbsorptance;
  std::vector<Cell> m_cells;  // coat from the top, then metal
  std::size_t m_coatCells = 0;
  std::size_t m_top = 0;
  std::stop_token m_stop;
  EnergyAccount m_energy;
  // Room for the tridiagonal solve, kept between steps.
  std::vector<double> m_source, m_conductance, m_diagonal, m_rise;
};

}  // namespace bw

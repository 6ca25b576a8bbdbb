// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/removal/coat_foot.h"
#include "core/removal/column_heat.h"
#include "core/removal/irradiance.h"
#include "core/removal/ledger.h"

#include <array>
#include <span>
#include <stop_token>
#include <vector>

namespace bw {

/// How closely a column looks.
struct ColumnSettings {
  ColumnGrain grain;
  double error_K = 20;        // of one step, by its first-order part
  bool resolved = false;      // keeps what is ripe until it has been ejected, and goes on heating the metal once it is bare
  ColumnAir air;

  /// For many places at once under a continuous beam.
  static ColumnSettings coarse() { return {}; }

  /// The judge of the others: cells of a twentieth of the optical depth, of 0.1 um at the metal's face.
  static ColumnSettings fine() { return {{20, 60, 1000, 1e-7, 1.2}, 2, true, {}}; }
};

/// Removal at one still point: a column of cells through the coat and the part, heated by any history of irradiance.
///
/// Heat as in ColumnHeat, light as in CoatLight, divided among the cells from the present surface down. A coat's temperature follows what
/// it holds up to the removal temperature and stays there: what lies above conducts nothing more. A cell that holds what its layer leaves
/// at is ripe. Resolved, it goes on taking up light for the layer's ejection time; then all that is ripe at the top leaves with what it
/// holds, as it does when the light goes out. Coarse, it leaves at once, and what it held too much stays with the next cell; of another
/// layer that takes up as much of the light as that layer does. What is ripe and buried warms up again.
///
/// What is left of a layer below its film limit counts as gone. The last layer's film then really goes, that of another one as a remnant.
/// All that is on the metal goes once the coat's foot lets go; its heat stays with the metal. Residue, spalling, scorching and flakes are
/// as in the ledger; a chance of flakes is drawn at the end of each spell of light in which a face beneath was too hot.
///
/// Steps grow and shrink so that the difference between second and first order stays below `error_K`; on the plateau they last 3 dz^2/alpha
/// at most, and under light they meet the moments when matter ripens and leaves. In the fine column that makes temperatures good to 1e-3 of
/// the rise against a stiff integrator on the same cells, and depths to 2 % against a column of other make; half as many cells, or twice,
/// change a depth by 2 % too. The coarse one's depths are good to 12 %. Energy is kept to rounding.
///
/// Valid from nanoseconds to minutes, pulses or a continuous beam; temperatures are rises above the start. Left out: heat that spreads
/// sideways, so that long histories make the part too warm (fair while the spot is wider than heat travels); boiling and flow of metal;
/// the plume's shadow; gas in the coat. The rules of leaving are assumptions of the model, without a source.
class Column {
 public:
  /// `thickness_m` of the part. Shining and resting throw Stopped when told to stop.
  Column(std::span<const CoatLayer> coat, const ColumnMetal& metal, double thickness_m, std::stop_token stop = {},
         const ColumnSettings& settings = ColumnSettings::coarse());

  /// What softening layers hold now bounds what they leave behind.
  void beginPass();

  /// All heat goes to the part, and the part is as cold as at the start: what a column cannot tell, heat that has spread sideways.
  void coolDown();

  void rest(double gap_s);
  void shine(double fluence_J_m2, double duration_s);

  /// The pieces in their order, then rest until `until_s`; both from the same zero as now, which is 0.
  void follow(std::span<const LightPiece> light, double until_s);

  bool isBare() const { return m_top == m_coatCells; }
  double depth_m() const;
  double progress_m() const;                                            // coat gone, and as much of the top as is likely to flake off soon
  double left_m(std::size_t layer) const;                               // 0 once the layer counts as gone
  double etch_m() const { return 0; }                                   // a beam that boils metal is outside this model
  double stored_J_m2() const { return held_J_m2(m_top, m_coatCells); }  // in the coat
  double lost_J_m2() const { return m_heat.lost_J_m2(); }               // to the air
  const EnergyAccount& energy() const { return m_energy; }
  std::size_t steps() const { return m_steps; }

  const std::vector<ColumnCell>& cells() const { return m_cells; }
  std::size_t top() const { return m_top; }  // first cell that is still there
  double rise_K(std::size_t cell) const { return m_heat.rise_K(cell); }

 private:
  void advance(double irradiance_W_m2, double duration_s);
  double step(double irradiance_W_m2, double atMost_s);
  double outflow_W_m2(std::size_t i) const;
  double longestStep_s(double irradiance_W_m2) const;
  void account(double irradiance_W_m2, double dt_s);
  void illuminate();
  void relight(std::size_t layer, bool scorched);
  void change(double dt_s);
  bool isRipe() const;
  bool residueStays() const;
  void eject();
  void uncoverLayer(double surplus_J_m2);
  void thinOut();
  void drop();
  void uncover(std::size_t top);
  void noteHotLayers();
  bool isFaceHot(std::size_t layer) const;
  double broughtTo(std::size_t layer);
  void liftFlakes();
  double remains_m(std::size_t layer) const;
  double held_J_m2(std::size_t from, std::size_t until) const;

  std::vector<CoatLayer> m_layers;
  ColumnSettings m_settings;
  double m_metalAbsorptance;
  std::vector<ColumnCell> m_cells;       // coat from the top, then metal
  std::vector<std::size_t> m_firstCell;  // of every layer, and of the metal
  std::size_t m_coatCells;
  ColumnHeat m_heat;
  std::size_t m_top = 0;
  std::stop_token m_stop;
  EnergyAccount m_energy;

  std::vector<double> m_beneath;  // share that all beneath a layer sends back
  std::vector<double> m_residue;  // least that this pass leaves of each layer
  std::vector<double> m_shares;   // of the light that falls on the top, what each cell takes up
  double m_absorbs = 0;           // their sum
  bool m_dim = true;              // the shares are to be found anew
  bool m_scorched = false;        // the top layer
  bool m_blowsOff = false;        // the light at hand leaves no residue

  CoatFoot m_foot;
  double m_ripe_s = 0;          // since the top cell has held what it leaves at
  std::size_t m_hottest = 0;    // deepest face below the top that has been too hot in this spell of light: a layer's, or the metal's
  double m_holding = 1;         // chance that the top layer has not yet come off as flakes
  bool m_lit = false;           // in a spell of light
  double m_spell_J_m2 = 0;      // what this spell has brought, and how long
  double m_spell_s = 0;
  double m_step_s[2] = {0, 0};  // next, without and with light
  double m_firstDark_s = 0;     // first step of the last gap
  std::size_t m_steps = 0;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/cell_range.h"
#include "core/heat/chebyshev_step.h"
#include "core/heat/part_sheet.h"

#include <array>
#include <vector>

namespace bw {

/// Heat that went through the borders of a range, J/m2 towards greater indices; an entry for each coarse cell along a side, none where the
/// side is an edge of the part.
struct BorderHeat {
  std::vector<double> left, right, low, high;
};

/// A rectangle of equal cells on a sheet: conduction between them to fourth order, insulated edges of the part (what they lose to the air
/// counts as loss), cells of half the fineness around. Enthalpies are means over cells.
class CellBlock {
 public:
  /// A part of that many cells; the block holds none yet.
  CellBlock(const SheetLaw& law, const Point& part_m, int across, int along);

  const CellRange& range() const { return m_range; }
  const CellRange& part() const { return m_part; }
  const Point& cell_m() const { return m_cell; }
  double cellVolume_m3() const { return m_cell.prod() * m_law.thickness_m(); }
  const std::vector<double>& state() const { return m_state; }
  std::vector<double>& source_W_m3() { return m_source; }  // for the next step

  /// Fills the whole part.
  void fill(double enthalpy_J_m3);

  /// Covers another range: what was covered stays, the rest is read off the block of twice the cell size.
  void moveTo(const CellRange& range, const CellBlock& coarse);

  /// Cells around as the coarse block has them, at the beginning and at the end of its step.
  void beginAround(const CellBlock& coarse);
  void endAround(const CellBlock& coarse);

  /// One step, the cells around going evenly between two shares of the coarse block's step. Returns what the air took, joules, from the
  /// cells outside `covered`; the heat through the border of that is added to `through`.
  double step(double step_s, const ChebyshevStages& method, double fromShare, double toShare, const CellRange& covered,
              BorderHeat& through);

  /// Through this block's own border since beginAround.
  const BorderHeat& border() const { return m_border; }

  /// The fine block's heat becomes that of the cells it covers, and what went through its border that of the cells around.
  void takeFrom(const CellBlock& fine, const BorderHeat& asCoarse);

  static BorderHeat noHeat(const CellRange& coarseRange, const CellRange& coarsePart);

 private:
  std::array<double, 4> quarters(int across, int along) const { return quartersOf(m_state.data(), m_range, m_part, across, along); }
  template <class Visit>
  void eachAround(Visit visit) const;
  void around(const CellBlock& coarse, std::vector<double>& potential) const;
  void openAt(const CellRange& range);
  void drawLines();
  void mirrorEdges();
  void loseAtEdges();
  double lossOutside(const CellRange& covered) const;
  void lookAt(const std::vector<double>& state, double share);
  void addThrough(const CellRange& range, int merged, double weight, BorderHeat& sum) const;
  double* row(int along) { return m_potential.data() + (along + 2) * m_stride + 2; }
  const double* row(int along) const { return m_potential.data() + (along + 2) * m_stride + 2; }

  const SheetLaw& m_law;
  CellRange m_part, m_range;
  Point m_cell;
  std::ptrdiff_t m_stride = 0;  // of the potential, which has two cells around
  std::vector<double> m_state, m_source, m_potential, m_loss, m_first, m_before, m_now;
  std::vector<double> m_potentialAt0, m_perPotential, m_lossAt0, m_perLoss;  // straight lines of each cell's enthalpy, for one step
  std::vector<double> m_aroundBegin, m_aroundEnd;                            // potentials
  BorderHeat m_border;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/cell_block.h"

#include "core/heat/cell_rows.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace bw {

namespace {

double sumOf(const double* values, int count) {
  double a = 0, b = 0, c = 0, d = 0;
  int i = 0;
  for (; i + 3 < count; i += 4) {
    a += values[i];
    b += values[i + 1];
    c += values[i + 2];
    d += values[i + 3];
  }
  for (; i < count; ++i) a += values[i];
  return a + b + c + d;
}

std::size_t index(int i) { return static_cast<std::size_t>(i); }

/// Heat flow down to the lesser index between the second and third of four cell means, times the cell size: of fourth order.
double flow(double a, double b, double c, double d) { return (15 * (c - b) - (d - a)) / 12; }

}  // namespace

CellBlock::CellBlock(const SheetLaw& law, const Point& part_m, int across, int along)
    : m_law(law), m_part{0, 0, across, along}, m_cell(part_m.x() / across, part_m.y() / along) {}

void CellBlock::openAt(const CellRange& range) {
  m_range = range;
  m_stride = range.across + 4;
  m_potential.resize(index(range.across + 4) * index(range.along + 4));
  for (auto* field : {&m_source, &m_loss, &m_first, &m_before, &m_now, &m_potentialAt0, &m_perPotential, &m_lossAt0, &m_perLoss})
    field->resize(range.cells());
}

void CellBlock::fill(double enthalpy_J_m3) {
  openAt(m_part);
  m_state.assign(m_range.cells(), enthalpy_J_m3);
}

void CellBlock::moveTo(const CellRange& range, const CellBlock& coarse) {
  if (range == m_range) return;
  const std::vector<double> old = std::move(m_state);
  const CellRange was = m_range;
  openAt(range);
  m_state.assign(range.cells(), 0);
  const int low = std::max(range.firstAlong, was.firstAlong), high = std::min(range.endAlong(), was.endAlong());
  const int left = std::max(range.firstAcross, was.firstAcross), right = std::min(range.endAcross(), was.endAcross());
  const auto at = [&](int i, int j) { return index(j - range.firstAlong) * index(range.across) + index(i - range.firstAcross); };
  for (int j = range.firstAlong; j < range.endAlong(); j += 2) {
    for (int i = range.firstAcross; i < range.endAcross(); i += 2) {
      if (i == left && right > left && j >= low && j < high) i = right;  // kept
      if (i >= range.endAcross()) break;
      const auto quarters = coarse.quarters(i / 2, j / 2);
      for (int q = 0; q < 4; ++q) m_state[at(i + q % 2, j + q / 2)] = quarters[index(q)];
    }
  }
  for (int j = low; j < high && right > left; ++j)
    std::copy_n(old.data() + index(j - was.firstAlong) * index(was.across) + index(left - was.firstAcross), right - left,
                &m_state[at(left, j)]);
}

/// Coarse cells beyond each side that is not the part's edge: in fine ones, from the block's own first, two both ways.
template <class Visit>
void CellBlock::eachAround(Visit visit) const {
  const auto side = [&](bool open, int i0, int i1, int j0, int j1) {
    if (!open) return;
    for (int j = j0; j < j1; j += 2)
      for (int i = i0; i < i1; i += 2) visit(i, j);
  };
  const CellRange& r = m_range;
  side(r.firstAcross > 0, -2, 0, 0, r.along);
  side(r.endAcross() < m_part.across, r.across, r.across + 2, 0, r.along);
  side(r.firstAlong > 0, 0, r.across, -2, 0);
  side(r.endAlong() < m_part.along, 0, r.across, r.along, r.along + 2);
}

void CellBlock::around(const CellBlock& coarse, std::vector<double>& potential) const {
  potential.clear();
  eachAround([&](int i, int j) {
    for (const double h : coarse.quarters((m_range.firstAcross + i) / 2, (m_range.firstAlong + j) / 2))
      potential.push_back(m_law.potential_W_m(h));
  });
}

void CellBlock::beginAround(const CellBlock& coarse) {
  around(coarse, m_aroundBegin);
  m_border = noHeat(coarser(m_range, 2), coarse.part());
}

void CellBlock::endAround(const CellBlock& coarse) { around(coarse, m_aroundEnd); }

void CellBlock::mirrorEdges() {
  const CellRange& r = m_range;
  for (int j = 0; j < r.along; ++j) {
    double* line = row(j);
    if (r.firstAcross == 0) {
      line[-1] = line[0];
      line[-2] = line[std::min(1, r.across - 1)];
    }
    if (r.endAcross() == m_part.across) {
      line[r.across] = line[r.across - 1];
      line[r.across + 1] = line[std::max(0, r.across - 2)];
    }
  }
  if (r.firstAlong == 0) {
    std::copy_n(row(0), r.across, row(-1));
    std::copy_n(row(std::min(1, r.along - 1)), r.across, row(-2));
  }
  if (r.endAlong() == m_part.along) {
    std::copy_n(row(r.along - 1), r.across, row(r.along));
    std::copy_n(row(std::max(0, r.along - 2)), r.across, row(r.along + 1));
  }
}

/// Edges of the part lose heat as its faces do.
void CellBlock::loseAtEdges() {
  const CellRange& r = m_range;
  const double ends = m_law.thickness_m() / (2 * m_cell.x()), sides = m_law.thickness_m() / (2 * m_cell.y());
  const bool low = r.firstAlong == 0, high = r.endAlong() == m_part.along;
  const bool left = r.firstAcross == 0, right = r.endAcross() == m_part.across;
  for (int j = 0; j < r.along; ++j) {
    double* line = m_loss.data() + index(j) * index(r.across);
    const double along = ((low && j == 0 ? 1 : 0) + (high && j + 1 == r.along ? 1 : 0)) * sides;
    const double first = left ? line[0] * ends : 0, last = right ? line[r.across - 1] * ends : 0;
    if (along > 0)
      for (int i = 0; i < r.across; ++i) line[i] *= 1 + along;
    line[0] += first;
    line[r.across - 1] += last;
  }
}

double CellBlock::lossOutside(const CellRange& covered) const {
  double sum = 0;
  for (int j = 0; j < m_range.along; ++j) {
    const double* line = m_loss.data() + index(j) * index(m_range.across);
    const int along = m_range.firstAlong + j, from = covered.firstAcross - m_range.firstAcross,
              to = covered.endAcross() - m_range.firstAcross;
    if (covered.empty() || along < covered.firstAlong || along >= covered.endAlong())
      sum += sumOf(line, m_range.across);
    else
      sum += sumOf(line, from) + sumOf(line + to, m_range.across - to);
  }
  return sum * cellVolume_m3();
}

/// Potential and loss are taken along a straight line from where a step begins: an error of third order in the step.
void CellBlock::drawLines() {
  for (std::size_t k = 0; k < m_state.size(); ++k) {
    const SheetLaw::Line& line = m_law.lineAt(m_state[k]);
    m_potentialAt0[k] = line.potential;
    m_perPotential[k] = line.perPotential;
    m_lossAt0[k] = line.loss;
    m_perLoss[k] = line.perLoss;
  }
}

/// Losses and potentials, the cells around as they are at that share of the coarse block's step.
void CellBlock::lookAt(const std::vector<double>& state, double share) {
  for (int j = 0; j < m_range.along; ++j) {
    const std::size_t k = index(j) * index(m_range.across);
    cell_rows::follow(&state[k], &m_potentialAt0[k], &m_perPotential[k], &m_lossAt0[k], &m_perLoss[k], m_range.across, row(j), &m_loss[k]);
  }
  loseAtEdges();
  mirrorEdges();
  if (m_aroundEnd.empty()) return;
  const double *begin = m_aroundBegin.data(), *end = m_aroundEnd.data();
  eachAround([&](int i, int j) {
    for (int q = 0; q < 4; ++q) row(j + q / 2)[i + q % 2] = begin[q] + share * (end[q] - begin[q]);
    begin += 4;
    end += 4;
  });
}

BorderHeat CellBlock::noHeat(const CellRange& range, const CellRange& part) {
  BorderHeat none;
  if (range.firstAcross > 0) none.left.assign(index(range.along), 0);
  if (range.endAcross() < part.across) none.right.assign(index(range.along), 0);
  if (range.firstAlong > 0) none.low.assign(index(range.across), 0);
  if (range.endAlong() < part.along) none.high.assign(index(range.across), 0);
  return none;
}

/// Heat through the borders of a range, so many cells along it to an entry.
void CellBlock::addThrough(const CellRange& range, int merged, double weight, BorderHeat& sum) const {
  const int i0 = range.firstAcross - m_range.firstAcross, j0 = range.firstAlong - m_range.firstAlong;
  const auto sides = [&](std::vector<double>& side, int i) {
    for (std::size_t k = 0; k < side.size() * index(merged); ++k) {
      const double* at = row(j0 + static_cast<int>(k)) + i;
      side[k / index(merged)] += weight / merged * flow(at[-2], at[-1], at[0], at[1]) / m_cell.x();
    }
  };
  const auto ends = [&](std::vector<double>& end, int j) {
    const double *a = row(j - 2) + i0, *b = row(j - 1) + i0, *c = row(j) + i0, *d = row(j + 1) + i0;
    for (std::size_t k = 0; k < end.size() * index(merged); ++k)
      end[k / index(merged)] += weight / merged * flow(a[k], b[k], c[k], d[k]) / m_cell.y();
  };
  sides(sum.left, i0);
  sides(sum.right, i0 + range.across);
  ends(sum.low, j0);
  ends(sum.high, j0 + range.along);
}

double CellBlock::step(double step_s, const ChebyshevStages& method, double fromShare, double toShare, const CellRange& covered,
                       BorderHeat& through) {
  const double ax = 1 / (12 * m_cell.x() * m_cell.x()), ay = 1 / (12 * m_cell.y() * m_cell.y());
  double lost = 0;
  const auto look = [&](const std::vector<double>& state, std::size_t stage) {
    const double weight = step_s * method.weights[stage];
    lookAt(state, std::lerp(fromShare, toShare, method.times[stage]));
    lost += weight * lossOutside(covered);
    if (!covered.empty()) addThrough(covered, 1, weight, through);
    if (!m_aroundEnd.empty()) addThrough(m_range, 2, weight, m_border);
  };
  drawLines();
  look(m_state, 0);
  for (int j = 0; j < m_range.along; ++j) {
    const std::size_t k = index(j) * index(m_range.across);
    cell_rows::rate({row(j), m_stride, ax, ay}, &m_source[k], &m_loss[k], m_range.across, &m_first[k]);
  }
  m_before = m_state;
  for (std::size_t k = 0; k < m_state.size(); ++k) m_now[k] = m_state[k] + method.firstMu * step_s * m_first[k];
  for (std::size_t n = 0; n < method.stages.size(); ++n) {
    const ChebyshevStages::Stage& stage = method.stages[n];
    const cell_rows::Mix m{1 - stage.mu - stage.nu, stage.mu, stage.nu, stage.muTilde * step_s, stage.gammaTilde * step_s};
    look(m_now, n + 1);
    for (int j = 0; j < m_range.along; ++j) {
      const std::size_t k = index(j) * index(m_range.across);
      cell_rows::mix(m, {row(j), m_stride, ax, ay}, &m_source[k], &m_loss[k], &m_state[k], &m_first[k], &m_now[k], m_range.across,
                     &m_before[k]);
    }
    std::swap(m_before, m_now);
  }
  std::swap(m_state, m_now);
  return lost;
}

void CellBlock::takeFrom(const CellBlock& fine, const BorderHeat& asCoarse) {
  const CellRange range = coarser(fine.range(), 2);
  const int i0 = range.firstAcross - m_range.firstAcross, j0 = range.firstAlong - m_range.firstAlong;
  const auto cell = [&](int i, int j) -> double& { return m_state[index(j) * index(m_range.across) + index(i)]; };
  for (int j = 0; j < range.along; ++j) {
    const double* a = fine.m_state.data() + index(2 * j) * index(fine.m_range.across);
    const double* b = a + fine.m_range.across;
    for (int i = 0; i < range.across; ++i) cell(i0 + i, j0 + j) = 0.25 * (a[2 * i] + a[2 * i + 1] + b[2 * i] + b[2 * i + 1]);
  }
  const BorderHeat& exact = fine.m_border;
  for (int j = 0; j < static_cast<int>(exact.left.size()); ++j)
    cell(i0 - 1, j0 + j) += (exact.left[index(j)] - asCoarse.left[index(j)]) / m_cell.x();
  for (int j = 0; j < static_cast<int>(exact.right.size()); ++j)
    cell(i0 + range.across, j0 + j) -= (exact.right[index(j)] - asCoarse.right[index(j)]) / m_cell.x();
  for (int i = 0; i < static_cast<int>(exact.low.size()); ++i)
    cell(i0 + i, j0 - 1) += (exact.low[index(i)] - asCoarse.low[index(i)]) / m_cell.y();
  for (int i = 0; i < static_cast<int>(exact.high.size()); ++i)
    cell(i0 + i, j0 + range.along) -= (exact.high[index(i)] - asCoarse.high[index(i)]) / m_cell.y();
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/heat_windows.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr std::size_t mostCells = 6000;  // of the coarse block
constexpr int margin = 3;                // coarse cells that the cells around the window are read off

/// Cells [first, end) of one axis.
struct Reach {
  int first, end;
};

Reach reachOf(double low_m, double high_m, double cell_m, int first, int end, int part) {
  const int from = first > 0 ? first + margin : 0, to = end < part ? end - margin : part;
  return {std::max(from, static_cast<int>(std::floor(low_m / cell_m))), std::min(to, static_cast<int>(std::ceil(high_m / cell_m)))};
}

}  // namespace

HeatWindows::HeatWindows(const HandTour& tour, const LightBox& frame, double diffusivity_m2_s, double memory, double pad)
    : m_tour(tour), m_frame(frame), m_diffusivity(diffusivity_m2_s), m_memory(memory), m_pad(pad) {}

/// Around the frames of an interval.
CellRange HeatWindows::within(double from_s, double to_s, const CellBlock& coarse) const {
  Point low = Point::Constant(1e300), high = -low;
  const auto cover = [&](const Point& middle, const Point& pad) {
    low = low.cwiseMin(middle - m_frame.size / 2 - pad);
    high = high.cwiseMax(middle + m_frame.size / 2 + pad);
  };
  const Point pad = m_pad * coarse.cell_m(), behind(pad.x(), coarse.cell_m().y());  // there heat is nearly old enough
  auto stroke = std::ranges::upper_bound(m_tour.strokes, from_s, {}, &TourStroke::end_s);
  for (; stroke != m_tour.strokes.end() && stroke->begin_s < to_s; ++stroke) {
    const bool oldest = stroke->begin_s < from_s;
    cover(stroke->middleAt(std::max(from_s, stroke->begin_s)) + m_frame.middle, oldest ? behind : pad);
    cover(stroke->middleAt(std::min(to_s, stroke->end_s)) + m_frame.middle, pad);
  }
  if (low.x() > high.x()) return {};
  const CellRange &range = coarse.range(), &part = coarse.part();
  const Reach x = reachOf(low.x(), high.x(), coarse.cell_m().x(), range.firstAcross, range.endAcross(), part.across);
  const Reach y = reachOf(low.y(), high.y(), coarse.cell_m().y(), range.firstAlong, range.endAlong(), part.along);
  if (x.first >= x.end || y.first >= y.end) return {};
  return {x.first, y.first, x.end - x.first, y.end - y.first};
}

CellRange HeatWindows::during(double from_s, double to_s, const CellBlock& coarse) const {
  const double spread = m_memory * coarse.cell_m().maxCoeff();
  double young = spread * spread / (2 * m_diffusivity);
  CellRange range = within(from_s - young, to_s, coarse);
  for (int i = 0; i < 20 && range.cells() > mostCells; ++i) range = within(from_s - (young /= 2), to_s, coarse);
  return range;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <QLineF>
#include <QVector>
#include <array>

namespace bw {

struct MapPlacing;

/// Lines of equal dose of one map. Units and origin of the map's first cell: millimetres from where it begins.
struct Isoline {
  double share = 0;  // of the mean
  QVector<QLineF> pieces;
  double apart_mm = 0;  // how far its runs are from each other on average: the map's area over the line's length
};

/// Shares of the mean that get a line.
inline constexpr std::array<double, 4> isolineShares = {0.5, 1, 1.5, 2};

/// Marching squares on the map thinned and smoothed to what the eye sees of it, across the border where it repeats. A saddle is split by
/// the mean of its corners. A line with more pieces than an eye can follow is left empty.
std::vector<Isoline> isolinesOf(const DoseMap& map, const MapPlacing& placing, double mean_J_m2);

/// The line through values at the middles of cells of a grid that does not repeat, row by row, where they are `level`; unsmoothed, in units
/// of a cell's sides from the corner of the first.
QVector<QLineF> isolineOf(const std::vector<float>& values, int columns, int rows, double level);

}  // namespace bw

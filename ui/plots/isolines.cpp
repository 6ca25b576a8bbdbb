// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/isolines.h"

#include "ui/plots/tiled_map.h"
#include "ui/style/units.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace bw {

namespace {

constexpr double mostNodes = 4e4;
constexpr double smoothing = 0.01;  // standard deviation of the smoothing over the side of a square as large as the map
constexpr int mostPieces = 4000;    // more is a grey veil

/// The dose thinned to a grid of nodes, in millimetres.
struct Nodes {
  Blocks blocks;
  double across_mm;
  double along_mm;

  double at(int column, int row) const {
    return static_cast<double>(blocks.mean[static_cast<std::size_t>(row % blocks.rows) * static_cast<std::size_t>(blocks.columns) +
                                           static_cast<std::size_t>(column % blocks.columns)]);
  }
  QPointF place(double column, double row) const { return {(column + 0.5) * across_mm, (row + 0.5) * along_mm}; }
};

Nodes thinned(const DoseMap& map) {
  const double cells = static_cast<double>(map.columns) * map.rows;
  const double finest = std::sqrt(map.across_m() * map.along_m() / std::min(mostNodes, cells));
  const auto count = [finest](double length_m, int most) { return std::clamp(static_cast<int>(length_m / finest), 1, most); };
  const int columns = count(map.across_m(), map.columns), rows = count(map.along_m(), map.rows);
  return {blockMeans(map, columns, rows, 0), map.across_m() / columns * mm_per_m, map.along_m() / rows * mm_per_m};
}

/// One pass of (1 2 1)/4 along a row of `count` values `stride` apart: adds half a node squared to the variance.
void smoothRow(float* values, int count, std::size_t stride, bool repeats) {
  const auto at = [=](int i) -> float& { return values[static_cast<std::size_t>(i) * stride]; };
  const float first = at(0), last = at(count - 1);
  float before = repeats ? last : first;
  for (int i = 0; i < count; ++i) {
    const float here = at(i), next = i + 1 < count ? at(i + 1) : (repeats ? first : last);
    at(i) = (before + 2 * here + next) / 4;
    before = here;
  }
}

/// Scan lines and single pulses, which no line could follow, are smoothed away.
void smooth(Blocks& blocks, const MapPlacing& placing) {
  const auto columns = static_cast<std::size_t>(blocks.columns), rows = static_cast<std::size_t>(blocks.rows);
  const double deviation = smoothing * std::sqrt(static_cast<double>(columns * rows));
  const int times = static_cast<int>(std::lround(2 * deviation * deviation));
  for (int i = 0; i < times; ++i) {
    for (std::size_t row = 0; row < rows; ++row) smoothRow(&blocks.mean[row * columns], blocks.columns, 1, placing.repeatsAcross);
    for (std::size_t column = 0; column < columns; ++column) smoothRow(&blocks.mean[column], blocks.rows, columns, placing.repeatsAlong);
  }
}

/// The line through one square of nodes, its corners counted round from the lower left.
void cross(QVector<QLineF>& pieces, const Nodes& nodes, int column, int row, double level) {
  const int x[] = {column, column + 1, column + 1, column}, y[] = {row, row, row + 1, row + 1};
  double value[4];
  for (int i = 0; i < 4; ++i) value[i] = nodes.at(x[i], y[i]) - level;
  QPointF found[4];
  int count = 0;
  for (int i = 0; i < 4; ++i) {
    const int next = (i + 1) % 4;
    if ((value[i] > 0) == (value[next] > 0)) continue;
    const double share = value[i] / (value[i] - value[next]);
    found[count++] = nodes.place(x[i] + share * (x[next] - x[i]), y[i] + share * (y[next] - y[i]));
  }
  if (count == 2) pieces.append({found[0], found[1]});
  if (count < 4) return;
  const bool joinsFirst = (value[0] + value[1] + value[2] + value[3] > 0) == (value[0] > 0);  // the middle belongs to corners 0 and 2
  pieces.append({found[0], found[joinsFirst ? 1 : 3]});
  pieces.append({found[2], found[joinsFirst ? 3 : 1]});
}

QVector<QLineF> lineAt(const Nodes& nodes, const MapPlacing& placing, double level) {
  const int columns = nodes.blocks.columns - (placing.repeatsAcross ? 0 : 1), rows = nodes.blocks.rows - (placing.repeatsAlong ? 0 : 1);
  QVector<QLineF> pieces;
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) cross(pieces, nodes, column, row, level);
    if (pieces.size() > mostPieces) return {};
  }
  return pieces;
}

double lengthOf(const QVector<QLineF>& pieces) {
  return std::accumulate(pieces.begin(), pieces.end(), 0.0, [](double sum, const QLineF& piece) { return sum + piece.length(); });
}

}  // namespace

std::vector<Isoline> isolinesOf(const DoseMap& map, const MapPlacing& placing, double mean_J_m2) {
  std::vector<Isoline> made;
  Nodes nodes = thinned(map);
  smooth(nodes.blocks, placing);
  const double area_mm2 = map.across_m() * map.along_m() * mm_per_m * mm_per_m;
  for (const double share : isolineShares) {
    Isoline line{share, lineAt(nodes, placing, share * mean_J_m2)};
    const double length_mm = lengthOf(line.pieces);
    line.apart_mm = length_mm > 0 ? area_mm2 / length_mm : 0;
    made.push_back(std::move(line));
  }
  return made;
}

QVector<QLineF> isolineOf(const std::vector<float>& values, int columns, int rows, double level) {
  if (columns < 1 || rows < 1 || values.size() < static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows)) return {};
  return lineAt(Nodes{{columns, rows, values, {}}, 1, 1}, {}, level);
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/layer_map.h"

#include "ui/plots/remaining.h"

#include <algorithm>

namespace bw {

namespace {

std::size_t sizeOf(int columns, int rows) { return static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows); }

}  // namespace

std::vector<double> TopMap::shares() const {
  std::vector<double> made(layers + 1);
  for (const std::uint8_t one : top) made[one] += 1;
  for (double& share : made) share /= static_cast<double>(std::max<std::size_t>(1, top.size()));
  return made;
}

TopMap topsAfter(const RemovedMap& map, const std::vector<LayerResult>& layers, std::size_t pass) {
  TopMap made{map.columns, map.rows, layers.size(), {}};
  const std::vector<float>& depth_m = map.depth_m[std::min(pass, map.depth_m.size() - 1)];
  made.top.reserve(depth_m.size());
  for (const float depth : depth_m) {
    const auto top = topLayerBelow(layers, static_cast<double>(depth));
    made.top.push_back(static_cast<std::uint8_t>(top ? top->index : layers.size()));
  }
  return made;
}

TopMap mostFrequent(const TopMap& map, int columns, int rows) {
  TopMap made{columns, rows, map.layers, std::vector<std::uint8_t>(sizeOf(columns, rows))};
  std::vector<int> counts(map.layers + 1);
  auto block = made.top.begin();
  for (int row = 0; row < rows; ++row) {
    const std::size_t firstRow = firstOfBlock(row, rows, map.rows), endRow = firstOfBlock(row + 1, rows, map.rows);
    for (int column = 0; column < columns; ++column, ++block) {
      const std::size_t first = firstOfBlock(column, columns, map.columns), end = firstOfBlock(column + 1, columns, map.columns);
      std::ranges::fill(counts, 0);
      for (std::size_t y = firstRow; y < endRow; ++y)
        for (std::size_t x = first; x < end; ++x) ++counts[map.top[y * static_cast<std::size_t>(map.columns) + x]];
      *block = static_cast<std::uint8_t>(std::ranges::max_element(counts) - counts.begin());
    }
  }
  return made;
}

LayerMap::LayerMap(QCPAxis* across, QCPAxis* along)
    : QCPLayerable(across->parentPlot(), QStringLiteral("main")), m_across(across), m_along(along) {}

void LayerMap::setMap(TopMap map, const MapExtent& extent) {
  m_tops = std::move(map);
  m_extent = extent;
  m_picture = {};
}

void LayerMap::setColours(std::vector<QColor> layersThenMetal, const QColor& hatch) {
  m_colours = std::move(layersThenMetal);
  m_hatch = hatch;
  m_picture = {};
}

void LayerMap::colourIn() {
  const QSize size(blocksFor(m_tops.columns, *m_across, m_extent.across_m), blocksFor(m_tops.rows, *m_along, m_extent.along_m));
  if (m_picture.size() == size) return;
  const TopMap shown = mostFrequent(m_tops, size.width(), size.height());
  m_picture = QImage(size, QImage::Format_RGB32);
  m_metal = QImage(size, QImage::Format_ARGB32_Premultiplied);
  auto top = shown.top.begin();
  for (int row = 0; row < size.height(); ++row) {
    auto* line = reinterpret_cast<QRgb*>(m_picture.scanLine(size.height() - 1 - row));
    auto* mask = reinterpret_cast<QRgb*>(m_metal.scanLine(size.height() - 1 - row));
    for (int column = 0; column < size.width(); ++column, ++top) {
      line[column] = m_colours[*top].rgb();
      mask[column] = *top == shown.layers ? qRgba(0, 0, 0, 255) : 0;
    }
  }
}

void LayerMap::draw(QCPPainter* painter) {
  if (m_tops.top.empty() || m_colours.size() != m_tops.layers + 1) return;
  colourIn();
  const std::vector<QRectF> tiles = tileRects(*m_across, *m_along, m_extent);
  painter->setRenderHint(QPainter::SmoothPixmapTransform, false);
  for (const QRectF& tile : tiles) painter->drawImage(tile, m_picture);
  paintMasked(*painter, QRectF(clipRect()), mParentPlot->bufferDevicePixelRatio(), tiles, m_metal, Hatch::Metal, m_hatch);
}

}  // namespace bw

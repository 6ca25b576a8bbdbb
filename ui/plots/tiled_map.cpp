// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/tiled_map.h"

#include "ui/style/units.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr int mostTiles = 2000;

/// The first tile that reaches into the range, and the one after the last.
struct Span {
  double first = 0;
  double end = 1;
};

Span spanOf(const QCPRange& range, double origin, double size, bool repeats) {
  if (!repeats) return {};
  return {std::floor((range.lower - origin) / size), std::ceil((range.upper - origin) / size)};
}

}  // namespace

std::size_t firstOfBlock(int i, int blocks, int cells) { return static_cast<std::size_t>(static_cast<long long>(i) * cells / blocks); }

int blocksFor(int cells, const QCPAxis& axis, double span_m) {
  const double ratio = axis.parentPlot()->bufferDevicePixelRatio();
  const double pixels = std::abs(axis.coordToPixel(span_m * mm_per_m) - axis.coordToPixel(0)) * ratio;
  return std::clamp(static_cast<int>(pixels), 1, std::max(1, cells));
}

std::vector<QPointF> tilesInSight(const QCPAxis& across, const QCPAxis& along, const MapExtent& extent) {
  const double width = extent.across_m * mm_per_m, height = extent.along_m * mm_per_m;
  const double left = extent.placing.across_m * mm_per_m, low = extent.placing.along_m * mm_per_m;
  const Span columns = spanOf(across.range(), left, width, extent.placing.repeatsAcross);
  const Span rows = spanOf(along.range(), low, height, extent.placing.repeatsAlong);
  std::vector<QPointF> made;
  for (double j = rows.first; j < rows.end; ++j)
    for (double i = columns.first; i < columns.end && made.size() < mostTiles; ++i) made.emplace_back(left + i * width, low + j * height);
  return made;
}

std::vector<QRectF> tileRects(const QCPAxis& across, const QCPAxis& along, const MapExtent& extent) {
  const double ratio = across.parentPlot()->bufferDevicePixelRatio();
  const auto snapped = [ratio](double pixel) { return std::round(pixel * ratio) / ratio; };  // no seams between tiles
  const auto corner = [&](double x, double y) { return QPointF(snapped(across.coordToPixel(x)), snapped(along.coordToPixel(y))); };
  const double width = extent.across_m * mm_per_m, height = extent.along_m * mm_per_m;
  std::vector<QRectF> made;
  for (const QPointF& low : tilesInSight(across, along, extent))
    made.emplace_back(corner(low.x(), low.y() + height), corner(low.x() + width, low.y()));
  return made;
}

void paintMasked(QCPPainter& painter, const QRectF& box, double screenRatio, const std::vector<QRectF>& tiles, const QImage& mask,
                 Hatch hatch, const QColor& colour) {
  if (box.isEmpty()) return;
  const double ratio = painter.modes().testFlag(QCPPainter::pmNoCaching) ? std::max(2.0, screenRatio) : screenRatio;  // finer in exports
  const auto sheet = [&box, ratio] {
    QImage made((box.size() * ratio).toSize(), QImage::Format_ARGB32_Premultiplied);
    made.setDevicePixelRatio(ratio);
    made.fill(Qt::transparent);
    return made;
  };
  QImage cut = sheet(), lines = sheet();
  QPainter cutting(&cut);
  for (const QRectF& tile : tiles) cutting.drawImage(tile.translated(-box.topLeft()), mask);
  cutting.end();
  QPainter hatching(&lines);
  hatching.setRenderHint(QPainter::Antialiasing);
  QPainterPath whole;
  whole.addRect(QRectF(QPointF(), box.size()));
  paintHatch(hatching, whole, hatch, colour);
  hatching.setCompositionMode(QPainter::CompositionMode_DestinationIn);
  hatching.drawImage(QPointF(), cut);
  hatching.end();
  painter.drawImage(box.topLeft(), lines);
}

Blocks blockMeans(const DoseMap& map, int columns, int rows, double bound_J_m2) {
  Blocks made{columns, rows, std::vector<float>(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows)), {}};
  made.below.resize(made.mean.size());
  const auto bound = static_cast<float>(bound_J_m2);
  for (int row = 0; row < rows; ++row) {
    const std::size_t firstRow = firstOfBlock(row, rows, map.rows), endRow = firstOfBlock(row + 1, rows, map.rows);
    for (int column = 0; column < columns; ++column) {
      const std::size_t first = firstOfBlock(column, columns, map.columns), end = firstOfBlock(column + 1, columns, map.columns);
      float sum = 0;
      int below = 0;
      for (std::size_t y = firstRow; y < endRow; ++y) {
        const float* line = map.dose_J_m2.data() + y * static_cast<std::size_t>(map.columns);
        for (std::size_t x = first; x < end; ++x) {
          sum += line[x];
          below += line[x] < bound ? 1 : 0;
        }
      }
      const auto cells = static_cast<float>((endRow - firstRow) * (end - first));
      const std::size_t block = static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) + static_cast<std::size_t>(column);
      made.mean[block] = sum / cells;
      made.below[block] = static_cast<float>(below) / cells;
    }
  }
  return made;
}

TiledMap::TiledMap(QCPAxis* across, QCPAxis* along) : QCPColorMap(across, along) {
  setInterpolate(false);
  setTightBoundary(false);
}

void TiledMap::setMap(std::shared_ptr<const DoseMap> map, const MapPlacing& placing, double missedBelow_J_m2) {
  m_source = std::move(map);
  m_placing = placing;
  m_missedBelow_J_m2 = missedBelow_J_m2;
  m_columns = m_rows = 0;
}

void TiledMap::resample() {
  if (m_source == nullptr || m_source->dose_J_m2.empty()) return;
  const int columns = blocksFor(m_source->columns, *keyAxis(), m_source->across_m());
  const int rows = blocksFor(m_source->rows, *valueAxis(), m_source->along_m());
  if (columns == m_columns && rows == m_rows) return;
  m_columns = columns;
  m_rows = rows;
  const Blocks blocks = blockMeans(*m_source, columns, rows, m_missedBelow_J_m2);
  data()->setSize(columns, rows);
  m_missed = QImage(columns, rows, QImage::Format_ARGB32_Premultiplied);
  m_anyMissed = false;
  std::size_t block = 0;
  for (int row = 0; row < rows; ++row) {
    auto* line = reinterpret_cast<QRgb*>(m_missed.scanLine(rows - 1 - row));
    for (int column = 0; column < columns; ++column, ++block) {
      data()->setCell(column, row, static_cast<double>(blocks.mean[block]) / J_m2_per_J_cm2);
      line[column] = qRgba(0, 0, 0, static_cast<int>(blocks.below[block] * 255));
      m_anyMissed = m_anyMissed || blocks.below[block] > 0;
    }
  }
  mMapImageInvalidated = true;
}

std::vector<QPointF> TiledMap::tileOrigins() const { return tilesInSight(*keyAxis(), *valueAxis(), extent()); }

QTransform TiledMap::toPixels() const {
  const QPointF zero(keyAxis()->coordToPixel(0), valueAxis()->coordToPixel(0));
  return {keyAxis()->coordToPixel(1) - zero.x(), 0, 0, valueAxis()->coordToPixel(1) - zero.y(), zero.x(), zero.y()};
}

void TiledMap::draw(QCPPainter* painter) {
  resample();
  if (m_source == nullptr || m_columns == 0) return;
  if (mMapImageInvalidated) updateMapImage();
  const std::vector<QRectF> places = tileRects(*keyAxis(), *valueAxis(), extent());
  painter->setAntialiasing(false);  // it would shift by half a pixel and leave seams
  painter->setRenderHint(QPainter::SmoothPixmapTransform, false);
  for (const QRectF& tile : places) painter->drawImage(tile, mMapImage);
  if (!m_anyMissed) return;
  paintMasked(*painter, QRectF(clipRect()), mParentPlot->bufferDevicePixelRatio(), places, m_missed, Hatch::Diagonal, m_hatch);
}

}  // namespace bw

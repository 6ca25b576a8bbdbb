// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "ui/style/hatch.h"

#include <qcustomplot.h>

#include <memory>

namespace bw {

/// Where a map's first cell begins on the plot's axes, and in which directions it is laid again and again.
struct MapPlacing {
  double across_m = 0;
  double along_m = 0;
  bool repeatsAcross = false;
  bool repeatsAlong = false;
};

/// A map's size on the plot and its placing.
struct MapExtent {
  double across_m = 0;
  double along_m = 0;
  MapPlacing placing = {};
};

/// Where the tiles in sight begin, millimetres on the plot's axes.
std::vector<QPointF> tilesInSight(const QCPAxis& across, const QCPAxis& along, const MapExtent& extent);

/// The same in pixels, without seams.
std::vector<QRectF> tileRects(const QCPAxis& across, const QCPAxis& along, const MapExtent& extent);

/// How many blocks to show `cells` cells that span so many metres of the axis: all of them, or about one a pixel.
int blocksFor(int cells, const QCPAxis& axis, double span_m);

/// First cell of block i when `cells` are shared out among `blocks`.
std::size_t firstOfBlock(int i, int blocks, int cells);

/// Hatching in screen space, let through where the mask of each tile is opaque.
void paintMasked(QCPPainter& painter, const QRectF& box, double screenRatio, const std::vector<QRectF>& tiles, const QImage& mask,
                 Hatch hatch, const QColor& colour);

/// A dose map as colours: laid side by side as far as the view reaches where it repeats, no finer than the screen shows.
/// Plot units are millimetres; doses are J/cm2. Shares of missed cells appear as hatching of that strength.
class TiledMap : public QCPColorMap {
  Q_OBJECT

 public:
  TiledMap(QCPAxis* across, QCPAxis* along);

  /// `missedBelow_J_m2`: what counts as missed, 0 for nothing.
  void setMap(std::shared_ptr<const DoseMap> map, const MapPlacing& placing, double missedBelow_J_m2);
  const MapPlacing& placing() const { return m_placing; }
  /// Where the tiles in sight begin, millimetres on the plot's axes, and the way from there to pixels.
  std::vector<QPointF> tileOrigins() const;
  QTransform toPixels() const;
  void setHatchColour(const QColor& colour) { m_hatch = colour; }

 protected:
  void draw(QCPPainter* painter) override;

 private:
  void resample();  // refills where the view now shows more or fewer cells in a pixel
  MapExtent extent() const { return {m_source->across_m(), m_source->along_m(), m_placing}; }

  std::shared_ptr<const DoseMap> m_source;
  MapPlacing m_placing;
  double m_missedBelow_J_m2 = 0;
  int m_columns = 0, m_rows = 0;  // as filled in
  bool m_anyMissed = false;
  QImage m_missed;
  QColor m_hatch;
};

/// Block means of a map, with the share of each block below a bound.
struct Blocks {
  int columns = 0;
  int rows = 0;
  std::vector<float> mean;
  std::vector<float> below;
};

Blocks blockMeans(const DoseMap& map, int columns, int rows, double bound_J_m2);

}  // namespace bw

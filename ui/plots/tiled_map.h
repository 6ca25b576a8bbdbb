// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

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
  std::vector<QRectF> tiles() const;  // in pixels
  void drawMissed(QCPPainter& painter, const std::vector<QRectF>& tiles);

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

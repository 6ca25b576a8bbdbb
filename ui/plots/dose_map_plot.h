// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/plots/plot_view.h"

#include <QRectF>

namespace bw {

class TiledMap;

/// Energy on the part per pass, seen from above, at true proportion.
class DoseMapPlot : public PlotView {
  Q_OBJECT

 public:
  explicit DoseMapPlot(QWidget* parent = nullptr);

  QString readoutAt(double across_mm, double along_mm) const override;
  QString csv() const override;
  TiledMap* map() const { return m_map; }

 protected:
  void refresh() override;
  void restyle(const Tones& tones) override;
  void fitAxes() override;
  void keepShape() override;
  QString summary() const override;
  QString missing() const override;
  void clickedAt(const QPointF& position) override;

 private:
  const DoseMap* shown() const;
  bool repeats() const { return now() != nullptr && now()->map != nullptr; }
  double middle_m() const { return repeats() ? now()->profile.middle_m : 0; }
  PickedPlace placeOf(double across_mm, double along_mm) const;
  QRectF pixels(double left_mm, double low_mm, double width_mm, double height_mm) const;
  double pixelsPerMm() const;
  void setMargins();
  void paintMarks(QPainter& painter, const QRectF& box) const;
  void paintCell(QPainter& painter, const DoseMap& map, const QColor& colour, Qt::PenStyle style) const;
  void paintThumb(QPainter& painter, const QRectF& box) const;
  void paintScaleBar(QPainter& painter, const QRectF& box) const;
  void paintTravel(QPainter& painter, const QRectF& box) const;
  void paintPlace(QPainter& painter) const;
  void paintColourBar(QPainter& painter, const QRectF& box) const;

  TiledMap* m_map;
};

}  // namespace bw

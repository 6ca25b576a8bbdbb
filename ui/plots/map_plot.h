// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/plots/plot_view.h"
#include "ui/plots/tiled_map.h"

#include <QRectF>

namespace bw {

/// What plots that look down on the surface share: true proportion, millimetres across and along, the repeat cell, the picked place,
/// marks of size and direction.
class MapPlot : public PlotView {
  Q_OBJECT

 public:
  /// The ways to look at the same surface; each has a plot of its own.
  enum class View { Dose, Remains };

  MapPlot(QString title, QString shortTitle, QWidget* parent);

  /// Takes over the view of another map of the same work.
  void lookAt(const MapPlot& other);

 signals:
  void viewChosen(bw::MapPlot::View view);  // another than this

 protected:
  virtual std::optional<MapExtent> extent() const = 0;  // of what is shown
  virtual bool isEndless() const = 0;                   // it repeats both ways, and a place on it can be picked
  virtual int rightMargin() const = 0;                  // for scale or legend

  void fitAxes() override;
  void keepShape() override;
  void clickedAt(const QPointF& position) override;

  void addSwitch(View view);  // to the other ways to look at the repeat cell
  void setMargins();
  std::optional<PickedPlace> placeOf(double across_mm, double along_mm) const;  // in the map; nothing outside it
  QString whereWords(double across_mm, double along_mm) const;
  double pixelsPerMm() const;
  void paintCell(QPainter& painter, double across_m, double along_m, Qt::PenStyle style) const;
  void paintPlace(QPainter& painter) const;
  void paintSizes(QPainter& painter, const QRectF& box, bool travels) const;  // thumb, scale bar, travel

 private:
  QRectF pixels(double left_mm, double low_mm, double width_mm, double height_mm) const;
};

}  // namespace bw

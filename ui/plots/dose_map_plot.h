// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/plots/plot_view.h"

#include <QRectF>

namespace bw {

class SceneChooser;
class TiledMap;
struct MapPlacing;

/// Energy on the part per pass, seen from above, at true proportion: the middle of the area, or another part of the work.
class DoseMapPlot : public PlotView {
  Q_OBJECT

 public:
  explicit DoseMapPlot(QWidget* parent = nullptr);

  QString readoutAt(double across_mm, double along_mm) const override;
  QString csv() const override;
  TiledMap* map() const { return m_map; }
  const SceneRequest& scene() const;  // that is asked for; the assessment says which one is shown

 signals:
  void sceneChosen();

 protected:
  void refresh() override;
  void restyle(const Tones& tones) override;
  void fitAxes() override;
  void keepShape() override;
  QString summary() const override;
  QString missing() const override;
  void clickedAt(const QPointF& position) override;

 private:
  std::shared_ptr<const DoseMap> shown() const;
  Scene scenery() const { return now() != nullptr ? now()->scene.scene : Scene::Endless; }
  bool isEndless() const { return scenery() == Scene::Endless && now() != nullptr && now()->map != nullptr; }
  MapPlacing placingOf(const DoseMap& map) const;
  double middle_m() const { return isEndless() ? now()->profile.middle_m : 0; }
  QString sceneSummary() const;
  QString strikesText(const PickedPlace& at) const;
  void labelAxes();
  std::optional<PickedPlace> placeOf(double across_mm, double along_mm) const;  // in the map; nothing outside it
  QRectF pixels(double left_mm, double low_mm, double width_mm, double height_mm) const;
  double pixelsPerMm() const;
  void setMargins();
  void paintMarks(QPainter& painter, const QRectF& box) const;
  void paintCell(QPainter& painter, const DoseMap& map, const QColor& colour, Qt::PenStyle style) const;
  void paintStrokeEnd(QPainter& painter, const QRectF& box) const;
  void paintPlace(QPainter& painter) const;
  void paintColourBar(QPainter& painter, const QRectF& box) const;

  TiledMap* m_map;
  SceneChooser* m_scene;
  double m_most_J_m2 = 0;  // in the map shown
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/plots/isolines.h"
#include "ui/plots/map_plot.h"

#include <QFutureWatcher>

class QToolButton;

namespace bw {

class SceneChooser;

/// Energy on the part per pass, seen from above, at true proportion: the middle of the area, or another part of the work.
class DoseMapPlot : public MapPlot {
  Q_OBJECT

 public:
  explicit DoseMapPlot(QWidget* parent = nullptr);

  QString readoutAt(double across_mm, double along_mm) const override;
  QString csv() const override;
  TiledMap* map() const { return m_map; }
  /// Those drawn now; they come from a worker a moment after the map.
  const std::vector<Isoline>& isolines() const { return m_isolines; }
  const SceneRequest& scene() const;  // that is asked for; the assessment says which one is shown

 signals:
  void sceneChosen();

 protected:
  void refresh() override;
  void restyle(const Tones& tones) override;
  QString summary() const override;
  QString missing() const override;
  std::optional<MapExtent> extent() const override;
  bool isEndless() const override { return scenery() == Scene::Endless && now() != nullptr && now()->map != nullptr; }
  int rightMargin() const override { return 116; }

 private:
  std::shared_ptr<const DoseMap> shown() const;
  Scene scenery() const { return now() != nullptr ? now()->scene.scene : Scene::Endless; }
  MapPlacing placingOf(const DoseMap& map) const;
  double middle_m() const { return isEndless() ? now()->profile.middle_m : 0; }
  QString sceneSummary() const;
  QString throughWords() const;
  QString strikesText(const PickedPlace& at) const;
  bool showsIsolines() const;
  bool canBeFollowed(const Isoline& line) const;
  void labelAxes();
  void traceIsolines();
  void isolinesTraced();
  void paintMarks(QPainter& painter, const QRectF& box) const;
  void paintIsolines(QPainter& painter) const;
  void paintIsolineMarks(QPainter& painter, const QRectF& bar) const;
  void paintStrokeEnd(QPainter& painter, const QRectF& box) const;
  void paintColourBar(QPainter& painter, const QRectF& box) const;

  TiledMap* m_map;
  SceneChooser* m_scene;
  QToolButton* m_lines;
  double m_most_J_m2 = 0;                   // in the map shown
  std::shared_ptr<const DoseMap> m_traced;  // whose isolines are there or on their way
  std::vector<Isoline> m_isolines;
  QFutureWatcher<std::vector<Isoline>> m_tracing;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/part_map.h"
#include "ui/plots/heat_curves.h"
#include "ui/plots/map_plot.h"
#include "ui/plots/part_scene.h"

#include <QFutureWatcher>

namespace bw {

class TimeStepper;
class ViewSwitch;

/// How warm the part is, seen from above: moment by moment through the whole job, or the highest of each place.
class PartMapPlot : public MapPlot {
  Q_OBJECT

 public:
  explicit PartMapPlot(QWidget* parent = nullptr);

  QString readoutAt(double x_mm, double y_mm) const override;
  QString csv() const override;
  TimeStepper* time() const { return m_time; }
  QCPColorMap* map() const { return m_map; }
  const std::vector<QVector<QLineF>>& lines() const { return m_lines; }  // they come from a worker a moment after the map
  QRectF hand_mm() const;                                                // the frame at the moment shown; empty where there is none

 signals:
  void curvesChosen(bw::HeatView view);

 protected:
  void arrived() override;
  bool isBehind() const override { return m_behind; }
  void refresh() override;
  void restyle(const Tones& tones) override;
  QString summary() const override;
  QString missing() const override;
  std::optional<MapExtent> extent() const override;
  bool isEndless() const override { return false; }
  int rightMargin() const override { return 116; }
  void extendMenu(QMenu& menu) override;
  void keyPressEvent(QKeyEvent* event) override;
  void hideEvent(QHideEvent* event) override;

 private:
  std::optional<std::size_t> moment() const;  // nothing: the highest over all
  const std::vector<float>& shown() const;
  void traceLines();
  void paintMarks(QPainter& painter, const QRectF& box) const;
  void paintLines(QPainter& painter) const;
  void paintHand(QPainter& painter) const;
  void paintScale(QPainter& painter, const QRectF& box) const;

  PartScene m_field;  // of the assessment that is drawn: an earlier one as long as the newest still lacks its map
  QSizeF m_frame_mm;
  bool m_roundFrame = false;
  bool m_behind = false;
  QCPColorMap* m_map;
  TimeStepper* m_time;
  std::vector<QVector<QLineF>> m_lines;
  QFutureWatcher<std::vector<QVector<QLineF>>> m_tracing;
};

}  // namespace bw

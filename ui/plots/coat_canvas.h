// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "core/values/project.h"

#include <QWidget>
#include <memory>
#include <optional>
#include <vector>

class QPainterPath;

namespace bw {

/// The drawing inside CoatSection: layers, labels, dragging, keys.
class CoatCanvas : public QWidget {
  Q_OBJECT

 public:
  explicit CoatCanvas(QWidget* parent = nullptr);

  void setCoat(const Project& project);
  void setAssessment(std::shared_ptr<const Assessment> assessment);
  void setStale(bool stale);
  void setPass(int pass);
  void setCut(std::optional<double> depth_m);  // wears all of the width down so far; nothing: each class of place by its dose
  void select(int layer);
  int selected() const { return m_selected; }

  /// Pixel rows of a layer's top and bottom; for layers.size() the metal's.
  double topOf(int layer) const;
  double bottomOf(int layer) const;
  bool isEnlarged(int layer) const;  // drawn thicker than to scale

  QSize sizeHint() const override;

 signals:
  void thicknessDragged(int layer, double thickness_m);
  void thicknessDragFinished();
  void layerSelected(int layer);
  void passStepped(int by);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  bool event(QEvent* event) override;

 private:
  struct Drag {
    int layer;
    double startY, startThickness_m, scale_px_m;
  };
  int layers() const { return static_cast<int>(m_project.coat.size()); }
  void layOut();
  int boundaryAt(const QPointF& position) const;  // layer whose lower boundary is there, or -1
  int layerAt(const QPointF& position) const;
  double rowOfDepth(double depth_m) const;
  void change(int layer, double thickness_m);
  void describe();
  QRectF body() const;
  void paintLayer(QPainter& painter, int layer) const;
  void paintMetal(QPainter& painter) const;
  void paintWear(QPainter& painter) const;
  QPainterPath wornByDose() const;
  QPainterPath wornTo(double depth_m) const;
  void paintName(QPainter& painter, int layer) const;
  void paintBreak(QPainter& painter, double y) const;

  Project m_project;
  std::shared_ptr<const Assessment> m_assessment;
  std::vector<double> m_rows;  // layer tops, then the metal's top
  double m_scale_px_m = 0;
  int m_pass = 0;
  std::optional<double> m_cut_m;
  int m_selected = -1;
  bool m_stale = false;
  std::optional<Drag> m_drag;
};

}  // namespace bw

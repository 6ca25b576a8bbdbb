// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <QWidget>
#include <memory>

class QLabel;
class QSlider;

namespace bw {

class CoatCanvas;

/// The coat on its metal, cut through: layers in the paints' own colours, thickness to scale, boundaries that can be dragged,
/// and a stepper that wears the coat away pass by pass where the dose was.
class CoatSection : public QWidget {
  Q_OBJECT

 public:
  explicit CoatSection(QWidget* parent = nullptr);

  void setCoat(const Project& project);
  void setAssessment(std::shared_ptr<const Assessment> assessment);
  void setStale(bool stale);

  CoatCanvas* canvas() const { return m_canvas; }
  QSlider* stepper() const { return m_stepper; }

 signals:
  void thicknessDragged(int layer, double thickness_m);  // while it is dragged or stepped
  void thicknessDragFinished();                          // the moment to close one undo step
  void layerSelected(int layer);

 private:
  void showPass(int pass);

  CoatCanvas* m_canvas;
  QSlider* m_stepper;
  QLabel* m_passes;
  std::shared_ptr<const Assessment> m_assessment;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <QWidget>
#include <memory>

namespace bw {

/// The coat on its metal, cut through: layers in the paints' own colours, thickness to scale, boundaries that can be dragged,
/// and a stepper that wears the coat away pass by pass where the dose was.
class CoatSection : public QWidget {
  Q_OBJECT

 public:
  explicit CoatSection(QWidget* parent = nullptr);

  void setCoat(const Project& project);
  void setAssessment(std::shared_ptr<const Assessment> assessment);
  void setStale(bool stale);

 signals:
  void thicknessDragged(int layer, double thickness_m);  // while it is dragged or stepped
  void thicknessDragFinished();                          // the moment to close one undo step
  void layerSelected(int layer);
};

}  // namespace bw

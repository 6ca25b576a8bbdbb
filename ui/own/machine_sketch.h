// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/machine.h"

#include <QWidget>

namespace bw {

/// What a machine lights, to scale: the greatest frame with the spot in it at the frame's own scale, and beside it the spot magnified;
/// each with its scale bar.
class MachineSketch : public QWidget {
  Q_OBJECT
 public:
  explicit MachineSketch(QWidget* parent = nullptr);
  void setMachine(const Machine& machine);
  QSize sizeHint() const override { return {300, 190}; }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  QString frameWords() const;
  void paintFrame(QPainter& painter, const QRectF& box) const;
  void paintSpot(QPainter& painter, const QRectF& box) const;

  Machine m_machine;
};

/// A round length, 1, 2 or 5 times a power of ten, that takes at most `most`. Precondition: most > 0.
double roundLength_m(double most_m);

}  // namespace bw

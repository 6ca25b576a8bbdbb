// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/fields/quantity_field.h"

class QToolButton;

namespace bw {

/// "10 cm in 12 s": how a hand thinks of a speed.
QString paceText(double speed_m_s);

/// The direction of the hand's travel: two arrows, across or along the scan lines, and the exact angle.
class DirectionField : public QWidget {
  Q_OBJECT
 public:
  explicit DirectionField(QWidget* parent = nullptr);
  void setAngle(double angle_rad);

 signals:
  void edited(double angle_rad, bw::EditKind kind);

 private:
  QToolButton* makeArrow(const QString& icon, const QString& name, const QString& tip, double angle_rad);

  QToolButton* m_across;
  QToolButton* m_along;
  QuantityField* m_angle;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/travel_field.h"

#include "ui/fields/icon.h"
#include "ui/style/format.h"
#include "ui/style/theme.h"

#include <QHBoxLayout>
#include <QToolButton>

#include <cmath>
#include <numbers>

namespace bw {
namespace {

constexpr double acrossTheLines_rad = std::numbers::pi / 2;
constexpr double alongTheLines_rad = 0;

bool same(double a_rad, double b_rad) { return std::abs(a_rad - b_rad) < 1e-6; }

}  // namespace

QString paceText(double speed_m_s) {
  if (speed_m_s <= 0) return DirectionField::tr("the hand stands still");
  return DirectionField::tr("10 cm in %1").arg(format::duration(0.1 / speed_m_s));
}

DirectionField::DirectionField(QWidget* parent)
    : QWidget(parent),
      m_across(makeArrow(QStringLiteral("across"), tr("Travel across the lines"), tr("The hand moves at right angles to the scan lines."),
                         acrossTheLines_rad)),
      m_along(makeArrow(QStringLiteral("along"), tr("Travel along the lines"), tr("The hand moves in the direction of the scan lines."),
                        alongTheLines_rad)),
      m_angle(new QuantityField({tr("Travel angle"), tr("Direction of the hand's travel, measured from the scan lines."), quantities::angle,
                                 -std::numbers::pi, std::numbers::pi, std::numbers::pi / 36})) {
  setToolTip(tr("Which way the hand moves over the scan lines."));
  m_across->setObjectName(QStringLiteral("travelAcross"));
  m_along->setObjectName(QStringLiteral("travelAlong"));
  m_angle->setObjectName(QStringLiteral("travelAngle"));
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(space::small);
  row->addWidget(m_across);
  row->addWidget(m_along);
  row->addWidget(m_angle, 1);
  connect(m_angle, &QuantityField::edited, this, [this](Range angle, EditKind kind) { emit edited(angle.likely, kind); });
}

QToolButton* DirectionField::makeArrow(const QString& icon, const QString& name, const QString& tip, double angle_rad) {
  auto* button = new QToolButton;
  button->setIcon(lineIcon(icon));
  button->setAccessibleName(name);
  button->setToolTip(tip);
  button->setCheckable(true);
  button->setFixedSize(26, 26);
  connect(button, &QToolButton::clicked, this, [this, button, angle_rad] {
    button->setChecked(true);
    emit edited(angle_rad, EditKind::Whole);
  });
  return button;
}

void DirectionField::setAngle(double angle_rad) {
  m_across->setChecked(same(angle_rad, acrossTheLines_rad));
  m_along->setChecked(same(angle_rad, alongTheLines_rad));
  m_angle->setValue(angle_rad);
}

}  // namespace bw

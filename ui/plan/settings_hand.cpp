// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/values/setting_bounds.h"
#include "ui/document/edits.h"
#include "ui/fields/chooser.h"
#include "ui/plan/settings_form.h"
#include "ui/plan/travel_field.h"

// The hand's part of the settings.

namespace bw {
namespace {

QString idOf(SwathOrder order) { return QString::number(static_cast<int>(order)); }

}  // namespace

void SettingsForm::addHand() {
  m_form->addGroup(tr("Hand"));
  auto* speed = makeNumber("travel", &Settings::travelSpeed_m_s, tr("change the travel speed"),
                           {tr("Travel"), tr("Speed of the hand over the part."), quantities::travelSpeed, bounds::travelSpeed_m_s.low,
                            bounds::travelSpeed_m_s.high, 1e-3});
  add(tr("Travel"), speed, Importance::Everyday);
  m_pace = new QuietLabel;
  m_pace->setObjectName(QStringLiteral("pace"));
  m_pace->setAlignment(Qt::AlignRight);
  add({}, m_pace, Importance::Everyday);
  add(tr("Step-over"),
      makeNumber("stepOver", &Settings::stepOver_m, tr("change the step-over"),
                 {tr("Step-over"), tr("Distance between neighbouring swaths, measured across the travel."), quantities::length, 1e-5,
                  bounds::stepOver_m.high, 1e-3}),
      Importance::Everyday);
  add(tr("Order of swaths"), makeSwathOrder(), Importance::Seldom);
  m_direction = new DirectionField;
  connect(m_direction, &DirectionField::edited, this, [this](double angle_rad, EditKind kind) {
    edits::setSetting(m_document, &Settings::travelAngle_rad, tr("change the travel direction"), angle_rad, kind);
  });
  add(tr("Direction"), m_direction, Importance::Seldom);
  add(tr("Wander"), makeWander(), Importance::Seldom);
}

Chooser* SettingsForm::makeSwathOrder() {
  m_swathOrder =
      new Chooser(tr("Order of swaths"), tr("In which order the hand lays the swaths of a pass: the heat of one meets the next."));
  m_swathOrder->setObjectName(QStringLiteral("swathOrder"));
  m_swathOrder->add(idOf(SwathOrder::SideBySide), tr("side by side"), tr("Each swath beside the last one."));
  m_swathOrder->add(idOf(SwathOrder::EverySecond), tr("every second first"),
                    tr("First every second swath, then those between: neighbours have time to cool."));
  connect(m_swathOrder, &Chooser::chosen, this,
          [this](const QString& id) { edits::setSwathOrder(m_document, static_cast<SwathOrder>(id.toInt())); });
  return m_swathOrder;
}

QuantityField* SettingsForm::makeWander() {
  m_wander = new QuantityField(
      {tr("Wander of the hand"),
       tr("How unsteadily the hand keeps its speed; shown at the start and end of strokes and in corners on the dose map."),
       quantities::share, bounds::speedWander.low, bounds::speedWander.high, 0.01, false, true});
  m_wander->setObjectName(QStringLiteral("wander"));
  connect(m_wander, &QuantityField::edited, this,
          [this](Range wander, EditKind kind) { edits::setSpeedWander(m_document, wander.likely, kind); });
  connect(m_wander, &QuantityField::unknownChosen, this, [this] { edits::setSpeedWander(m_document, std::nullopt); });
  return m_wander;
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/fields/provenance_mark.h"

#include "ui/style/theme.h"

#include <QMenu>
#include <QPainter>

namespace bw {

QString provenanceWord(KnownFrom from) {
  switch (from) {
    case KnownFrom::Unknown: return ProvenanceMark::tr("don't know");
    case KnownFrom::Typical: return ProvenanceMark::tr("typical");
    case KnownFrom::Guess: return ProvenanceMark::tr("yours");
    case KnownFrom::Gauge: return ProvenanceMark::tr("measured");
    case KnownFrom::Patch: break;
  }
  return ProvenanceMark::tr("measured on a patch");
}

ProvenanceMark::ProvenanceMark(QWidget* parent) : QToolButton(parent) {
  setAutoRaise(true);
  setPopupMode(QToolButton::InstantPopup);
  setFocusPolicy(Qt::TabFocus);
  auto* menu = new QMenu(this);
  for (const KnownFrom from : {KnownFrom::Typical, KnownFrom::Guess, KnownFrom::Gauge, KnownFrom::Unknown}) {
    menu->addAction(provenanceWord(from), this, [this, from] { emit chosen(from); });
  }
  setMenu(menu);
  setFrom(KnownFrom::Typical);
}

void ProvenanceMark::setFrom(KnownFrom from) {
  m_from = from;
  setAccessibleName(tr("Where this value comes from: %1").arg(provenanceWord(from)));
  setToolTip(tr("Where this value comes from: %1. Measured values narrow the answer.").arg(provenanceWord(from)));
  update();
}

void ProvenanceMark::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const Tones tones = tonesOf(palette());
  const QRectF disc(QRectF(rect()).center() - QPointF(4, 4), QSizeF(8, 8));
  if (hasFocus() || underMouse()) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(tones.line);
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 4, 4);
  }
  painter.setPen(QPen(tones.quiet, 1.5));
  painter.setBrush(Qt::NoBrush);
  if (m_from == KnownFrom::Unknown) {
    painter.drawText(rect(), Qt::AlignCenter, QStringLiteral("?"));
    return;
  }
  painter.drawEllipse(disc);
  painter.setBrush(tones.quiet);
  painter.setPen(Qt::NoPen);
  if (m_from == KnownFrom::Guess) painter.drawPie(disc, 90 * 16, 180 * 16);
  if (m_from == KnownFrom::Gauge || m_from == KnownFrom::Patch) painter.drawEllipse(disc);
}

}  // namespace bw

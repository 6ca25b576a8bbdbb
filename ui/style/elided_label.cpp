// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/style/elided_label.h"

#include <QPainter>

namespace bw {

ElidedLabel::ElidedLabel(QWidget* parent) : QWidget(parent) { setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed); }

void ElidedLabel::setText(const QString& text) {
  if (text == m_text) return;
  m_text = text;
  setAccessibleName(text);
  setToolTip(text);
  update();
}

QSize ElidedLabel::sizeHint() const { return {fontMetrics().horizontalAdvance(m_text), fontMetrics().height() + 2}; }
QSize ElidedLabel::minimumSizeHint() const { return {40, fontMetrics().height() + 2}; }

void ElidedLabel::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setPen(palette().color(foregroundRole()));
  painter.drawText(rect(), Qt::AlignLeft | Qt::AlignVCenter, fontMetrics().elidedText(m_text, Qt::ElideRight, width()));
}

}  // namespace bw

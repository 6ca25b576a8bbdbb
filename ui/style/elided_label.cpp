// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/style/elided_label.h"

#include <QPainter>

namespace bw {

ElidedLabel::ElidedLabel(QWidget* parent) : QWidget(parent) { setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed); }

void ElidedLabel::setText(const QString& text, const QString& shorter) {
  if (text == m_text && shorter == m_shorter) return;
  m_text = text;
  m_shorter = shorter;
  setAccessibleName(text);
  setToolTip(text);
  update();
}

QSize ElidedLabel::sizeHint() const { return {fontMetrics().horizontalAdvance(m_text), fontMetrics().height() + 2}; }
QSize ElidedLabel::minimumSizeHint() const { return {40, fontMetrics().height() + 2}; }

QString ElidedLabel::shown() const {
  const int whole = fontMetrics().horizontalAdvance(m_text), shorter = fontMetrics().horizontalAdvance(m_shorter);
  const bool shortens = whole > width() && !m_shorter.isEmpty() && shorter < whole;
  return fontMetrics().elidedText(shortens ? m_shorter : m_text, Qt::ElideRight, width());
}

void ElidedLabel::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setPen(palette().color(foregroundRole()));
  painter.drawText(rect(), Qt::AlignLeft | Qt::AlignVCenter, shown());
}

}  // namespace bw

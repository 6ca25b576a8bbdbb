// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/range_bar.h"

#include "ui/style/hatch.h"
#include "ui/style/theme.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr int titleHeight = 16;
constexpr int barsHeight = 18;
constexpr double headroom = 1.12;  // beyond the farthest of what is drawn

}  // namespace

QString wordsOf(const RangeLine& line) {
  QString text;
  if (line.spread) {
    text = format::range(*line.spread, line.shown, line.neverShare);
  } else if (line.single) {
    text = line.shown(*line.single);
  }
  if (!line.limitWords.isEmpty()) text += QStringLiteral("; ") + line.limitWords;
  if (!line.spread) text += line.moreToCome ? RangeBar::tr(". Spread follows") : RangeBar::tr(". Single estimate, spread not computed");
  return text;
}

RangeBar::RangeBar(QWidget* parent) : QWidget(parent) {
  QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Fixed);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
  setFont(smallFont(font()));
}

void RangeBar::setLine(RangeLine line) {
  m_line = std::move(line);
  setAccessibleName(m_line.name + QStringLiteral(": ") + wordsOf(m_line));
  setAccessibleDescription(m_line.tip);
  setToolTip(m_line.tip + tr(" Thin line: 9 in 10 such jobs. Tick: most likely. Post: limit, hatched beyond it."));
  updateGeometry();
  update();
}

int RangeBar::textHeight(int width) const {
  return fontMetrics().boundingRect(QRect(0, 0, std::max(60, width), 1000), Qt::TextWordWrap, wordsOf(m_line)).height();
}

int RangeBar::heightForWidth(int width) const { return titleHeight + textHeight(width) + barsHeight; }
QSize RangeBar::sizeHint() const { return {200, heightForWidth(240)}; }

/// The scale begins at nothing, so that widths of ranges compare.
double RangeBar::scaleEnd() const {
  if (m_line.most > 0) return m_line.most;
  double most = std::max(m_line.single.value_or(0), m_line.limit.value_or(0));
  if (m_line.spread) {
    for (const double value : {m_line.spread->low, m_line.spread->middle, m_line.spread->high})
      if (std::isfinite(value)) most = std::max(most, value);
  }
  return most > 0 ? most * headroom : 1;
}

double RangeBar::xOf(double value) const {
  const double end = width() - 1.0;
  return std::isfinite(value) ? std::clamp(1 + (end - 1) * value / scaleEnd(), 1.0, end) : end;
}

void RangeBar::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setOpacity(isEnabled() ? 1 : 0.5);
  const Tones tones = tonesOf(palette());
  painter.setPen(tones.quiet);
  painter.drawText(QRect(0, 0, width(), titleHeight), Qt::AlignLeft | Qt::AlignVCenter, m_line.name);
  painter.setPen(tones.ink);
  painter.drawText(QRect(0, titleHeight, width(), height() - titleHeight - barsHeight), Qt::TextWordWrap, wordsOf(m_line));
  paintDrawing(painter);
}

void RangeBar::paintDrawing(QPainter& painter) const {
  const Tones tones = tonesOf(palette());
  const double top = height() - barsHeight + 3.0, bottom = height() - 2.0, middle = (top + bottom) / 2;
  painter.setPen(QPen(tones.line, 1));
  painter.drawLine(QPointF(0, bottom), QPointF(width(), bottom));
  if (m_line.limit) {
    QPainterPath beyond;
    beyond.addRect(QRectF(QPointF(xOf(*m_line.limit), top), QPointF(width() - 1.0, bottom)));
    paintHatch(painter, beyond, Hatch::Diagonal, blend(tones.sheet, tones.quiet, 0.6));
  }
  if (m_line.spread) {
    const double left = xOf(m_line.spread->low), right = xOf(m_line.spread->high);
    painter.setPen(QPen(tones.accent, 2));
    painter.drawLine(QPointF(left, middle), QPointF(right, middle));
    painter.drawLine(QPointF(left, middle - 3), QPointF(left, middle + 3));
    if (std::isfinite(m_line.spread->high)) {
      painter.drawLine(QPointF(right, middle - 3), QPointF(right, middle + 3));
    } else {
      painter.drawPolyline(QPolygonF{QPointF(right - 5, middle - 4), QPointF(right, middle), QPointF(right - 5, middle + 4)});
    }
  }
  const std::optional<double> likely = m_line.spread ? std::optional(m_line.spread->middle) : m_line.single;
  if (likely && std::isfinite(*likely)) {
    painter.setPen(QPen(tones.accent, 4));
    painter.drawLine(QPointF(xOf(*likely), top + 1), QPointF(xOf(*likely), bottom - 1));
  }
  if (m_line.limit) {
    painter.setPen(QPen(tones.ink, 2));
    painter.drawLine(QPointF(xOf(*m_line.limit), top - 2), QPointF(xOf(*m_line.limit), bottom + 1));
  }
}

}  // namespace bw

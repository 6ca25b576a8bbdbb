// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/colour_bar.h"

#include "ui/style/format.h"

#include <QCoreApplication>

namespace bw {

QRectF ColourBar::place(const QRectF& axisRect) { return {axisRect.right() + 42, axisRect.top() + 30, 14, axisRect.height() - 30}; }

double ColourBar::yOf(const QRectF& axisRect, double value) const {
  const QRectF bar = place(axisRect);
  return bar.bottom() - bar.height() * (value - range.lower) / range.size();
}

void ColourBar::paint(QPainter& painter, const QRectF& axisRect, const Tones& tones) const {
  const QRectF bar = place(axisRect);
  QLinearGradient fill(bar.bottomLeft(), bar.topLeft());
  const QMap<double, QColor> stops = gradient.colorStops();
  for (auto stop = stops.begin(); stop != stops.end(); ++stop) fill.setColorAt(stop.key(), stop.value());
  painter.setPen(Qt::NoPen);
  painter.setBrush(fill);
  painter.drawRect(bar);
  painter.setPen(tones.quiet);
  painter.drawText(QRectF(bar.left(), axisRect.top() - 4, 70, 16), Qt::AlignLeft | Qt::AlignVCenter, unit);
  if (most) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(stops.last());
    painter.drawPolygon(QPolygonF{bar.topLeft(), QPointF(bar.center().x(), bar.top() - 10), bar.topRight()});
    painter.setPen(tones.quiet);
    painter.drawText(QRectF(bar.right() + 4, bar.top() - 15, 60, 14), Qt::AlignLeft | Qt::AlignVCenter,
                     QCoreApplication::translate("DoseMapPlot", "to %1").arg(format::number(*most)));
  }
  paintTicks(painter, axisRect, tones);
}

void ColourBar::paintTicks(QPainter& painter, const QRectF& axisRect, const Tones& tones) const {
  const QRectF bar = place(axisRect);
  QCPAxisTicker ticker;
  ticker.setTickCount(4);
  QVector<double> ticks;
  ticker.generate(range, QLocale(), 'g', 4, ticks, nullptr, nullptr);
  for (const double tick : ticks) {
    if (tick < range.lower || tick > range.upper) continue;
    const double y = yOf(axisRect, tick);
    if (most && y < bar.top() + 10) continue;  // the note on the clipped top stands there
    painter.setPen(tones.line);
    painter.drawLine(QPointF(bar.right(), y), QPointF(bar.right() + 4, y));
    painter.setPen(tones.quiet);
    painter.drawText(QRectF(bar.right() + 7, y - 8, 44, 16), Qt::AlignLeft | Qt::AlignVCenter, QLocale().toString(tick, 'g', 4));
  }
}

}  // namespace bw

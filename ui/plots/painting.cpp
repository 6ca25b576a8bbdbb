// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/painting.h"

#include "ui/style/hatch.h"
#include "ui/style/theme.h"

namespace bw {

namespace {

Qt::PenStyle styleOf(KeyEntry::Mark mark) {
  if (mark == KeyEntry::Mark::DashedLine) return Qt::DashLine;
  return mark == KeyEntry::Mark::DottedLine ? Qt::DotLine : Qt::SolidLine;
}

void paintMark(QPainter& painter, const QRectF& box, const KeyEntry& entry) {
  QPainterPath area;
  area.addRect(box);
  switch (entry.mark) {
    case KeyEntry::Mark::Line:
    case KeyEntry::Mark::DashedLine:
    case KeyEntry::Mark::DottedLine:
      painter.setPen(QPen(entry.colour, 2, styleOf(entry.mark)));
      painter.drawLine(QPointF(box.left(), box.center().y()), QPointF(box.right(), box.center().y()));
      break;
    case KeyEntry::Mark::Area: painter.fillPath(area, entry.colour); break;
    case KeyEntry::Mark::HatchedArea: paintHatch(painter, area, Hatch::Diagonal, entry.colour); break;
  }
}

}  // namespace

void paintKey(QPainter& painter, const QRectF& axisRect, const std::vector<KeyEntry>& entries, const QColor& ink) {
  constexpr double markWidth = 18, markHeight = 10, height = 18;
  const QFontMetricsF metrics(painter.font());
  double x = axisRect.left();
  const double y = axisRect.top() - height - space::small;
  for (const KeyEntry& entry : entries) {
    const double width = markWidth + space::small + metrics.horizontalAdvance(entry.text);
    if (x + width > axisRect.right() + space::wide) break;
    paintMark(painter, QRectF(x, y + (height - markHeight) / 2, markWidth, markHeight), entry);
    painter.setPen(ink);
    painter.drawText(QRectF(x + markWidth + space::small, y, width, height), Qt::AlignLeft | Qt::AlignVCenter, entry.text);
    x += width + space::wide;
  }
}

QRectF paintLabel(QPainter& painter, const QRectF& box, Qt::Alignment alignment, const QString& text, const QColor& ink,
                  const QColor& plate) {
  const QRectF used = painter.boundingRect(box, static_cast<int>(alignment), text).adjusted(-3, 0, 3, 0);
  QColor ground = plate;
  ground.setAlphaF(0.86F);
  painter.setPen(Qt::NoPen);
  painter.setBrush(ground);
  painter.drawRoundedRect(used, 2, 2);
  painter.setPen(ink);
  painter.drawText(used, Qt::AlignCenter, text);
  return used;
}

}  // namespace bw

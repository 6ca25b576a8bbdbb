// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/painting.h"

#include "ui/style/hatch.h"
#include "ui/style/theme.h"

#include <cmath>

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

namespace {

constexpr double markWidth = 18, markHeight = 10, rowHeight = 18;

/// Left edge and row of each entry.
std::vector<QPointF> keyPlaces(const QFontMetricsF& metrics, double width, const std::vector<KeyEntry>& entries) {
  std::vector<QPointF> made;
  double x = 0, row = 0;
  for (const KeyEntry& entry : entries) {
    const double needed = markWidth + space::small + metrics.horizontalAdvance(entry.text);
    if (x > 0 && x + needed > width) {
      x = 0;
      ++row;
    }
    made.emplace_back(x, row);
    x += needed + space::wide;
  }
  return made;
}

}  // namespace

int keyRows(const QFont& font, double width, const std::vector<KeyEntry>& entries) {
  return entries.empty() ? 0 : static_cast<int>(keyPlaces(QFontMetricsF(font), width, entries).back().y()) + 1;
}

void paintKey(QPainter& painter, const QRectF& axisRect, const std::vector<KeyEntry>& entries, const QColor& ink) {
  const QFontMetricsF metrics(painter.font());
  const std::vector<QPointF> places = keyPlaces(metrics, axisRect.width() + space::wide, entries);
  const double room = std::max(1.0, std::floor((axisRect.top() - space::small) / rowHeight));  // in rows
  const double rows = places.empty() ? 0 : std::min(room, places.back().y() + 1);
  for (std::size_t i = 0; i < entries.size() && places[i].y() < rows; ++i) {
    const double x = axisRect.left() + places[i].x(), y = axisRect.top() - space::small - rowHeight * (rows - places[i].y());
    paintMark(painter, QRectF(x, y + (rowHeight - markHeight) / 2, markWidth, markHeight), entries[i]);
    painter.setPen(ink);
    painter.drawText(QRectF(x + markWidth + space::small, y, axisRect.width(), rowHeight), Qt::AlignLeft | Qt::AlignVCenter,
                     entries[i].text);
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

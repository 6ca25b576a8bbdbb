// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/map_marks.h"

#include "ui/plots/painting.h"
#include "ui/style/format.h"

#include <algorithm>

namespace bw {

namespace {

struct MapMarkWords {
  Q_DECLARE_TR_FUNCTIONS(MapMarkWords)
};

constexpr double thumbWidth_mm = 20;  // an adult's, across the nail's root; common knowledge, no source

/// A plate of the ground's colour, so that marks stay readable over the map.
void paintPlate(QPainter& painter, const QRectF& plate, const Tones& tones) {
  QColor ground = tones.sheet;
  ground.setAlphaF(0.86F);
  painter.setPen(Qt::NoPen);
  painter.setBrush(ground);
  painter.drawRoundedRect(plate, 2, 2);
}

}  // namespace

void paintThumb(QPainter& painter, const QRectF& box, double pixelsPerMm, const Tones& tones) {
  const double width = thumbWidth_mm * pixelsPerMm;
  const double height = std::min(1.5 * width, 0.62 * box.height());
  if (width < 40 || width > 0.6 * box.width() || height < 0.45 * width) return;
  const QRectF shape(box.right() - width * 1.12, box.bottom() - height, width, 3 * width);
  QPainterPath outline, nail;
  outline.addRoundedRect(shape, width * 0.48, width * 0.55);
  const QRectF plate = QRectF(shape.left() + width * 0.2, shape.top() + width * 0.1, width * 0.6, width * 0.62);
  nail.addRoundedRect(plate, width * 0.26, width * 0.26);
  QColor halo = tones.sheet;
  halo.setAlphaF(0.7F);
  painter.setBrush(Qt::NoBrush);
  for (const QPen& pen : {QPen(halo, 3), QPen(tones.ink, 1)}) {
    painter.setPen(pen);
    painter.drawPath(outline);
    painter.drawPath(nail);
  }
  const QRectF label(shape.left(), box.bottom() - 22, width, 18);
  paintLabel(painter, label, Qt::AlignCenter, MapMarkWords::tr("a thumb, 20 mm"), tones.ink, tones.sheet);
}

void paintScaleBar(QPainter& painter, const QRectF& box, double pixelsPerMm, double most, const Tones& tones) {
  double length_mm = 0;
  for (const double candidate : {0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0}) {
    if (candidate * pixelsPerMm <= most) length_mm = candidate;
  }
  if (length_mm <= 0) return;
  const double length = length_mm * pixelsPerMm;
  const QRectF plate(box.left() + 8, box.bottom() - 30, std::max(length, 44.0) + 12, 24);
  paintPlate(painter, plate, tones);
  painter.setPen(QPen(tones.ink, 2));
  const double left = plate.center().x() - length / 2, y = plate.bottom() - 5;
  painter.drawLine(QPointF(left, y), QPointF(left + length, y));
  painter.drawLine(QPointF(left, y - 3), QPointF(left, y + 2));
  painter.drawLine(QPointF(left + length, y - 3), QPointF(left + length, y + 2));
  painter.drawText(plate.adjusted(0, 1, 0, -7), Qt::AlignHCenter | Qt::AlignTop,
                   QLocale().toString(length_mm) + QStringLiteral("\u00a0mm"));
}

void paintTravel(QPainter& painter, const QRectF& box, const Tones& tones) {
  const QRectF plate(box.left() + 8, box.top() + 8, 26, 26);
  paintPlate(painter, plate, tones);
  const QPointF tip(plate.center().x(), plate.top() + 5);
  painter.setPen(QPen(tones.ink, 2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  painter.setBrush(Qt::NoBrush);
  painter.drawLine(tip, QPointF(tip.x(), plate.bottom() - 5));
  painter.drawPolyline(QPolygonF{tip + QPointF(-5, 6), tip, tip + QPointF(5, 6)});
  paintLabel(painter, QRectF(plate.right() + 2, plate.top(), 120, plate.height()), Qt::AlignLeft | Qt::AlignVCenter,
             MapMarkWords::tr("travel"), tones.ink, tones.sheet);
}

}  // namespace bw

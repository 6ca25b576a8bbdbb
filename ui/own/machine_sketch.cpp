// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/machine_sketch.h"

#include "ui/style/format.h"
#include "ui/style/theme.h"

#include <QPainter>

#include <cmath>

namespace bw {

namespace {

constexpr double textRow = 17;
constexpr double tick = 3;

void paintScaleBar(QPainter& painter, const QPointF& left, double scale, double room, const Tones& tones) {
  const double length_m = roundLength_m(room / scale);
  const QPointF right = left + QPointF(length_m * scale, 0);
  painter.setPen(QPen(tones.ink, 1));
  painter.drawLine(left, right);
  for (const QPointF& end : {left, right}) painter.drawLine(end - QPointF(0, tick), end + QPointF(0, tick));
  painter.drawText(QRectF(left.x(), left.y() + tick + 1, std::max(room, 70.0), textRow), Qt::AlignLeft | Qt::AlignTop,
                   format::length(length_m));
}

}  // namespace

double roundLength_m(double most_m) {
  const double ten = std::pow(10, std::floor(std::log10(most_m)));
  for (const double step : {5.0, 2.0}) {
    if (step * ten <= most_m) return step * ten;
  }
  return ten;
}

MachineSketch::MachineSketch(QWidget* parent) : QWidget(parent) { setMinimumSize(260, 170); }

void MachineSketch::setMachine(const Machine& machine) {
  m_machine = machine;
  setAccessibleName(tr("Spot and frame. %1. Spot %2").arg(frameWords(), format::length(machine.spotDiameter_m)));
  update();
}

QString MachineSketch::frameWords() const {
  const ScanHead& scan = m_machine.scan;
  if (scan.maxHeight_m <= 0) return tr("Line %1 mm").arg(format::number(scan.maxWidth_m * 1e3));
  return tr("Frame %1 × %2 mm").arg(format::number(scan.maxWidth_m * 1e3), format::number(scan.maxHeight_m * 1e3));
}

void MachineSketch::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const Tones tones = tonesOf(palette());
  QFont font = this->font();
  font.setPixelSize(space::leastFont);
  painter.setFont(font);
  painter.setPen(QPen(tones.line, 1));
  painter.setBrush(tones.sheet);
  painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), space::small, space::small);
  const QRectF inside = QRectF(rect()).adjusted(space::medium, space::small, -space::medium, -space::small);
  const double lens = std::min(inside.height() - 2 * textRow - 14, inside.width() * 0.36);
  paintFrame(painter, inside.adjusted(0, 0, -lens - space::large, 0));
  paintSpot(painter, QRectF(inside.right() - lens, inside.top(), lens, inside.height()));
}

/// Frame, spot and bar at one scale.
void MachineSketch::paintFrame(QPainter& painter, const QRectF& box) const {
  const Tones tones = tonesOf(palette());
  const ScanHead& scan = m_machine.scan;
  painter.setPen(tones.ink);
  painter.drawText(QRectF(box.left(), box.top(), box.width(), textRow), Qt::AlignLeft | Qt::AlignVCenter,
                   painter.fontMetrics().elidedText(frameWords(), Qt::ElideRight, static_cast<int>(box.width())));
  const QRectF room = box.adjusted(0, textRow + 2, -2, -textRow - 12);
  if (!(scan.maxWidth_m > 0) || room.height() <= 0) return;
  const double scale = std::min(room.width() / scan.maxWidth_m, scan.maxHeight_m > 0 ? room.height() / scan.maxHeight_m : 1e9);
  const QSizeF size(scan.maxWidth_m * scale, std::max(scan.maxHeight_m, 0.0) * scale);
  const QRectF frame(QPointF(room.left(), room.center().y() - size.height() / 2), size);
  painter.setPen(QPen(tones.accent, 1.5));
  painter.setBrush(blend(tones.sheet, tones.line, 0.3));
  if (scan.maxHeight_m > 0)
    painter.drawRect(frame);
  else
    painter.drawLine(frame.topLeft(), frame.topRight());
  painter.setPen(Qt::NoPen);
  painter.setBrush(tones.ink);
  const double spot = std::max(1.5, m_machine.spotDiameter_m * scale) / 2;  // smaller could not be seen
  painter.drawEllipse(frame.center(), spot, spot);
  paintScaleBar(painter, QPointF(box.left() + 1, box.bottom() - textRow - 4), scale, box.width() * 0.5, tones);
}

void MachineSketch::paintSpot(QPainter& painter, const QRectF& box) const {
  const Tones tones = tonesOf(palette());
  painter.setPen(tones.ink);
  painter.drawText(QRectF(box.left(), box.top(), box.width(), textRow), Qt::AlignLeft | Qt::AlignVCenter,
                   tr("Spot %1").arg(format::length(m_machine.spotDiameter_m)));
  const double side = std::min(box.width(), box.height() - 2 * textRow - 14);
  if (side <= 0 || !(m_machine.spotDiameter_m > 0)) return;
  const QRectF lens(box.left(), box.top() + textRow + 2, side, side);
  const double scale = side * 0.7 / m_machine.spotDiameter_m;
  painter.setPen(QPen(tones.quiet, 1));
  painter.setBrush(blend(tones.sheet, tones.line, 0.3));
  painter.drawEllipse(lens.adjusted(0.5, 0.5, -0.5, -0.5));
  QColor fill = tones.accent;
  fill.setAlphaF(0.25F);
  painter.setPen(QPen(tones.accent, 1.5));
  painter.setBrush(fill);
  painter.drawEllipse(lens.center(), side * 0.35, side * 0.35);
  painter.setBrush(Qt::NoBrush);
  paintScaleBar(painter, QPointF(box.left() + 1, box.bottom() - textRow - 4), scale, side * 0.8, tones);
}

}  // namespace bw

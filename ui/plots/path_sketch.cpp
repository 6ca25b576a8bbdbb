// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/path_sketch.h"

#include "ui/style/format.h"
#include "ui/style/theme.h"

#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr double textHeight = 16;
constexpr double arrowLength = 26;

QRectF extentOf(const std::vector<PathPoint>& path) {
  double left = path.front().x_m, right = left, low = path.front().y_m, high = low;
  for (const PathPoint& point : path) {
    left = std::min(left, point.x_m);
    right = std::max(right, point.x_m);
    low = std::min(low, point.y_m);
    high = std::max(high, point.y_m);
  }
  return QRectF(left, low, right - left, high - low);
}

void paintArrow(QPainter& painter, QPointF tail, double angle_rad) {
  const QPointF along(std::cos(angle_rad), -std::sin(angle_rad)), aside(-along.y(), along.x());
  const QPointF tip = tail + along * arrowLength;
  painter.drawLine(tail, tip);
  painter.drawPolyline(QPolygonF{tip - along * 7 + aside * 4, tip, tip - along * 7 - aside * 4});
}

}  // namespace

PathSketch::PathSketch(QWidget* parent) : QWidget(parent) {
  setMinimumSize(220, 150);
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Preferred);
  setAssessment(nullptr);
}

QSize PathSketch::sizeHint() const { return {280, 180}; }

void PathSketch::setProject(const Project& project) {
  m_project = project;
  describe();
  update();
}

void PathSketch::setAssessment(std::shared_ptr<const Assessment> assessment) {
  m_assessment = std::move(assessment);
  m_stale = false;
  describe();
  update();
}

void PathSketch::describe() { setAccessibleName(tr("Scan frame and beam. %1").arg(captions().join(QStringLiteral(". ")))); }

void PathSketch::setStale(bool stale) {
  m_stale = stale;
  update();
}

const Settings* PathSketch::settings() const {
  const Plan* plan = m_assessment == nullptr ? nullptr : findPlan(m_project, m_assessment->plan);
  if (plan == nullptr) return nullptr;
  return plan->steps.empty() ? &plan->settings : &plan->steps.front().settings;
}

QStringList PathSketch::captions() const {
  if (m_assessment == nullptr || m_assessment->path.empty()) return {};
  const QRectF extent = extentOf(m_assessment->path);
  const QSizeF size = settings() != nullptr ? QSizeF(settings()->width_m, settings()->height_m) : extent.size();
  const QString frame = tr("Frame %1 × %2 mm").arg(format::number(size.width() * 1e3), format::number(size.height() * 1e3));
  const QString spot =
      tr("Spot %1, lines %2 apart")
          .arg(format::micrometres(m_assessment->beam.spotDiameter_m), format::micrometres(m_assessment->overlap.lineSpacing_m));
  QStringList made{frame + tr(", beam on %1 of it").arg(format::percent(m_assessment->overlap.litFraction)), spot};
  made << (m_assessment->overlap.pulseStep_m
               ? tr("Pulses %1 apart along the line").arg(format::micrometres(*m_assessment->overlap.pulseStep_m))
               : tr("Continuous along the line"));
  return made;
}

void PathSketch::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  QFont font = this->font();
  font.setPixelSize(space::leastFont);
  painter.setFont(font);
  const Tones tones = tonesOf(palette());
  painter.setPen(QPen(tones.line, 1));
  painter.setBrush(tones.sheet);
  painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), space::small, space::small);
  const QRectF inside = QRectF(rect()).adjusted(space::medium, space::medium, -space::medium, -space::small);
  if (m_assessment == nullptr || m_assessment->path.empty()) {
    painter.setPen(tones.quiet);
    painter.drawText(inside, Qt::AlignCenter | Qt::TextWordWrap,
                     tr("No path yet. Set the frame's width and height, the line spacing and the scan speed."));
    return;
  }
  const double lens = std::min(inside.height() - 3 * textHeight - space::medium, inside.width() * 0.38);
  const QRectF magnified(inside.right() - lens, inside.top(), lens, lens);
  paintFrame(painter, QRectF(inside.left(), inside.top(), inside.width() - lens - space::large, lens));
  paintSpots(painter, magnified);
  const QStringList lines = captions();
  painter.setPen(tones.ink);
  for (int i = 0; i < lines.size(); ++i) {
    const QRectF row(inside.left(), inside.bottom() - textHeight * static_cast<double>(lines.size() - i), inside.width(), textHeight);
    painter.drawText(row, Qt::AlignLeft | Qt::AlignVCenter, QFontMetricsF(font).elidedText(lines[i], Qt::ElideRight, row.width()));
  }
  if (!m_stale) return;
  QColor veil = tones.sheet;
  veil.setAlphaF(0.6F);
  painter.fillRect(rect(), veil);
}

/// The whole frame at true proportion, the beam's spot in it at true size, and which way the hand moves.
void PathSketch::paintFrame(QPainter& painter, const QRectF& box) const {
  const Tones tones = tonesOf(palette());
  const auto& path = m_assessment->path;
  const QRectF extent = extentOf(path);
  const QRectF room = box.adjusted(arrowLength + 2, 4, -4, -4);
  const double scale = std::min(room.width() / std::max(extent.width(), 1e-6), room.height() / std::max(extent.height(), 1e-6));
  const QPointF middle = room.center(), origin = extent.center();
  const auto at = [&](const PathPoint& point) { return middle + QPointF(point.x_m - origin.x(), origin.y() - point.y_m) * scale; };
  QPainterPath lit, dark;
  for (std::size_t i = 1; i < path.size(); ++i) {
    QPainterPath& line = path[i - 1].lit ? lit : dark;
    const QPointF from = at(path[i - 1]);
    if (line.isEmpty() || line.currentPosition() != from) line.moveTo(from);
    line.lineTo(at(path[i]));
  }
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(tones.accent, 1));
  painter.drawPath(lit);
  painter.setPen(QPen(tones.quiet, 1, Qt::DotLine));
  painter.drawPath(dark);
  paintTurns(painter, extent, at);
  const double spot = std::max(1.5, m_assessment->beam.spotDiameter_m * scale);
  painter.setPen(Qt::NoPen);
  painter.setBrush(tones.ink);
  painter.drawEllipse(at(path.front()), spot / 2 + 0.5, spot / 2 + 0.5);
  painter.setPen(QPen(tones.ink, 2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  const double angle = settings() != nullptr ? settings()->travelAngle_rad : Settings{}.travelAngle_rad;
  const QPointF centre(box.left() + arrowLength / 2, box.center().y());
  paintArrow(painter, centre - QPointF(std::cos(angle), -std::sin(angle)) * (arrowLength / 2), angle);
}

/// A bar along each end where the head reverses: filled where the beam stays on, open where it is off.
void PathSketch::paintTurns(QPainter& painter, const QRectF& extent, const std::function<QPointF(const PathPoint&)>& at) const {
  const Tones tones = tonesOf(palette());
  bool burning = false;
  for (const PathPoint& point : m_assessment->path)
    burning = burning || (point.lit && std::abs(point.x_m - extent.center().x()) > extent.width() * 0.4999);
  for (const double x : {extent.left(), extent.right()}) {
    const QPointF top = at({x, extent.bottom(), false}), bottom = at({x, extent.top(), false});
    painter.setPen(QPen(burning ? tones.ink : tones.quiet, burning ? 3 : 1, burning ? Qt::SolidLine : Qt::DotLine));
    painter.drawLine(top, bottom);
  }
}

/// Spots as they fall, magnified: along the lines at the pulse step, from line to line at the spacing.
void PathSketch::paintSpots(QPainter& painter, const QRectF& box) const {
  const Tones tones = tonesOf(palette());
  const double spot = m_assessment->beam.spotDiameter_m, spacing = m_assessment->overlap.lineSpacing_m;
  const double step = m_assessment->overlap.pulseStep_m.value_or(0);
  const double field = 3.2 * std::max({spot, spacing, step});
  const double scale = box.width() / field;
  QPainterPath lens;
  lens.addEllipse(box.adjusted(1, 1, -1, -1));
  painter.save();
  painter.setClipPath(lens);
  painter.fillPath(lens, blend(tones.sheet, tones.line, 0.3));
  QColor fill = tones.accent;
  fill.setAlphaF(0.12F);
  for (int line = -3; line <= 3 && spacing > 0; ++line) {
    const double y = box.center().y() - line * spacing * scale;
    if (std::abs(y - box.center().y()) > box.height() / 2 + spot * scale) continue;
    painter.setPen(QPen(tones.quiet, 1, Qt::DotLine));
    painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
    painter.setBrush(fill);
    painter.setPen(QPen(tones.accent, 1));
    const int reach = step > 0 ? std::min(60, static_cast<int>((field / 2 + spot) / step)) : 0;
    for (int pulse = -reach; pulse <= reach; ++pulse)
      painter.drawEllipse(box.center() + QPointF(pulse * step * scale, y - box.center().y()), spot * scale / 2, spot * scale / 2);
  }
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(tones.ink, 2));
  painter.drawEllipse(box.center(), spot * scale / 2, spot * scale / 2);
  painter.restore();
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(tones.quiet, 1));
  painter.drawPath(lens);
}

}  // namespace bw

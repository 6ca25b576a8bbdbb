// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/path_sketch.h"

#include "core/scan/frame.h"
#include "ui/fields/icon.h"
#include "ui/style/format.h"
#include "ui/style/theme.h"

#include <QEvent>
#include <QPainter>
#include <QPainterPath>
#include <QStyle>
#include <QToolButton>
#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr double textHeight = 16;
constexpr double arrowLength = 26;
constexpr double shownFrame_s = 6;  // how long the dot takes for a frame
constexpr int picture_ms = 33;

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

PathPoint alongPath(const std::vector<PathPoint>& path, double time_s) {
  const auto next = std::ranges::upper_bound(path, time_s, {}, &PathPoint::time_s);
  if (next == path.begin()) return path.front();
  if (next == path.end()) return path.back();
  const PathPoint& before = *std::prev(next);
  const double share = (time_s - before.time_s) / (next->time_s - before.time_s);
  return {before.x_m + share * (next->x_m - before.x_m), before.y_m + share * (next->y_m - before.y_m), before.lit, time_s};
}

PathSketch::PathSketch(QWidget* parent) : QWidget(parent), m_play(new QToolButton(this)) {
  setMinimumSize(220, 150);
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Preferred);
  m_play->setObjectName(QStringLiteral("playPath"));
  m_play->setIcon(lineIcon(QStringLiteral("play")));
  m_play->setCheckable(true);
  m_play->setAutoRaise(true);
  m_play->setAccessibleName(tr("Run along the path slowly"));
  m_play->setGeometry(space::small, space::small, 22, 22);
  connect(m_play, &QToolButton::toggled, this, &PathSketch::play);
  m_frames.setInterval(picture_ms);
  connect(&m_frames, &QTimer::timeout, this, qOverload<>(&QWidget::update));
  setAssessment(nullptr);
}

QSize PathSketch::sizeHint() const { return {280, 180}; }

void PathSketch::setProject(const Project& project) {
  m_project = project;
  describe();
  redraw();
}

void PathSketch::setAssessment(std::shared_ptr<const Assessment> assessment) {
  m_assessment = std::move(assessment);
  m_stale = false;
  describe();
  allowPlaying();
  redraw();
}

/// Not where the desktop asks for no animation: its style then gives animations no time.
void PathSketch::allowPlaying() {
  const bool still = style()->styleHint(QStyle::SH_Widget_Animation_Duration, nullptr, this) == 0;
  const bool runs = hasPath() && m_assessment->path.back().time_s > 0;
  m_play->setVisible(runs);
  m_play->setEnabled(!still);
  m_play->setToolTip(still ? tr("Shows how the head moves; off because this desktop asks for no animation.")
                           : tr("Shows how the head moves, so slowly that one frame takes six seconds."));
  if (still || !runs) m_play->setChecked(false);
}

void PathSketch::play(bool on) {
  if (on) {
    m_clock.start();
    m_frames.start();
  } else {
    m_frames.stop();
  }
  redraw();
}

void PathSketch::hideEvent(QHideEvent* event) {
  m_play->setChecked(false);
  QWidget::hideEvent(event);
}

void PathSketch::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::StyleChange) allowPlaying();
  redraw();
}

QString PathSketch::paceCaption() const {
  const double stretched = shownFrame_s / m_assessment->path.back().time_s;
  if (stretched > 1.05) return tr("Shown %1 times slower than it runs").arg(format::number(stretched));
  return stretched < 0.95 ? tr("Shown %1 times faster than it runs").arg(format::number(1 / stretched)) : tr("Shown as fast as it runs");
}

void PathSketch::redraw() {
  m_picture = {};
  update();
}

void PathSketch::describe() { setAccessibleName(tr("Scan frame and beam. %1").arg(captions().join(QStringLiteral(". ")))); }

void PathSketch::setStale(bool stale) {
  m_stale = stale;
  redraw();
}

const Settings* PathSketch::settings() const {
  const Plan* plan = m_assessment == nullptr ? nullptr : findPlan(m_project, m_assessment->plan);
  if (plan == nullptr) return nullptr;
  return plan->steps.empty() ? &plan->settings : &plan->steps.front().settings;
}

Pattern PathSketch::pattern() const { return settings() != nullptr ? settings()->pattern : Settings{}.pattern; }

/// 0 where one line has no neighbours.
double PathSketch::lineSpacing_m() const { return needsTwoAxes(pattern()) ? m_assessment->overlap.lineSpacing_m : 0; }

QStringList PathSketch::captions() const {
  if (!hasPath()) return {};
  const QString spot = tr("Spot %1").arg(format::micrometres(m_assessment->beam.spotDiameter_m));
  QStringList made{frameCaption() + tr(", beam on %1 of it").arg(format::percent(m_assessment->overlap.litFraction)), spot};
  if (lineSpacing_m() > 0)
    made[1] += (isRound(pattern()) ? tr(", rings %1 apart") : tr(", lines %1 apart")).arg(format::micrometres(lineSpacing_m()));
  made << (m_assessment->overlap.pulseStep_m
               ? tr("Pulses %1 apart along the line").arg(format::micrometres(*m_assessment->overlap.pulseStep_m))
               : tr("Continuous along the line"));
  return made;
}

QString PathSketch::frameCaption() const {
  const QRectF extent = extentOf(m_assessment->path);
  const QSizeF size = settings() != nullptr ? QSizeF(settings()->width_m, settings()->height_m) : extent.size();
  const QString width = format::number(size.width() * 1e3);
  if (isRound(pattern())) return tr("Disc %1 mm across").arg(width);
  return hasHeight(pattern()) ? tr("Frame %1 × %2 mm").arg(width, format::number(size.height() * 1e3)) : tr("Line %1 mm long").arg(width);
}

void PathSketch::paintEvent(QPaintEvent*) {
  const QSize pixels = (QSizeF(size()) * devicePixelRatioF()).toSize();
  if (m_picture.size() != pixels) {
    m_picture = QPixmap(pixels);
    m_picture.setDevicePixelRatio(devicePixelRatioF());
    m_picture.fill(Qt::transparent);
    QPainter drawing(&m_picture);
    paintPicture(drawing);
  }
  QPainter painter(this);
  painter.drawPixmap(0, 0, m_picture);
  if (isPlaying()) paintHead(painter);
}

/// Everything that stands still.
void PathSketch::paintPicture(QPainter& painter) const {
  painter.setRenderHint(QPainter::Antialiasing);
  QFont font = this->font();
  font.setPixelSize(space::leastFont);
  painter.setFont(font);
  const Tones tones = tonesOf(palette());
  painter.setPen(QPen(tones.line, 1));
  painter.setBrush(tones.sheet);
  painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), space::small, space::small);
  const QRectF inside = QRectF(rect()).adjusted(space::medium, space::medium, -space::medium, -space::small);
  if (!hasPath()) {
    painter.setPen(tones.quiet);
    painter.drawText(inside, Qt::AlignCenter | Qt::TextWordWrap,
                     tr("No path yet. Set the frame's width and height, the line spacing and the scan speed."));
    return;
  }
  const QRectF frame = frameBox();
  const QRectF magnified(inside.right() - frame.height(), inside.top(), frame.height(), frame.height());
  paintFrame(painter, frame);
  paintSpots(painter, magnified);
  QStringList lines = captions();
  if (isPlaying()) lines[0] = paceCaption();
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

QRectF PathSketch::frameBox() const {
  const QRectF inside = QRectF(rect()).adjusted(space::medium, space::medium, -space::medium, -space::small);
  const double lens = std::min(inside.height() - 3 * textHeight - space::medium, inside.width() * 0.38);
  return QRectF(inside.left(), inside.top(), inside.width() - lens - space::large, lens);
}

PathSketch::View PathSketch::view() const {
  const QRectF extent = extentOf(m_assessment->path), room = frameBox().adjusted(arrowLength + 2, 4, -4, -4);
  const double scale = std::min(room.width() / std::max(extent.width(), 1e-6), room.height() / std::max(extent.height(), 1e-6));
  return {extent, room.center(), scale};
}

QPointF PathSketch::View::at(const PathPoint& point) const {
  return middle + QPointF(point.x_m - extent.center().x(), extent.center().y() - point.y_m) * scale;
}

/// The whole frame at true proportion, the beam's spot in it at true size, and which way the hand moves.
void PathSketch::paintFrame(QPainter& painter, const QRectF& box) const {
  const Tones tones = tonesOf(palette());
  const auto& path = m_assessment->path;
  const View shown = view();
  QPainterPath lit, dark;
  for (std::size_t i = 1; i < path.size(); ++i) {
    QPainterPath& line = path[i - 1].lit ? lit : dark;
    const QPointF from = shown.at(path[i - 1]);
    if (line.isEmpty() || line.currentPosition() != from) line.moveTo(from);
    line.lineTo(shown.at(path[i]));
  }
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(tones.accent, lineSpacing_m() > 0 ? std::clamp(lineSpacing_m() * shown.scale / 2, 0.15, 1.0) : 1.0));
  painter.drawPath(lit);
  painter.setPen(QPen(tones.quiet, 1, Qt::DotLine));
  painter.drawPath(dark);
  if (!isRound(pattern())) paintTurns(painter, shown);
  const double spot = std::max(1.5, m_assessment->beam.spotDiameter_m * shown.scale);
  painter.setPen(Qt::NoPen);
  painter.setBrush(tones.ink);
  painter.drawEllipse(shown.at(path.front()), spot / 2 + 0.5, spot / 2 + 0.5);
  painter.setPen(QPen(tones.ink, 2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  const double angle = settings() != nullptr ? settings()->travelAngle_rad : Settings{}.travelAngle_rad;
  const QPointF centre(box.left() + arrowLength / 2, box.center().y());
  paintArrow(painter, centre - QPointF(std::cos(angle), -std::sin(angle)) * (arrowLength / 2), angle);
}

/// The moving dot: full while the beam is on, a ring while it is off.
void PathSketch::paintHead(QPainter& painter) const {
  const Tones tones = tonesOf(palette());
  const double end = m_assessment->path.back().time_s;
  const double share = std::fmod(static_cast<double>(m_clock.elapsed()) / 1e3 / shownFrame_s, 1);
  const PathPoint head = alongPath(m_assessment->path, share * end);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(tones.ink, 1.5));
  painter.setBrush(head.lit ? tones.ink : tones.sheet);
  painter.drawEllipse(view().at(head), 4, 4);
}

/// A bar along each end where the head reverses: filled where the beam stays on, open where it is off.
void PathSketch::paintTurns(QPainter& painter, const View& shown) const {
  const Tones tones = tonesOf(palette());
  const QRectF& extent = shown.extent;
  bool burning = false;
  for (const PathPoint& point : m_assessment->path)
    burning = burning || (point.lit && std::abs(point.x_m - extent.center().x()) > extent.width() * 0.4999);
  for (const double x : {extent.left(), extent.right()}) {
    const QPointF top = shown.at({x, extent.bottom(), false}), bottom = shown.at({x, extent.top(), false});
    painter.setPen(QPen(burning ? tones.ink : tones.quiet, burning ? 3 : 1, burning ? Qt::SolidLine : Qt::DotLine));
    painter.drawLine(top, bottom);
  }
}

/// Spots as they fall, magnified: along the lines at the pulse step, from line to line at the spacing.
void PathSketch::paintSpots(QPainter& painter, const QRectF& box) const {
  const Tones tones = tonesOf(palette());
  const double spot = m_assessment->beam.spotDiameter_m, spacing = lineSpacing_m();
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
  const int sides = spacing > 0 ? 3 : 0;
  for (int line = -sides; line <= sides; ++line) {
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

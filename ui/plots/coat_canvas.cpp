// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/coat_canvas.h"

#include "ui/plots/painting.h"
#include "ui/style/format.h"
#include "ui/style/hatch.h"
#include "ui/style/theme.h"

#include <QHelpEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QPainterPath>
#include <QToolTip>
#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr double leastHeight_px = 18;  // room for one label
constexpr double metalHeight_px = 30;
constexpr double top_px = 8;
constexpr double bodyShare = 0.42;  // of the width; the rest is for names
constexpr double reach_px = 5;
constexpr double thinnest_m = 1e-6, thickest_m = 5e-3;

}  // namespace

CoatCanvas::CoatCanvas(QWidget* parent) : QWidget(parent) {
  setMouseTracking(true);
  setFocusPolicy(Qt::StrongFocus);
  setMinimumSize(200, 150);
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
}

QSize CoatCanvas::sizeHint() const {
  return {280, static_cast<int>(top_px + metalHeight_px + std::max(4, layers()) * leastHeight_px * 1.9)};
}

void CoatCanvas::setCoat(const Project& project) {
  m_project = project;
  if (m_selected >= layers()) m_selected = -1;
  layOut();
  describe();
  updateGeometry();
  update();
}

void CoatCanvas::setAssessment(std::shared_ptr<const Assessment> assessment) {
  m_assessment = std::move(assessment);
  m_stale = false;
  update();
}

void CoatCanvas::setStale(bool stale) {
  m_stale = stale;
  update();
}

void CoatCanvas::setPass(int pass) {
  m_pass = pass;
  update();
}

void CoatCanvas::setCut(std::optional<double> depth_m) {
  m_cut_m = depth_m;
  update();
}

void CoatCanvas::select(int layer) {
  const int kept = layers() == 0 ? -1 : std::clamp(layer, -1, layers() - 1);
  if (kept == m_selected) return;
  m_selected = kept;
  describe();
  update();
  emit layerSelected(kept);
}

/// To scale, except that no layer is lower than its label; the scale is the largest at which all of it fits. While a boundary
/// is dragged the scale stands still, else the boundary would run away from the pointer.
void CoatCanvas::layOut() {
  const double room = std::max(0.0, height() - top_px - metalHeight_px);
  std::vector<double> thickness;
  for (const Layer& layer : m_project.coat) thickness.push_back(layer.thickness_m.likely);
  if (!m_drag) {
    double free = room, rest = 0;
    std::vector<bool> enlarged(thickness.size(), false);
    for (std::size_t round = 0; round <= thickness.size(); ++round) {
      free = room, rest = 0;
      for (std::size_t i = 0; i < thickness.size(); ++i) (enlarged[i] ? free : rest) += enlarged[i] ? -leastHeight_px : thickness[i];
      m_scale_px_m = rest > 0 ? std::max(0.0, free) / rest : 0;
      for (std::size_t i = 0; i < thickness.size(); ++i) enlarged[i] = enlarged[i] || thickness[i] * m_scale_px_m < leastHeight_px;
    }
  }
  m_rows.assign(1, top_px);
  for (const double layer_m : thickness) m_rows.push_back(m_rows.back() + std::max(leastHeight_px, layer_m * m_scale_px_m));
}

double CoatCanvas::topOf(int layer) const {
  return m_rows.empty() ? top_px : m_rows[static_cast<std::size_t>(std::clamp(layer, 0, layers()))];
}
double CoatCanvas::bottomOf(int layer) const { return layer >= layers() ? height() : topOf(layer + 1); }

bool CoatCanvas::isEnlarged(int layer) const {
  return m_project.coat[static_cast<std::size_t>(layer)].thickness_m.likely * m_scale_px_m < leastHeight_px - 0.5;
}

QRectF CoatCanvas::body() const { return QRectF(1, top_px, std::floor(width() * bodyShare), height() - top_px - 1); }

int CoatCanvas::boundaryAt(const QPointF& position) const {
  if (!body().adjusted(0, -reach_px, 0, reach_px).contains(position)) return -1;
  for (int i = 0; i < layers(); ++i) {
    if (std::abs(position.y() - bottomOf(i)) <= reach_px) return i;
  }
  return -1;
}

int CoatCanvas::layerAt(const QPointF& position) const {
  for (int i = 0; i < layers(); ++i) {
    if (position.y() >= topOf(i) && position.y() < bottomOf(i)) return i;
  }
  return -1;
}

double CoatCanvas::rowOfDepth(double depth_m) const {
  double left = depth_m;
  for (int i = 0; i < layers(); ++i) {
    const double thickness = m_project.coat[static_cast<std::size_t>(i)].thickness_m.likely;
    if (left < thickness) return topOf(i) + (bottomOf(i) - topOf(i)) * std::max(0.0, left) / thickness;
    left -= thickness;
  }
  return topOf(layers());
}

void CoatCanvas::change(int layer, double thickness_m) {
  Range& range = m_project.coat[static_cast<std::size_t>(layer)].thickness_m;
  const double wanted = std::clamp(thickness_m, thinnest_m, thickest_m);
  if (range.likely <= 0 || wanted == range.likely) return;
  range = range * (wanted / range.likely);
  layOut();
  describe();
  update();
  emit thicknessDragged(layer, wanted);
}

void CoatCanvas::describe() {
  QStringList parts;
  for (const Layer& layer : m_project.coat)
    parts << QString::fromStdString(layer.name) + QLatin1Char(' ') + format::micrometres(layer.thickness_m.likely);
  setAccessibleName(
      tr("Cross-section of the coat, top first: %1").arg(parts.isEmpty() ? tr("no layers") : parts.join(QStringLiteral(", "))));
  setAccessibleDescription(
      m_selected < 0 ? tr("Up and down choose a layer, plus and minus change its thickness, left and right step through the passes")
                     : tr("%1 chosen").arg(parts.value(m_selected)));
}

void CoatCanvas::mousePressEvent(QMouseEvent* event) {
  if (event->button() != Qt::LeftButton) return;
  const int boundary = boundaryAt(event->position());
  select(boundary >= 0 ? boundary : layerAt(event->position()));
  if (boundary < 0) return;
  m_drag = Drag{boundary, event->position().y(), m_project.coat[static_cast<std::size_t>(boundary)].thickness_m.likely, m_scale_px_m};
}

void CoatCanvas::mouseMoveEvent(QMouseEvent* event) {
  if (!m_drag) {
    setCursor(boundaryAt(event->position()) >= 0 ? Qt::SplitVCursor : Qt::ArrowCursor);
    return;
  }
  if (m_drag->scale_px_m <= 0) return;
  const double wanted_m = m_drag->startThickness_m + (event->position().y() - m_drag->startY) / m_drag->scale_px_m;
  change(m_drag->layer, std::round(wanted_m * 1e6) * 1e-6);
}

void CoatCanvas::mouseReleaseEvent(QMouseEvent*) {
  if (!m_drag) return;
  m_drag.reset();
  layOut();
  update();
  emit thicknessDragFinished();
}

void CoatCanvas::keyPressEvent(QKeyEvent* event) {
  const double step_m = event->modifiers().testFlag(Qt::ControlModifier) ? 10e-6 : 1e-6;
  const auto nudge = [this](double by_m) {
    if (m_selected < 0) return;
    change(m_selected, m_project.coat[static_cast<std::size_t>(m_selected)].thickness_m.likely + by_m);
    emit thicknessDragFinished();
  };
  switch (event->key()) {
    case Qt::Key_Up: return select(std::max(0, m_selected - 1));
    case Qt::Key_Down: return select(m_selected + 1);
    case Qt::Key_Left:
      emit passStepped(-1);
      return;
    case Qt::Key_Right:
      emit passStepped(1);
      return;
    case Qt::Key_Plus:
    case Qt::Key_Equal: return nudge(step_m);
    case Qt::Key_Minus: return nudge(-step_m);
    default: QWidget::keyPressEvent(event);
  }
}

void CoatCanvas::resizeEvent(QResizeEvent*) { layOut(); }

bool CoatCanvas::event(QEvent* event) {
  if (event->type() != QEvent::ToolTip) return QWidget::event(event);
  auto* help = static_cast<QHelpEvent*>(event);
  const int at = layerAt(help->pos());
  if (at < 0) {
    QToolTip::hideText();
    return true;
  }
  const Layer& layer = m_project.coat[static_cast<std::size_t>(at)];
  QString text = QString::fromStdString(layer.name) + QStringLiteral(": ") + format::micrometres(layer.thickness_m.likely);
  if (!layer.thickness_m.isExact())
    text += tr(", 9 in 10 between %1 and %2").arg(format::micrometres(layer.thickness_m.low), format::micrometres(layer.thickness_m.high));
  text += tr("; %1 when heated").arg(behaviourWord(behaviourOf(layer, m_project.library)));
  if (layer.keep) text += tr("; must stay");
  if (isEnlarged(at)) text += tr(". Drawn thicker than to scale");
  QToolTip::showText(help->globalPos(), text, this);
  return true;
}

void CoatCanvas::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  QFont font = this->font();
  font.setPixelSize(space::leastFont);
  painter.setFont(font);
  const Tones tones = tonesOf(palette());
  if (layers() == 0) {
    painter.setPen(tones.quiet);
    painter.drawText(QRectF(0, 0, width(), height() - metalHeight_px).adjusted(8, 8, -8, -8), Qt::AlignCenter | Qt::TextWordWrap,
                     tr("No layers yet. Add what a chip shows, top first."));
  }
  for (int i = 0; i < layers(); ++i) paintLayer(painter, i);
  paintMetal(painter);
  if (m_pass > 0) paintWear(painter);
  for (int i = 0; i < layers(); ++i) paintName(painter, i);
  if (!m_stale) return;
  QColor veil = tones.ground;
  veil.setAlphaF(0.5F);
  painter.fillRect(rect(), veil);
}

void CoatCanvas::paintLayer(QPainter& painter, int layer) const {
  const Layer& shown = m_project.coat[static_cast<std::size_t>(layer)];
  const QRectF box(body().left(), topOf(layer), body().width(), bottomOf(layer) - topOf(layer));
  const QColor colour = layerColour(shown, m_project.library);
  QPainterPath area;
  area.addRect(box);
  painter.fillPath(area, colour);
  QColor line = inkOn(colour);
  line.setAlphaF(0.55F);
  paintHatch(painter, area, hatchOf(behaviourOf(shown, m_project.library)), line);
  const Tones tones = tonesOf(palette());
  painter.setPen(QPen(blend(tones.line, tones.quiet, 0.4), 1));
  painter.setBrush(Qt::NoBrush);
  painter.drawRect(box);
  if (isEnlarged(layer)) paintBreak(painter, box.center().y());
}

/// The draughtsman's mark for "shortened or stretched here".
void CoatCanvas::paintBreak(QPainter& painter, double y) const {
  const Tones tones = tonesOf(palette());
  const double x = body().right() - 10;
  const QPolygonF mark{QPointF(x - 9, y), QPointF(x - 4, y - 3), QPointF(x + 4, y + 3), QPointF(x + 10, y)};
  for (const QPen& pen : {QPen(tones.sheet, 4), QPen(tones.ink, 1)}) {
    painter.setPen(pen);
    painter.drawPolyline(mark);
  }
}

void CoatCanvas::paintMetal(QPainter& painter) const {
  const Tones tones = tonesOf(palette());
  const QRectF box(body().left(), topOf(layers()), body().width(), body().bottom() - topOf(layers()));
  QPainterPath area;
  area.addRect(box);
  painter.fillPath(area, blend(tones.sheet, tones.quiet, 0.28));
  paintHatch(painter, area, Hatch::Metal, blend(tones.sheet, tones.quiet, 0.6));
  painter.setPen(QPen(tones.quiet, 1));
  painter.drawLine(box.topLeft(), box.topRight());
  paintBreak(painter, box.center().y());
  painter.setPen(tones.quiet);
  painter.drawText(QRectF(box.right() + 10, box.top(), width() - box.right() - 12, metalHeight_px), Qt::AlignLeft | Qt::AlignVCenter,
                   tr("metal"));
  painter.drawText(QRectF(box.right() + 10, box.top(), width() - box.right() - 12, metalHeight_px), Qt::AlignRight | Qt::AlignVCenter,
                   format::length(m_project.part.thickness_m.likely));
}

/// Places side by side from the most to the least worn, each as wide as its share of the area.
QPainterPath CoatCanvas::wornByDose() const {
  std::vector<const PlaceHistory*> places;
  double shares = 0;
  for (const PlaceHistory& place : m_assessment->removal.places) {
    if (place.depth_m.empty()) continue;
    places.push_back(&place);
    shares += place.share;
  }
  if (shares <= 0) return {};
  const auto depth = [this](const PlaceHistory* place) {
    return place->depth_m[std::min(static_cast<std::size_t>(m_pass), place->depth_m.size() - 1)];
  };
  std::ranges::stable_sort(places, std::greater(), depth);
  QPainterPath gone;
  gone.moveTo(body().left(), top_px - 1);
  double x = body().left();
  for (const PlaceHistory* place : places) {
    const std::size_t pass = std::min(static_cast<std::size_t>(m_pass), place->depth_m.size() - 1);
    const double y = rowOfDepth(place->depth_m[pass]);
    gone.lineTo(x, y);
    x += body().width() * place->share / shares;
    gone.lineTo(x, y);
  }
  gone.lineTo(x, top_px - 1);
  gone.closeSubpath();
  return gone;
}

QPainterPath CoatCanvas::wornTo(double depth_m) const {
  QPainterPath gone;
  gone.addRect(QRectF(body().topLeft() - QPointF(0, 1), QPointF(body().right(), rowOfDepth(depth_m))));
  return gone;
}

void CoatCanvas::paintWear(QPainter& painter) const {
  if (m_assessment == nullptr) return;
  const QPainterPath gone = m_cut_m ? wornTo(*m_cut_m) : wornByDose();
  if (gone.isEmpty()) return;
  const Tones tones = tonesOf(palette());
  painter.fillPath(gone, tones.ground);
  painter.setPen(QPen(tones.ink, 1.2));
  painter.setBrush(Qt::NoBrush);
  painter.drawPath(gone);
  painter.setPen(QPen(tones.ground, 3));
  painter.drawLine(QPointF(body().left(), top_px - 1), QPointF(body().right(), top_px - 1));
  painter.setPen(QPen(tones.quiet, 1, Qt::DotLine));
  painter.drawLine(QPointF(body().left(), top_px), QPointF(body().right(), top_px));
  const QRectF row(body().left() + 4, top_px + 3, body().width() - 8, leastHeight_px);
  const auto label = [&](Qt::Alignment side, const QString& text) {
    bw::paintLabel(painter, row, side | Qt::AlignVCenter, text, tones.ink, tones.ground);
  };
  if (m_cut_m) return label(Qt::AlignLeft, tr("picked place"));
  label(Qt::AlignLeft, tr("goes first"));
  label(Qt::AlignRight, tr("last"));
}

void CoatCanvas::paintName(QPainter& painter, int layer) const {
  const Layer& shown = m_project.coat[static_cast<std::size_t>(layer)];
  const Tones tones = tonesOf(palette());
  const double middle = (topOf(layer) + bottomOf(layer)) / 2;
  const QRectF box(body().right() + 6, middle - leastHeight_px / 2, width() - body().right() - 7, leastHeight_px);
  if (layer == m_selected) {
    painter.setPen(QPen(hasFocus() ? tones.accent : tones.line, 1));
    painter.setBrush(tones.sheet);
    painter.drawRoundedRect(box.adjusted(0.5, 0.5, -0.5, -0.5), 3, 3);
  }
  painter.setPen(tones.ink);
  const QString thickness = format::micrometres(shown.thickness_m.likely);
  const double room = QFontMetricsF(painter.font()).horizontalAdvance(thickness) + 8;
  painter.drawText(box.adjusted(4, 0, -4, 0), Qt::AlignRight | Qt::AlignVCenter, thickness);
  const QRectF name = box.adjusted(4, 0, -4 - room, 0);
  const QString text = QString::fromStdString(shown.name) + (shown.keep ? tr(" (stays)") : QString());
  painter.drawText(name, Qt::AlignLeft | Qt::AlignVCenter, QFontMetricsF(painter.font()).elidedText(text, Qt::ElideRight, name.width()));
}

}  // namespace bw

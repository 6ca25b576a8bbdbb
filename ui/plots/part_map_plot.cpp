// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/part_map_plot.h"

#include "core/scan/frame.h"
#include "ui/plots/colour_bar.h"
#include "ui/plots/dose_colours.h"
#include "ui/plots/painting.h"
#include "ui/plots/time_stepper.h"
#include "ui/plots/view_switch.h"
#include "ui/style/format.h"
#include "ui/style/units.h"

#include <QMenu>
#include <QToolButton>
#include <QtConcurrent>

#include <algorithm>

namespace bw {

namespace {

/// At which moment each pass begins.
std::vector<int> passMoments(const PartScene& field) {
  std::vector<int> made;
  for (const double start : field.passStart_s)
    made.push_back(static_cast<int>(std::ranges::lower_bound(field.map->time_s, start) - field.map->time_s.begin()));
  return made;
}

}  // namespace

PartMapPlot::PartMapPlot(QWidget* parent)
    : MapPlot(tr("Temperature over the part"), tr("Over the part, °C"), parent),
      m_map(new QCPColorMap(canvas()->xAxis, canvas()->yAxis)),
      m_time(new TimeStepper) {
  m_map->setInterpolate(false);
  m_map->setTightBoundary(false);
  auto* views = new ViewSwitch(
      {{static_cast<int>(HeatView::Work), "partWork", tr("The work"), tr("Curves of the whole job.")},
       {static_cast<int>(HeatView::StillHand), "partStillHand", tr("The hand stops here"), tr("Curves from the moment the hand stops.")},
       {static_cast<int>(HeatView::Part), "partMap", tr("Over the part"), tr("This map.")}},
      static_cast<int>(HeatView::Part));
  addToHeading(views);
  addBelow(m_time);
  connect(views, &ViewSwitch::chosen, this, [this](int view) { emit curvesChosen(static_cast<HeatView>(view)); });
  connect(m_time, &TimeStepper::changed, this, &PartMapPlot::refreshAll);
  connect(&m_tracing, &QFutureWatcherBase::finished, this, [this] {
    if (m_tracing.future().resultCount() > 0) m_lines = m_tracing.result();
    replotSoon();
  });
  canvas()->xAxis->setLabel(tr("along the part's width, mm"));
  canvas()->yAxis->setLabel(tr("along its height, mm"));
  new Painting(canvas(), QStringLiteral("legend"), Painting::Clip::AxisRect,
               [this](QCPPainter& painter, const QRectF& box) { paintMarks(painter, box); });
  new Painting(canvas(), QStringLiteral("legend"), Painting::Clip::Whole, [this](QCPPainter& painter, const QRectF& box) {
    if (!isCompact()) paintScale(painter, box);
  });
  ready();
}

/// While the newest assessment still lacks its map the one before stays, so that nothing flickers between the two.
void PartMapPlot::arrived() {
  PartScene newest = now() != nullptr ? partSceneOf(*now()) : PartScene();
  m_behind = newest.isEmpty() && moreToCome() && !m_field.isEmpty();
  if (m_behind) return;
  m_field = std::move(newest);
  if (const Settings* its = settings()) {
    m_roundFrame = isRound(its->pattern);
    m_frame_mm = QSizeF(its->width_m, m_roundFrame ? its->width_m : hasHeight(its->pattern) ? its->height_m : 0) * mm_per_m;
  }
  m_time->setMoments(m_field.isEmpty() ? 0 : static_cast<int>(m_field.moments()),
                     m_field.isEmpty() ? std::vector<int>() : passMoments(m_field));
  traceLines();
}

/// In the background, once for each map.
void PartMapPlot::traceLines() {
  m_lines.clear();
  if (m_field.isEmpty() || !m_field.limit) return m_tracing.setFuture({});
  m_tracing.setFuture(QtConcurrent::run([field = m_field] { return limitLines(field); }));
}

std::optional<std::size_t> PartMapPlot::moment() const {
  return m_time->showsHighest() ? std::nullopt : std::optional(static_cast<std::size_t>(m_time->moment()));
}

const std::vector<float>& PartMapPlot::shown() const { return moment() ? m_field.map->temperature_C[*moment()] : m_field.map->highest_C; }

QString PartMapPlot::missing() const {
  if (!m_field.isEmpty()) return {};
  if (moreToCome()) return tr("The temperature over the part is being worked out; it follows in a moment.");
  if (settings() != nullptr && settings()->travelSpeed_m_s <= 0)
    return tr("The temperature over the part is not computed for a hand that stands still. Give it a travel speed above zero.");
  return tr("The temperature over the part is not computed for this plan. Give the part's metal, thickness and size.");
}

void PartMapPlot::refresh() {
  const PartMap& map = *m_field.map;
  const double cellX = map.cellX_m * mm_per_m, cellY = map.cellY_m * mm_per_m;
  m_map->data()->setSize(map.columns, map.rows);
  m_map->data()->setRange({cellX / 2, (map.columns - 0.5) * cellX}, {cellY / 2, (map.rows - 0.5) * cellY});
  auto value = shown().begin();
  for (int row = 0; row < map.rows; ++row)
    for (int column = 0; column < map.columns; ++column, ++value) m_map->data()->setCell(column, row, static_cast<double>(*value));
  const double low = std::min(project().part.startTemperature_C, project().part.ambientTemperature_C);
  const double high = static_cast<double>(m_field.highest_C());
  m_map->setDataRange(QCPRange(low, std::max(high, low + 1)));  // the same for all moments, so that shades compare
  m_time->setWords(moment() ? momentWords(m_field, *moment()) : tr("the whole job"));
}

void PartMapPlot::restyle(const Tones& tones) {
  m_map->setGradient(doseGradient(tones.sheet.lightness() < 128));
  canvas()->axisRect()->setBackground(QBrush(blend(tones.sheet, tones.line, 0.4)));
  setMargins();
}

std::optional<MapExtent> PartMapPlot::extent() const {
  if (m_field.isEmpty()) return std::nullopt;
  return MapExtent{m_field.map->columns * m_field.map->cellX_m, m_field.map->rows * m_field.map->cellY_m, {}};
}

QString PartMapPlot::summary() const {
  const QString most = format::temperature(static_cast<double>(*std::ranges::max_element(shown())));
  if (isCompact()) return moment() ? tr("%1: up to %2").arg(momentWords(m_field, *moment()), most) : tr("Up to %1").arg(most);
  QString text =
      moment() ? tr("After %1: up to %2").arg(momentWords(m_field, *moment()), most) : tr("Highest of the whole job: up to %1").arg(most);
  if (m_field.limit)
    text += tr("; line at %1 (%2)").arg(format::temperature(m_field.limit->limit_C), QString::fromStdString(m_field.limit->name));
  return text + tr(". Mean through the metal, without the peaks under single lines; single estimate");
}

QString PartMapPlot::readoutAt(double x_mm, double y_mm) const {
  const std::optional<PickedPlace> at = placeOf(x_mm, y_mm);
  const QString where = tr("%1 from the left, %2 up: ").arg(format::millimetres(x_mm / mm_per_m), format::millimetres(y_mm / mm_per_m));
  if (!at) return where + tr("beside the part");
  const PartMap& map = *m_field.map;
  const int column = std::min(map.columns - 1, static_cast<int>(at->across_m / map.cellX_m));
  const int row = std::min(map.rows - 1, static_cast<int>(at->along_m / map.cellY_m));
  const auto cell = static_cast<std::size_t>(row) * static_cast<std::size_t>(map.columns) + static_cast<std::size_t>(column);
  const QString value = format::temperature(static_cast<double>(shown()[cell]));
  if (moment()) return where + tr("%1 after %2").arg(value, momentWords(m_field, *moment()));
  if (map.highestAt_s.size() != map.highest_C.size()) return where + tr("%1 at most").arg(value);
  return where + tr("%1 at most, after %2").arg(value, format::duration(static_cast<double>(map.highestAt_s[cell])));
}

QString PartMapPlot::csv() const { return partCsv(*m_field.map, moment()); }

QRectF PartMapPlot::hand_mm() const {
  if (m_field.isEmpty() || !moment() || !m_field.map->hand_m[*moment()]) return {};
  const auto& [x, y] = *m_field.map->hand_m[*moment()];
  QRectF frame(QPointF(), m_frame_mm);
  frame.moveCenter(QPointF(x, y) * mm_per_m);
  return frame;
}

void PartMapPlot::extendMenu(QMenu& menu) {
  QAction* action = menu.addAction(tr("The highest of the whole job"), m_time->highestButton(), &QToolButton::toggle);
  action->setCheckable(true);
  action->setChecked(m_time->showsHighest());
  menu.addAction(m_time->stepper()->isPlaying() ? tr("Stop running\tSpace") : tr("Run through the job\tSpace"), m_time,
                 &TimeStepper::togglePlaying);
  menu.addAction(tr("Curves of the work"), this, [this] { emit curvesChosen(HeatView::Work); });
  menu.addAction(tr("Curves of a hand that stops"), this, [this] { emit curvesChosen(HeatView::StillHand); });
}

/// Arrows step through the job; with Shift they move the view, as in the other plots.
void PartMapPlot::keyPressEvent(QKeyEvent* event) {
  if (isCompact() || event->modifiers() & Qt::ShiftModifier) return MapPlot::keyPressEvent(event);
  switch (event->key()) {
    case Qt::Key_Right:
    case Qt::Key_Up:
      return m_time->stepBy(1);
    case Qt::Key_Left:
    case Qt::Key_Down:
      return m_time->stepBy(-1);
    case Qt::Key_PageUp:
      return m_time->stepBy(10);
    case Qt::Key_PageDown:
      return m_time->stepBy(-10);
    case Qt::Key_Space:
      return m_time->togglePlaying();
    default:
      MapPlot::keyPressEvent(event);
  }
}

void PartMapPlot::hideEvent(QHideEvent* event) {
  m_time->stepper()->playButton()->setChecked(false);
  MapPlot::hideEvent(event);
}

void PartMapPlot::paintMarks(QPainter& painter, const QRectF& box) const {
  if (m_field.isEmpty()) return;
  const QRectF part(QPointF(canvas()->xAxis->coordToPixel(0), canvas()->yAxis->coordToPixel(extent()->along_m * mm_per_m)),
                    QPointF(canvas()->xAxis->coordToPixel(extent()->across_m * mm_per_m), canvas()->yAxis->coordToPixel(0)));
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(tones().quiet, 1));
  painter.drawRect(part);
  paintLines(painter);
  paintHand(painter);
  paintSizes(painter, box, false);
}

void PartMapPlot::paintLines(QPainter& painter) const {
  const std::size_t which = moment().value_or(m_field.moments());
  if (isCompact() || which >= m_lines.size()) return;
  const QPointF corner(canvas()->xAxis->coordToPixel(0), canvas()->yAxis->coordToPixel(0));
  const double across = canvas()->xAxis->coordToPixel(m_field.map->cellX_m * mm_per_m) - corner.x();
  const double up = canvas()->yAxis->coordToPixel(m_field.map->cellY_m * mm_per_m) - corner.y();
  painter.save();
  painter.setTransform(QTransform(across, 0, 0, up, corner.x(), corner.y()), true);
  QColor halo = tones().sheet;
  halo.setAlphaF(0.6F);
  for (QPen pen : {QPen(halo, 4), QPen(tones().ink, 1.6)}) {
    pen.setCosmetic(true);
    painter.setPen(pen);
    painter.drawLines(m_lines[which]);
  }
  painter.restore();
}

void PartMapPlot::paintHand(QPainter& painter) const {
  const QRectF hand = hand_mm();
  if (hand.isNull()) return;
  QRectF box(QPointF(canvas()->xAxis->coordToPixel(hand.left()), canvas()->yAxis->coordToPixel(hand.bottom())),
             QPointF(canvas()->xAxis->coordToPixel(hand.right()), canvas()->yAxis->coordToPixel(hand.top())));
  constexpr double least = 6;  // px, so that it is found on a large part
  box.adjust(-std::max(0.0, least - box.width()) / 2, -std::max(0.0, least - box.height()) / 2, std::max(0.0, least - box.width()) / 2,
             std::max(0.0, least - box.height()) / 2);
  painter.setBrush(Qt::NoBrush);
  for (const QPen& pen : {QPen(tones().sheet, 4), QPen(tones().ink, 2)}) {
    painter.setPen(pen);
    m_roundFrame ? painter.drawEllipse(box) : painter.drawRect(box);
  }
  if (isCompact()) return;
  const QRectF plot(canvas()->axisRect()->rect());
  const double left = std::clamp(box.center().x() - 60, plot.left() + 2, plot.right() - 122);
  const double top = box.top() - 22 > plot.top() ? box.top() - 22 : box.bottom() + 4;
  paintLabel(painter, QRectF(left, top, 120, 18), Qt::AlignCenter, tr("the frame"), tones().ink, tones().sheet);
}

void PartMapPlot::paintScale(QPainter& painter, const QRectF& box) const {
  if (m_field.isEmpty()) return;
  const ColourBar bar{m_map->gradient(), m_map->dataRange(), QStringLiteral("°C")};
  bar.paint(painter, box, tones());
  if (!m_field.limit || m_lines.empty()) return;
  const QRectF place = ColourBar::place(box);
  const double y = bar.yOf(box, m_field.limit->limit_C);
  painter.setPen(QPen(tones().ink, 1.6));
  painter.drawLine(QPointF(place.left() - 6, y), QPointF(place.right(), y));
  painter.drawText(QRectF(place.left() - 44, y - 8, 36, 16), Qt::AlignRight | Qt::AlignVCenter, format::count(m_field.limit->limit_C));
}

}  // namespace bw

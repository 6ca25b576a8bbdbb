// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/map_plot.h"

#include "ui/plots/map_marks.h"
#include "ui/plots/painting.h"
#include "ui/plots/view_switch.h"
#include "ui/style/format.h"
#include "ui/style/units.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

/// Where `value` lies in a map that begins at `origin`: wrapped where it repeats, nothing beyond its end where it does not.
std::optional<double> within(double value, double origin, double size, bool repeats) {
  const double inside = value - origin;
  if (repeats) return inside - std::floor(inside / size) * size;
  return inside >= 0 && inside < size ? std::optional(inside) : std::nullopt;
}

}  // namespace

MapPlot::MapPlot(QString title, QString shortTitle, QWidget* parent) : PlotView(std::move(title), std::move(shortTitle), parent) {
  canvas()->axisRect()->setAutoMargins(QCP::msNone);
  canvas()->xAxis->grid()->setVisible(false);
  canvas()->yAxis->grid()->setVisible(false);
}

void MapPlot::addSwitch(View view) {
  auto* both = new ViewSwitch(
      {{static_cast<int>(View::Dose), "viewDose", tr("Dose"), tr("The energy that one pass leaves at each point.")},
       {static_cast<int>(View::Remains), "viewRemains", tr("What remains"), tr("The layer that is on top at each point after a pass.")}},
      static_cast<int>(view));
  addToHeading(both);
  connect(both, &ViewSwitch::chosen, this, [this](int other) { emit viewChosen(static_cast<View>(other)); });
}

void MapPlot::lookAt(const MapPlot& other) {
  if (!other.isZoomed()) return fit();
  canvas()->xAxis->setRange(other.canvas()->xAxis->range());
  canvas()->yAxis->setRange(other.canvas()->yAxis->range());
  keepShape();
}

void MapPlot::setMargins() {
  const bool axes = !isCompact();
  canvas()->xAxis->setVisible(axes);
  canvas()->yAxis->setVisible(axes);
  canvas()->axisRect()->setMargins(axes ? QMargins(58, 6, rightMargin(), 42) : QMargins(0, 2, 0, space::small));
}

/// One cell, or the view, whole and at true proportion; whatever room is left shows what lies beside it.
void MapPlot::fitAxes() {
  setMargins();
  const QMargins margins = canvas()->axisRect()->margins();
  const double width = std::max(10, canvas()->width() - margins.left() - margins.right());
  const double height = std::max(10, canvas()->height() - margins.top() - margins.bottom());
  const MapExtent shown = *extent();
  const double across = shown.across_m * mm_per_m, along = shown.along_m * mm_per_m;
  constexpr double air = 1.08;
  const double scale = std::min(width / (across * air), height / (along * air));
  const double middle = isEndless() ? 0 : shown.placing.across_m * mm_per_m + across / 2;
  const double half = shown.placing.along_m * mm_per_m + along / 2;
  canvas()->xAxis->setRange(middle - width / scale / 2, middle + width / scale / 2);
  canvas()->yAxis->setRange(half - height / scale / 2, half + height / scale / 2);
}

void MapPlot::keepShape() { canvas()->yAxis->setScaleRatio(canvas()->xAxis, 1); }

std::optional<PickedPlace> MapPlot::placeOf(double across_mm, double along_mm) const {
  const auto shown = extent();
  if (!shown) return std::nullopt;
  const auto across = within(across_mm / mm_per_m, shown->placing.across_m, shown->across_m, shown->placing.repeatsAcross);
  const auto along = within(along_mm / mm_per_m, shown->placing.along_m, shown->along_m, shown->placing.repeatsAlong);
  if (!across || !along) return std::nullopt;
  return PickedPlace{*across, *along};
}

QString MapPlot::whereWords(double across_mm, double along_mm) const {
  return tr("%1 across, %2 along: ").arg(format::millimetres(across_mm / mm_per_m), format::millimetres(along_mm / mm_per_m));
}

void MapPlot::clickedAt(const QPointF& position) {
  if (!isEndless() || !canvas()->axisRect()->rect().contains(position.toPoint())) return;
  const std::optional<PickedPlace> at = placeOf(canvas()->xAxis->pixelToCoord(position.x()), canvas()->yAxis->pixelToCoord(position.y()));
  if (at) emit placePicked(at->across_m, at->along_m);
}

double MapPlot::pixelsPerMm() const { return std::abs(canvas()->xAxis->coordToPixel(1) - canvas()->xAxis->coordToPixel(0)); }

QRectF MapPlot::pixels(double left_mm, double low_mm, double width_mm, double height_mm) const {
  const QCPAxis *x = canvas()->xAxis, *y = canvas()->yAxis;
  return QRectF(QPointF(x->coordToPixel(left_mm), y->coordToPixel(low_mm + height_mm)),
                QPointF(x->coordToPixel(left_mm + width_mm), y->coordToPixel(low_mm)));
}

void MapPlot::paintCell(QPainter& painter, double across_m, double along_m, Qt::PenStyle style) const {
  const double across = across_m * mm_per_m, along = along_m * mm_per_m;
  const QRectF cell = pixels(-across / 2, 0, across, along);
  QColor halo = tones().sheet;
  halo.setAlphaF(0.75F);
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(halo, 3));
  painter.drawRect(cell);
  painter.setPen(QPen(tones().ink, 1, style));
  painter.drawRect(cell);
  if (isCompact() || style != Qt::SolidLine || cell.height() < 26) return;
  const QString text = tr("this repeats: %1 × %2 mm").arg(format::number(across), format::number(along));
  const QRectF seen = cell & QRectF(canvas()->axisRect()->rect());  // at the right: the way of the travel is marked at the left
  paintLabel(painter, seen.adjusted(8, 5, -8, -5), Qt::AlignRight | Qt::AlignTop, text, tones().ink, tones().sheet);
}

void MapPlot::paintPlace(QPainter& painter) const {
  const auto shown = extent();
  if (!place() || !isEndless() || !shown) return;
  const double across = shown->across_m * mm_per_m;
  double x = (place()->across_m + shown->placing.across_m) * mm_per_m;
  x -= std::round(x / across) * across;
  const QPointF centre(canvas()->xAxis->coordToPixel(x), canvas()->yAxis->coordToPixel(place()->along_m * mm_per_m));
  painter.setBrush(Qt::NoBrush);
  for (const QPen& pen : {QPen(tones().sheet, 4), QPen(tones().ink, 2)}) {
    painter.setPen(pen);
    painter.drawEllipse(centre, 7, 7);
  }
}

void MapPlot::paintSizes(QPainter& painter, const QRectF& box, bool travels) const {
  if (!isCompact()) paintThumb(painter, box, pixelsPerMm(), tones());
  if (!isCompact() && travels) paintTravel(painter, box, tones());
  paintScaleBar(painter, box, pixelsPerMm(), box.width() * (isCompact() ? 0.4 : 0.22), tones());
}

}  // namespace bw

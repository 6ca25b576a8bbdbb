// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/dose_map_plot.h"

#include "core/files/assessment_file.h"
#include "ui/plots/dose_colours.h"
#include "ui/plots/painting.h"
#include "ui/plots/tiled_map.h"
#include "ui/style/format.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr double J_m2_per_J_cm2 = 1e4;
constexpr double mm_per_m = 1e3;
constexpr double thumbWidth_mm = 20;  // an adult's, across the nail's root; common knowledge, no source

double wrapped(double value, double period) { return value - std::floor(value / period) * period; }

/// Top of the colour scale: burnt edges are clipped so that the rest keeps its shades; the bar says so.
double topOfScale(const Assessment& assessment, const DoseMap& map) {
  if (assessment.dose && assessment.map)
    return std::min(assessment.dose->max_J_m2, std::max(assessment.dose->p95_J_m2, 2 * assessment.dose->mean_J_m2));
  const auto most = std::max_element(map.dose_J_m2.begin(), map.dose_J_m2.end());
  return most == map.dose_J_m2.end() ? 0 : static_cast<double>(*most);
}

}  // namespace

DoseMapPlot::DoseMapPlot(QWidget* parent)
    : PlotView(tr("Energy on the part per pass (dose)"), tr("Dose map"), parent), m_map(new TiledMap(canvas()->xAxis, canvas()->yAxis)) {
  canvas()->axisRect()->setAutoMargins(QCP::msNone);
  canvas()->xAxis->setLabel(tr("across the swath, mm"));
  canvas()->yAxis->setLabel(tr("along the travel, mm"));
  canvas()->xAxis->grid()->setVisible(false);
  canvas()->yAxis->grid()->setVisible(false);
  new Painting(canvas(), QStringLiteral("legend"), Painting::Clip::AxisRect,
               [this](QCPPainter& painter, const QRectF& box) { paintMarks(painter, box); });
  new Painting(canvas(), QStringLiteral("legend"), Painting::Clip::Whole, [this](QCPPainter& painter, const QRectF& box) {
    if (!isCompact()) paintColourBar(painter, box);
  });
  ready();
}

const DoseMap* DoseMapPlot::shown() const {
  if (now() == nullptr) return nullptr;
  return now()->map != nullptr ? now()->map.get() : now()->stillMap.get();
}

QString DoseMapPlot::missing() const {
  const DoseMap* map = shown();
  if (map != nullptr && !map->dose_J_m2.empty()) return {};
  return tr("No dose map for these settings. Set a travel speed and a step-over above zero.");
}

QString DoseMapPlot::summary() const {
  if (!now()->dose || !repeats()) return tr("Hand standing still: the dose of one frame");
  const DoseResult& dose = *now()->dose;
  QString text = tr("Mean %1, %2 missed").arg(format::dose(dose.mean_J_m2), format::percent(dose.missedFraction));
  if (isCompact()) return text;
  if (ghost() != nullptr && ghost()->dose) {
    return text + tr("  →  mean %1, %2 missed").arg(format::dose(ghost()->dose->mean_J_m2), format::percent(ghost()->dose->missedFraction));
  }
  return text + tr(" (below half the mean). Single estimate, spread not computed");
}

void DoseMapPlot::refresh() {
  const DoseMap& map = *shown();
  const std::shared_ptr<const DoseMap> source = repeats() ? now()->map : now()->stillMap;
  const double missedBelow = repeats() && now()->dose ? now()->dose->mean_J_m2 / 2 : 0;
  m_map->setMap(source, middle_m(), missedBelow, repeats());
  const double top = topOfScale(*now(), map) / J_m2_per_J_cm2;
  m_map->setDataRange(QCPRange(0, top > 0 ? top : 1));
}

void DoseMapPlot::restyle(const Tones& tones) {
  m_map->setGradient(doseGradient(tones.sheet.lightness() < 128));
  m_map->setHatchColour(tones.ink);
  canvas()->axisRect()->setBackground(QBrush(blend(tones.sheet, tones.line, 0.4)));
  setMargins();
}

void DoseMapPlot::setMargins() {
  const bool axes = !isCompact();
  canvas()->xAxis->setVisible(axes);
  canvas()->yAxis->setVisible(axes);
  canvas()->axisRect()->setMargins(axes ? QMargins(50, 6, 84, 42) : QMargins(0, 2, 0, space::small));
}

/// One cell whole, at true proportion; whatever room is left shows its neighbours.
void DoseMapPlot::fitAxes() {
  setMargins();
  const QMargins margins = canvas()->axisRect()->margins();
  const double width = std::max(10, canvas()->width() - margins.left() - margins.right());
  const double height = std::max(10, canvas()->height() - margins.top() - margins.bottom());
  const DoseMap& map = *shown();
  const double across = map.across_m() * mm_per_m, along = map.along_m() * mm_per_m;
  constexpr double air = 1.08;
  const double scale = std::min(width / (across * air), height / (along * air));
  const double middle = repeats() ? 0 : across / 2;
  canvas()->xAxis->setRange(middle - width / scale / 2, middle + width / scale / 2);
  canvas()->yAxis->setRange(along / 2 - height / scale / 2, along / 2 + height / scale / 2);
}

void DoseMapPlot::keepShape() { canvas()->yAxis->setScaleRatio(canvas()->xAxis, 1); }

PickedPlace DoseMapPlot::placeOf(double across_mm, double along_mm) const {
  const DoseMap& map = *shown();
  return {wrapped(across_mm / mm_per_m + middle_m(), map.across_m()), wrapped(along_mm / mm_per_m, map.along_m())};
}

QString DoseMapPlot::readoutAt(double across_mm, double along_mm) const {
  const DoseMap& map = *shown();
  const PickedPlace at = placeOf(across_mm, along_mm);
  const int column = std::min(map.columns - 1, static_cast<int>(at.across_m / map.cellAcross_m));
  const int row = std::min(map.rows - 1, static_cast<int>(at.along_m / map.cellAlong_m));
  const double dose = static_cast<double>(map.at(column, row));
  QString text = tr("%1 across, %2 along: %3")
                     .arg(format::millimetres(across_mm / mm_per_m), format::millimetres(along_mm / mm_per_m), format::dose(dose));
  if (repeats() && now()->dose && now()->dose->mean_J_m2 > 0)
    text += tr(", %1 × the mean").arg(format::number(dose / now()->dose->mean_J_m2));
  return text;
}

void DoseMapPlot::clickedAt(const QPointF& position) {
  if (!repeats() || !canvas()->axisRect()->rect().contains(position.toPoint())) return;
  const PickedPlace at = placeOf(canvas()->xAxis->pixelToCoord(position.x()), canvas()->yAxis->pixelToCoord(position.y()));
  emit placePicked(at.across_m, at.along_m);
}

QString DoseMapPlot::csv() const { return QString::fromStdString(mapCsv(*shown())); }

double DoseMapPlot::pixelsPerMm() const { return std::abs(canvas()->xAxis->coordToPixel(1) - canvas()->xAxis->coordToPixel(0)); }

QRectF DoseMapPlot::pixels(double left_mm, double low_mm, double width_mm, double height_mm) const {
  const QCPAxis *x = canvas()->xAxis, *y = canvas()->yAxis;
  return QRectF(QPointF(x->coordToPixel(left_mm), y->coordToPixel(low_mm + height_mm)),
                QPointF(x->coordToPixel(left_mm + width_mm), y->coordToPixel(low_mm)));
}

void DoseMapPlot::paintMarks(QPainter& painter, const QRectF& box) const {
  if (shown() == nullptr) return;
  if (repeats()) paintCell(painter, *now()->map, tones().ink, Qt::SolidLine);
  if (ghost() != nullptr && ghost()->map != nullptr) paintCell(painter, *ghost()->map, tones().ink, Qt::DashLine);
  if (!isCompact()) {
    paintThumb(painter, box);
    if (repeats()) paintTravel(painter, box);
  }
  paintScaleBar(painter, box);
  paintPlace(painter);
}

void DoseMapPlot::paintCell(QPainter& painter, const DoseMap& map, const QColor& colour, Qt::PenStyle style) const {
  const double across = map.across_m() * mm_per_m, along = map.along_m() * mm_per_m;
  const QRectF cell = pixels(-across / 2, 0, across, along);
  QColor halo = tones().sheet;
  halo.setAlphaF(0.75F);
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(halo, 3));
  painter.drawRect(cell);
  painter.setPen(QPen(colour, 1, style));
  painter.drawRect(cell);
  if (isCompact() || style != Qt::SolidLine || cell.height() < 26) return;
  const QString text = tr("this repeats: %1 × %2 mm").arg(format::number(across), format::number(along));
  paintLabel(painter, cell.adjusted(8, 5, -8, -5), Qt::AlignLeft | Qt::AlignTop, text, tones().ink, tones().sheet);
}

void DoseMapPlot::paintThumb(QPainter& painter, const QRectF& box) const {
  const double scale = pixelsPerMm(), width = thumbWidth_mm * scale;
  const double height = std::min(1.5 * width, 0.62 * box.height());
  if (width < 40 || width > 0.6 * box.width() || height < 0.45 * width) return;
  const QRectF shape(box.right() - width * 1.12, box.bottom() - height, width, 3 * width);
  QPainterPath outline, nail;
  outline.addRoundedRect(shape, width * 0.48, width * 0.55);
  const QRectF plate = QRectF(shape.left() + width * 0.2, shape.top() + width * 0.1, width * 0.6, width * 0.62);
  nail.addRoundedRect(plate, width * 0.26, width * 0.26);
  QColor halo = tones().sheet;
  halo.setAlphaF(0.7F);
  painter.setBrush(Qt::NoBrush);
  for (const QPen& pen : {QPen(halo, 3), QPen(tones().ink, 1)}) {
    painter.setPen(pen);
    painter.drawPath(outline);
    painter.drawPath(nail);
  }
  const QRectF label(shape.left(), box.bottom() - 22, width, 18);
  paintLabel(painter, label, Qt::AlignCenter, tr("a thumb, 20 mm"), tones().ink, tones().sheet);
}

void DoseMapPlot::paintScaleBar(QPainter& painter, const QRectF& box) const {
  const double scale = pixelsPerMm(), most = box.width() * (isCompact() ? 0.4 : 0.22);
  double length_mm = 0;
  for (const double candidate : {0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0}) {
    if (candidate * scale <= most) length_mm = candidate;
  }
  if (length_mm <= 0) return;
  const double length = length_mm * scale;
  const QRectF plate(box.left() + 8, box.bottom() - 30, std::max(length, 44.0) + 12, 24);
  QColor ground = tones().sheet;
  ground.setAlphaF(0.86F);
  painter.setPen(Qt::NoPen);
  painter.setBrush(ground);
  painter.drawRoundedRect(plate, 2, 2);
  painter.setPen(QPen(tones().ink, 2));
  const double left = plate.center().x() - length / 2, y = plate.bottom() - 5;
  painter.drawLine(QPointF(left, y), QPointF(left + length, y));
  painter.drawLine(QPointF(left, y - 3), QPointF(left, y + 2));
  painter.drawLine(QPointF(left + length, y - 3), QPointF(left + length, y + 2));
  painter.drawText(plate.adjusted(0, 1, 0, -7), Qt::AlignHCenter | Qt::AlignTop,
                   QLocale().toString(length_mm) + QStringLiteral("\u00a0mm"));
}

void DoseMapPlot::paintTravel(QPainter& painter, const QRectF& box) const {
  const QRectF plate(box.left() + 8, box.top() + 8, 26, 26);
  QColor ground = tones().sheet;
  ground.setAlphaF(0.86F);
  painter.setPen(Qt::NoPen);
  painter.setBrush(ground);
  painter.drawRoundedRect(plate, 2, 2);
  const QPointF tip(plate.center().x(), plate.top() + 5);
  painter.setPen(QPen(tones().ink, 2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  painter.setBrush(Qt::NoBrush);
  painter.drawLine(tip, QPointF(tip.x(), plate.bottom() - 5));
  painter.drawPolyline(QPolygonF{tip + QPointF(-5, 6), tip, tip + QPointF(5, 6)});
  paintLabel(painter, QRectF(plate.right() + 2, plate.top(), 120, plate.height()), Qt::AlignLeft | Qt::AlignVCenter, tr("travel"),
             tones().ink, tones().sheet);
}

void DoseMapPlot::paintPlace(QPainter& painter) const {
  if (!place() || !repeats()) return;
  const double across = now()->map->across_m() * mm_per_m;
  double x = (place()->across_m - middle_m()) * mm_per_m;
  x -= std::round(x / across) * across;
  const QPointF centre(canvas()->xAxis->coordToPixel(x), canvas()->yAxis->coordToPixel(place()->along_m * mm_per_m));
  painter.setBrush(Qt::NoBrush);
  for (const QPen& pen : {QPen(tones().sheet, 4), QPen(tones().ink, 2)}) {
    painter.setPen(pen);
    painter.drawEllipse(centre, 7, 7);
  }
}

void DoseMapPlot::paintColourBar(QPainter& painter, const QRectF& box) const {
  if (now() == nullptr || shown() == nullptr) return;
  const QCPRange range = m_map->dataRange();
  const QRectF bar(box.right() + 14, box.top() + 30, 14, box.height() - 30);
  const bool clipped = repeats() && now()->dose && now()->dose->max_J_m2 / J_m2_per_J_cm2 > range.upper * 1.001;
  QLinearGradient fill(bar.bottomLeft(), bar.topLeft());
  const QMap<double, QColor> stops = m_map->gradient().colorStops();
  for (auto stop = stops.begin(); stop != stops.end(); ++stop) fill.setColorAt(stop.key(), stop.value());
  painter.setPen(Qt::NoPen);
  painter.setBrush(fill);
  painter.drawRect(bar);
  painter.setPen(tones().quiet);
  painter.drawText(QRectF(bar.left(), box.top() - 4, 70, 16), Qt::AlignLeft | Qt::AlignVCenter, QStringLiteral("J/cm²"));
  if (clipped) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(stops.last());
    painter.drawPolygon(QPolygonF{bar.topLeft(), QPointF(bar.center().x(), bar.top() - 10), bar.topRight()});
    painter.setPen(tones().quiet);
    painter.drawText(QRectF(bar.right() + 4, bar.top() - 15, 60, 14), Qt::AlignLeft | Qt::AlignVCenter,
                     tr("to %1").arg(format::number(now()->dose->max_J_m2 / J_m2_per_J_cm2)));
  }
  QCPAxisTicker ticker;
  ticker.setTickCount(4);
  QVector<double> ticks;
  ticker.generate(range, QLocale(), 'g', 4, ticks, nullptr, nullptr);
  for (const double tick : ticks) {
    if (tick < range.lower || tick > range.upper) continue;
    const double y = bar.bottom() - bar.height() * tick / range.upper;
    if (clipped && y < bar.top() + 10) continue;  // the note on the clipped top stands there
    painter.setPen(tones().line);
    painter.drawLine(QPointF(bar.right(), y), QPointF(bar.right() + 4, y));
    painter.setPen(tones().quiet);
    painter.drawText(QRectF(bar.right() + 7, y - 8, 44, 16), Qt::AlignLeft | Qt::AlignVCenter, format::number(tick));
  }
}

}  // namespace bw

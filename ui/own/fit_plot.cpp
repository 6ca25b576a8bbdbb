// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/fit_plot.h"

#include "ui/plots/painting.h"
#include "ui/style/format.h"

#include <algorithm>

namespace bw {

namespace {

/// An axis in workshop units: label for people, key for files, and what one unit is in SI.
struct AxisUnit {
  QString label;
  const char* key;
  double inSI;
};

AxisUnit across(FitKind kind) {
  switch (kind) {
    case FitKind::SpotByEnergy:
      return {FitPlot::tr("pulse energy, mJ"), "pulse_energy_mJ", 1e-3};
    case FitKind::SpotByLineEnergy:
      return {FitPlot::tr("power over speed, J/cm"), "line_energy_J_cm", 1e2};
    case FitKind::SpotByPower:
      return {FitPlot::tr("power, W"), "power_W", 1};
    case FitKind::Caustic:
      return {FitPlot::tr("focus offset, mm"), "focus_offset_mm", 1e-3};
    case FitKind::LitWidth:
    case FitKind::LitHeight:
      return {FitPlot::tr("dialled, mm"), "dialled_mm", 1e-3};
    case FitKind::Turnaround:
      return {FitPlot::tr("length of the line, mm"), "length_mm", 1e-3};
    case FitKind::Power:
      return {FitPlot::tr("dialled, W"), "dialled_W", 1};
    case FitKind::Ceiling:
      break;
  }
  return {FitPlot::tr("repetition rate, kHz"), "repetition_rate_kHz", 1e3};
}

AxisUnit upward(FitKind kind) {
  switch (kind) {
    case FitKind::SpotByEnergy:
    case FitKind::SpotByLineEnergy:
    case FitKind::SpotByPower:
      return {FitPlot::tr("width of the mark, µm"), "width_um", 1e-6};
    case FitKind::Caustic:
      return {FitPlot::tr("spot diameter, µm"), "diameter_um", 1e-6};
    case FitKind::LitWidth:
    case FitKind::LitHeight:
      return {FitPlot::tr("lit, mm"), "lit_mm", 1e-3};
    case FitKind::Turnaround:
      return {FitPlot::tr("time beside drawing, µs"), "turnaround_us", 1e-6};
    case FitKind::Power:
      return {FitPlot::tr("at the part, W"), "power_W", 1};
    case FitKind::Ceiling:
      break;
  }
  return {FitPlot::tr("mean power, W"), "power_W", 1};
}

}  // namespace

FitPlot::FitPlot(QWidget* parent) : PlotView(FitPlot::tr("What the readings say"), FitPlot::tr("Fit"), parent) {
  setObjectName(QStringLiteral("fitPlot"));
  QCustomPlot* plot = canvas();
  m_low = plot->addGraph();
  m_high = plot->addGraph();
  m_likely = plot->addGraph();
  m_points = plot->addGraph();
  m_points->setLineStyle(QCPGraph::lsNone);
  m_bars = new QCPErrorBars(plot->xAxis, plot->yAxis);
  m_bars->setDataPlottable(m_points);
  m_bars->setWhiskerWidth(7);
  m_high->setChannelFillGraph(m_low);
  new Painting(plot, QStringLiteral("legend"), Painting::Clip::Whole, [this](QCPPainter& painter, const QRectF& box) {
    if (!m_picture || m_picture->curve.empty()) return;
    paintKey(painter, box,
             {{KeyEntry::Mark::Line, tones().accent, FitPlot::tr("fit")},
              {KeyEntry::Mark::Area, blend(tones().sheet, tones().accent, 0.22), FitPlot::tr("nine in ten such fits")}},
             tones().ink);
  });
  ready();
}

void FitPlot::setPicture(std::optional<FitPicture> picture, const QString& emptyText) {
  const bool other = picture.has_value() != m_picture.has_value() || (picture && picture->kind != m_picture->kind);
  m_picture = std::move(picture);
  m_nothing = emptyText;
  refreshAll();
  if (other) fit();
}

QString FitPlot::missing() const {
  if (!m_picture) return m_nothing;
  return m_picture->points.empty() ? QString::fromStdString(m_picture->problem) : QString();
}

QString FitPlot::summary() const {
  QStringList parts;
  if (!m_picture->problem.empty()) parts << QString::fromStdString(m_picture->problem);
  for (const std::string& remark : m_picture->remarks) parts << QString::fromStdString(remark);
  if (parts.isEmpty()) return FitPlot::tr("%1 readings").arg(m_picture->points.size());
  QString text = parts.join(QStringLiteral(". "));
  text[0] = text[0].toUpper();
  return text;
}

void FitPlot::refresh() {
  const AxisUnit x = across(m_picture->kind), y = upward(m_picture->kind);
  QVector<QCPGraphData> low, likely, high, points;
  for (const CurvePoint& point : m_picture->curve) {
    low.append({point.x / x.inSI, point.y.low / y.inSI});
    likely.append({point.x / x.inSI, point.y.likely / y.inSI});
    high.append({point.x / x.inSI, point.y.high / y.inSI});
  }
  std::vector<ReadingPoint> sorted = m_picture->points;
  std::ranges::sort(sorted, {}, &ReadingPoint::x);
  QVector<double> bars;
  for (const ReadingPoint& point : sorted) {
    points.append({point.x / x.inSI, point.y.value / y.inSI});
    bars.append(point.y.uncertainty.value_or(0) / y.inSI);
  }
  m_low->data()->set(low, true);
  m_likely->data()->set(likely, true);
  m_high->data()->set(high, true);
  m_points->data()->set(points, true);
  m_bars->setData(bars);
  canvas()->xAxis->setLabel(x.label);
  canvas()->yAxis->setLabel(y.label);
}

void FitPlot::restyle(const Tones& tones) {
  QColor band = tones.accent;
  band.setAlphaF(0.22F);
  m_low->setPen(Qt::NoPen);
  m_high->setPen(Qt::NoPen);
  m_high->setBrush(band);
  m_likely->setPen(QPen(tones.accent, 1.5));
  m_points->setScatterStyle(QCPScatterStyle(QCPScatterStyle::ssCircle, QPen(tones.ink, 1.5), tones.sheet, 7));
  m_bars->setPen(QPen(tones.ink, 1));
  canvas()->axisRect()->setMinimumMargins(QMargins(54, 26, 14, 0));
}

void FitPlot::fitAxes() {
  const AxisUnit x = across(m_picture->kind), y = upward(m_picture->kind);
  QCPRange reach(m_picture->points.front().x / x.inSI, m_picture->points.front().x / x.inSI), height(0, 0);
  for (const ReadingPoint& point : m_picture->points) {
    reach.expand(point.x / x.inSI);
    height.expand((point.y.value + point.y.uncertainty.value_or(0)) / y.inSI);
  }
  for (const CurvePoint& point : m_picture->curve) {
    reach.expand(point.x / x.inSI);
    height.expand(point.y.high / y.inSI);
    height.expand(point.y.likely / y.inSI);
  }
  const double margin = std::max(reach.size() * 0.05, std::abs(reach.upper) * 0.02);
  canvas()->xAxis->setRange(reach.lower - margin, reach.upper + margin);
  canvas()->yAxis->setRange(height.lower * 1.08, height.upper > 0 ? height.upper * 1.08 : 1);
}

QString FitPlot::readoutAt(double x, double y) const {
  return FitPlot::tr("%1: %2; %3: %4")
      .arg(across(m_picture->kind).label, format::number(x, 3), upward(m_picture->kind).label, format::number(y, 3));
}

QString FitPlot::csv() const {
  const AxisUnit x = across(m_picture->kind), y = upward(m_picture->kind);
  const QString up = QLatin1String(y.key);
  PlotTable table{{QLatin1String(x.key), up + QStringLiteral("_read"), up + QStringLiteral("_low"), up + QStringLiteral("_likely"),
                   up + QStringLiteral("_high")},
                  {}};
  const double none = std::numeric_limits<double>::quiet_NaN();
  for (const ReadingPoint& point : m_picture->points) table.rows.push_back({point.x / x.inSI, point.y.value / y.inSI, none, none, none});
  for (const CurvePoint& point : m_picture->curve)
    table.rows.push_back({point.x / x.inSI, none, point.y.low / y.inSI, point.y.likely / y.inSI, point.y.high / y.inSI});
  return csvText(table);
}

}  // namespace bw

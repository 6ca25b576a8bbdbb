// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/power_plot.h"

#include "core/beam/delivery.h"
#include "ui/fields/quantity_text.h"
#include "ui/plots/painting.h"
#include "ui/style/format.h"

#include <algorithm>

namespace bw {

namespace {

constexpr double Hz_per_kHz = 1e3;
constexpr Qt::PenStyle styles[] = {Qt::SolidLine, Qt::DashLine, Qt::DotLine, Qt::DashDotLine};

}  // namespace

PowerPlot::PowerPlot(QWidget* parent) : PlotView(tr("Most power against repetition rate"), tr("Power against rate, W"), parent) {
  QCustomPlot* plot = canvas();
  plot->xAxis->setScaleType(QCPAxis::stLogarithmic);
  plot->xAxis->setTicker(QSharedPointer<QCPAxisTickerLog>(new QCPAxisTickerLog));
  plot->xAxis->setNumberFormat(QStringLiteral("f"));
  plot->xAxis->setNumberPrecision(0);
  new Painting(plot, QStringLiteral("legend"), Painting::Clip::Whole,
               [this](QCPPainter& painter, const QRectF& box) { paintNames(painter, box); });
  ready();
  fit();  // the scale by tens counts as a zoom until then
}

void PowerPlot::setCurves(const Machine& machine, std::vector<PowerCurve> curves) {
  m_machine = machine;
  m_curves = std::move(curves);
  refreshAll();
}

QString PowerPlot::missing() const {
  if (!m_curves.empty()) return {};
  if (m_machine->kind == MachineKind::Continuous)
    return tr("Continuous beam: %1 at any setting of the scan, no repetition rate.").arg(format::power(fullPower_W(*m_machine)));
  return tr("No rates or pulse durations stated yet. Enter them under “Edit”.");
}

QString PowerPlot::summary() const {
  const PowerCurve& first = m_curves.front();
  const QString energy = format::energy(first.points.front().pulseEnergy_J);
  if (!first.fullFrom_Hz) return tr("Pulses of %1; the full power is reached at no rate").arg(energy);
  const QString full = tr("%1 from %2 on").arg(format::power(fullPower_W(*m_machine)), format::frequency(*first.fullFrom_Hz));
  return first.points.front().rate_Hz < *first.fullFrom_Hz ? tr("%1; below it pulses of %2").arg(full, energy) : full;
}

void PowerPlot::refresh() {
  while (canvas()->graphCount() < static_cast<int>(m_curves.size())) canvas()->addGraph();
  while (canvas()->graphCount() > static_cast<int>(m_curves.size())) canvas()->removeGraph(canvas()->graphCount() - 1);
  for (std::size_t i = 0; i < m_curves.size(); ++i) {
    QVector<QCPGraphData> data;
    // A straight line is bent on a scale by tens: it is drawn in short pieces.
    const auto& points = m_curves[i].points;
    for (std::size_t at = 0; at + 1 < points.size(); ++at) {
      constexpr int pieces = 24;
      for (int piece = 0; piece <= pieces; ++piece) {
        const double share = static_cast<double>(piece) / pieces;
        data.append({std::lerp(points[at].rate_Hz, points[at + 1].rate_Hz, share) / Hz_per_kHz,
                     std::lerp(points[at].power_W, points[at + 1].power_W, share)});
      }
    }
    canvas()->graph(static_cast<int>(i))->data()->set(data, true);
  }
  restyle(tones());
}

void PowerPlot::restyle(const Tones& tones) {
  for (int i = 0; i < canvas()->graphCount(); ++i)
    canvas()->graph(i)->setPen(QPen(i == 0 ? tones.accent : tones.ink, i == 0 ? 2 : 1, styles[i % 4]));
  canvas()->xAxis->setLabel(tr("repetition rate, kHz"));
  canvas()->yAxis->setLabel(tr("mean power, W"));
  canvas()->axisRect()->setMinimumMargins(QMargins(46, m_curves.size() > 1 ? 24 : 8, 14, 0));
}

void PowerPlot::fitAxes() {
  const auto& points = m_curves.front().points;
  const double low = points.front().rate_Hz / Hz_per_kHz, high = points.back().rate_Hz / Hz_per_kHz;
  canvas()->xAxis->setRange(low / 1.15, std::max(high, low * 1.01) * 1.15);
  canvas()->yAxis->setRange(0, fullPower_W(*m_machine) * 1.12);
}

void PowerPlot::paintNames(QPainter& painter, const QRectF& box) const {
  if (m_curves.size() < 2) return;
  std::vector<KeyEntry> entries;
  for (std::size_t i = 0; i < m_curves.size(); ++i) {
    const auto mark = i % 4 == 0 ? KeyEntry::Mark::Line : i % 4 == 1 ? KeyEntry::Mark::DashedLine : KeyEntry::Mark::DottedLine;
    entries.push_back({mark, i == 0 ? tones().accent : tones().ink, withUnit(m_curves[i].pulseDuration_s, quantities::pulseDuration)});
  }
  paintKey(painter, box, entries, tones().ink);
}

QString PowerPlot::readoutAt(double rate_kHz, double power_W) const {
  return tr("%1, %2").arg(format::frequency(rate_kHz * Hz_per_kHz), format::power(power_W));
}

QString PowerPlot::csv() const {
  PlotTable table{{QStringLiteral("pulse_duration_ns"), QStringLiteral("repetition_rate_kHz"), QStringLiteral("power_W"),
                   QStringLiteral("pulse_energy_mJ")},
                  {}};
  for (const PowerCurve& curve : m_curves) {
    for (const PowerPoint& point : curve.points)
      table.rows.push_back({curve.pulseDuration_s * 1e9, point.rate_Hz / Hz_per_kHz, point.power_W, point.pulseEnergy_J * 1e3});
  }
  return csvText(table);
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/swath_plot.h"

#include "core/files/assessment_file.h"
#include "ui/plots/dose_words.h"
#include "ui/plots/painting.h"
#include "ui/style/format.h"
#include "ui/style/hatch.h"
#include "ui/style/units.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr double outerShare = 0.1;  // of the lit extent, each side: what the edge ratio compares

using Values = std::vector<double>;

void fill(QCPGraph* graph, const Values& position_m, const Values& dose_J_m2, double shift_m) {
  QVector<QCPGraphData> data;
  data.reserve(static_cast<qsizetype>(position_m.size()));
  for (std::size_t i = 0; i < position_m.size(); ++i) data.append({(position_m[i] + shift_m) * mm_per_m, dose_J_m2[i] / J_m2_per_J_cm2});
  graph->data()->set(data, true);
}

QString capital(QString text) {
  if (!text.isEmpty()) text[0] = text[0].toUpper();
  return text;
}

double most(const Values& values) { return values.empty() ? 0 : *std::max_element(values.begin(), values.end()); }

}  // namespace

SwathPlot::SwathPlot(QWidget* parent) : PlotView(tr("Dose across the swath"), tr("Across the swath, J/cm²"), parent) {
  QCustomPlot* plot = canvas();
  plot->xAxis->setLabel(tr("across the swath, mm"));
  plot->yAxis->setLabel(tr("dose, J/cm²"));
  new Painting(plot, QStringLiteral("grid"), Painting::Clip::AxisRect,
               [this](QCPPainter& painter, const QRectF& box) { paintBands(painter, box); });
  m_left = plot->addGraph();
  m_right = plot->addGraph();
  m_one = plot->addGraph();
  m_summed = plot->addGraph();
  m_ghost = plot->addGraph();
  m_summed->setName(tr("with its neighbours"));
  m_one->setName(tr("one swath alone"));
  new Painting(plot, QStringLiteral("legend"), Painting::Clip::AxisRect, [this](QCPPainter& painter, const QRectF& box) {
    paintMean(painter, box);
    paintPlace(painter, box);
  });
  new Painting(plot, QStringLiteral("legend"), Painting::Clip::Whole,
               [this](QCPPainter& painter, const QRectF& box) { paintOutside(painter, box); });
  ready();
}

QString SwathPlot::missing() const {
  if (now()->profile.position_m.size() > 1) return {};
  return tr("No swath yet: the hand stands still. Set a travel speed and a step-over above zero.");
}

double SwathPlot::stepOver_mm() const { return now()->map != nullptr ? now()->map->across_m() * mm_per_m : 0; }

QString SwathPlot::summary() const {
  if (!now()->dose) return {};
  const DoseResult& dose = *now()->dose;
  QString text = rippleWords(dose.ripple);
  if (isCompact()) return dose.edgeRatio ? text + tr(", edges %1 ×").arg(format::number(*dose.edgeRatio)) : text;
  text += dose.edgeRatio ? tr(", edges %1 × the middle").arg(format::number(*dose.edgeRatio))
                         : tr(", edge ratio not defined for so narrow a swath");
  if (ghost() != nullptr && ghost()->dose) {
    text += QStringLiteral("  →  ") + rippleWords(ghost()->dose->ripple);
    return ghost()->dose->edgeRatio ? text + tr(", edges %1 ×").arg(format::number(*ghost()->dose->edgeRatio)) : text;
  }
  for (const QString& more : {stripeWords(dose), capital(outOfStepWords(dose))})
    if (!more.isEmpty()) text += QStringLiteral(". ") + more;
  return text + tr(". Averaged along the travel. Single estimate, spread not computed");
}

void SwathPlot::refresh() {
  const SwathProfile& profile = now()->profile;
  const double step_m = stepOver_mm() / mm_per_m;
  fill(m_summed, profile.position_m, profile.summed_J_m2, 0);
  fill(m_one, profile.position_m, profile.oneSwath_J_m2, 0);
  for (QCPGraph* neighbour : {m_left, m_right}) neighbour->setVisible(step_m > 0 && !isCompact());
  fill(m_left, profile.position_m, profile.oneSwath_J_m2, -step_m);
  fill(m_right, profile.position_m, profile.oneSwath_J_m2, step_m);
  m_ghost->setVisible(ghost() != nullptr);
  if (ghost() != nullptr) fill(m_ghost, ghost()->profile.position_m, ghost()->profile.summed_J_m2, 0);
}

void SwathPlot::restyle(const Tones& tones) {
  QColor veil = tones.accent;
  veil.setAlphaF(0.16F);
  m_summed->setPen(QPen(tones.accent, 1));
  m_summed->setBrush(veil);
  m_one->setPen(QPen(tones.ink, 1, Qt::DotLine));
  for (QCPGraph* neighbour : {m_left, m_right}) neighbour->setPen(QPen(blend(tones.sheet, tones.quiet, 0.7), 1, Qt::DotLine));
  m_ghost->setPen(QPen(tones.ink, 1, Qt::DashLine));
  canvas()->axisRect()->setMinimumMargins(isCompact() ? QMargins(0, 4, 6, 0) : QMargins(50, 46, 14, 0));
  canvas()->xAxis->setLabel(isCompact() ? QString() : tr("across the swath, mm"));
  canvas()->yAxis->setLabel(isCompact() ? QString() : tr("dose, J/cm²"));
}

void SwathPlot::fitAxes() {
  const SwathProfile& profile = now()->profile;
  const double reach = std::max(profile.litExtent_m * mm_per_m, stepOver_mm()) * 0.56;
  const double high = std::max(most(profile.summed_J_m2), most(profile.oneSwath_J_m2)) / J_m2_per_J_cm2;
  canvas()->xAxis->setRange(-reach, reach);
  canvas()->yAxis->setRange(0, high > 0 ? high * 1.06 : 1);
}

QString SwathPlot::readoutAt(double across_mm, double) const {
  const auto value = [across_mm](const QCPGraph* graph) {
    const auto found = graph->data()->findBegin(across_mm);
    return found == graph->data()->constEnd() ? 0 : found->value * J_m2_per_J_cm2;
  };
  return tr("%1 from the middle: %2 with neighbours, %3 alone")
      .arg(format::millimetres(across_mm / mm_per_m), format::dose(value(m_summed)), format::dose(value(m_one)));
}

QString SwathPlot::csv() const { return QString::fromStdString(profileCsv(now()->profile)); }

void SwathPlot::paintBands(QPainter& painter, const QRectF& box) const {
  if (now() == nullptr) return;
  const double extent = now()->profile.litExtent_m * mm_per_m;
  for (const double side : {-1.0, 1.0}) {
    const double outer = canvas()->xAxis->coordToPixel(side * extent / 2),
                 inner = canvas()->xAxis->coordToPixel(side * extent * (0.5 - outerShare));
    const QRectF band = QRectF(QPointF(std::min(outer, inner), box.top()), QPointF(std::max(outer, inner), box.bottom()));
    painter.fillRect(band, blend(tones().sheet, tones().line, 0.42));
  }
}

void SwathPlot::paintMean(QPainter& painter, const QRectF& box) const {
  if (now() == nullptr || !now()->dose || isCompact()) return;
  const double y = canvas()->yAxis->coordToPixel(now()->dose->mean_J_m2 / J_m2_per_J_cm2);
  painter.setPen(QPen(tones().quiet, 1, Qt::DashLine));
  painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
  paintLabel(painter, QRectF(box.center().x() - 100, y - 20, 200, 18), Qt::AlignHCenter | Qt::AlignBottom,
             tr("mean %1").arg(format::dose(now()->dose->mean_J_m2)), tones().ink, tones().sheet);
}

void SwathPlot::paintPlace(QPainter& painter, const QRectF& box) const {
  if (!place() || now() == nullptr || now()->map == nullptr) return;
  const double step = stepOver_mm();
  double across = (place()->across_m - now()->profile.middle_m) * mm_per_m;
  across -= std::round(across / step) * step;
  const double x = canvas()->xAxis->coordToPixel(across);
  painter.setPen(QPen(tones().ink, 2));
  painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom()));
  if (isCompact()) return;
  const bool left = x > box.center().x();
  paintLabel(painter, QRectF(left ? x - 106 : x + 6, box.top() + 4, 100, 18), (left ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignTop,
             tr("picked place"), tones().ink, tones().sheet);
}

/// Key and step-over, above the curves.
void SwathPlot::paintOutside(QPainter& painter, const QRectF& box) const {
  if (isCompact() || now() == nullptr) return;
  std::vector<KeyEntry> key = {{KeyEntry::Mark::Line, tones().accent, tr("with neighbours")},
                               {KeyEntry::Mark::DottedLine, tones().ink, tr("one swath alone")},
                               {KeyEntry::Mark::Area, blend(tones().sheet, tones().line, 0.6), tr("swath edge, outer tenths")}};
  if (ghost() != nullptr) key.push_back({KeyEntry::Mark::DashedLine, tones().ink, tr("after the change")});
  paintKey(painter, box.translated(0, -20), key, tones().ink);
  paintStepOver(painter, box);
}

void SwathPlot::paintStepOver(QPainter& painter, const QRectF& box) const {
  const double step = stepOver_mm();
  if (step <= 0) return;
  const double y = box.top() - 9;
  const double left = std::max(box.left(), canvas()->xAxis->coordToPixel(-step / 2)),
               right = std::min(box.right(), canvas()->xAxis->coordToPixel(step / 2));
  if (right - left < 40) return;
  painter.setPen(QPen(tones().quiet, 1));
  painter.drawLine(QPointF(left, y), QPointF(right, y));
  for (const double x : {left, right}) painter.drawLine(QPointF(x, y - 4), QPointF(x, y + 4));
  paintLabel(painter, QRectF(left, y - 9, right - left, 18), Qt::AlignCenter, tr("step-over %1").arg(format::millimetres(step / mm_per_m)),
             tones().ink, tones().sheet);
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/heat_plot.h"

#include "core/files/assessment_file.h"
#include "ui/plots/painting.h"
#include "ui/style/format.h"
#include "ui/style/hatch.h"
#include "ui/style/range_text.h"

#include <QMenu>
#include <algorithm>
#include <cmath>
#include <limits>

namespace bw {

namespace {

constexpr double labelHeight = 17;
constexpr double decades = 300;  // a trace that spans less reads better on an even axis

void fill(QCPGraph* graph, const std::vector<double>& time_s, const std::vector<double>& temperature_C) {
  QVector<QCPGraphData> data;
  data.reserve(static_cast<qsizetype>(time_s.size()));
  for (std::size_t i = 0; i < time_s.size(); ++i) data.append({time_s[i], temperature_C[i]});
  graph->data()->set(data, true);
}

double highest(const std::vector<double>& values) {
  return values.empty() ? -std::numeric_limits<double>::infinity() : *std::max_element(values.begin(), values.end());
}

QString shortTime(double time_s) {
  if (time_s < 0.0995) return QLocale().toString(time_s * 1e3) + QStringLiteral(" ms");
  if (time_s < 59.5) return QLocale().toString(time_s) + QStringLiteral(" s");
  return time_s < 3599.5 ? QLocale().toString(std::round(time_s / 60)) + QStringLiteral(" min")
                         : QLocale().toString(time_s / 3600, 'g', 3) + QStringLiteral(" h");
}

/// Times as people say them, for either axis; `most`: how many labels there is room for.
QSharedPointer<QCPAxisTicker> timeTicker(double from_s, double to_s, bool logarithmic, int most) {
  QSharedPointer<QCPAxisTickerText> ticker(new QCPAxisTickerText);
  ticker->setSubTickCount(0);
  if (logarithmic) {
    const std::vector<double> fine = {1e-5, 1e-4, 1e-3, 1e-2, 0.1, 1, 10, 60, 600, 3600, 36000}, coarse = {1e-5, 1e-3, 0.1, 10, 600, 36000};
    for (const double time : most > 5 ? fine : coarse) {
      if (time >= from_s * 0.999 && time <= to_s * 1.001) ticker->addTick(time, shortTime(time));
    }
    return ticker;
  }
  for (const double step : {0.001, 0.01, 0.1, 1.0, 5.0, 10.0, 30.0, 60.0, 300.0, 600.0, 1200.0, 1800.0, 3600.0, 7200.0, 14400.0}) {
    if ((to_s - from_s) / step > most) continue;
    for (double time = std::ceil(from_s / step) * step; time <= to_s; time += step)
      ticker->addTick(time, time == 0 ? QStringLiteral("0") : shortTime(time));
    return ticker;
  }
  return ticker;
}

}  // namespace

HeatPlot::HeatPlot(QWidget* parent) : PlotView(tr("Heat: front and back of the metal"), tr("Heat, °C"), parent) {
  QCustomPlot* plot = canvas();
  new Painting(plot, QStringLiteral("grid"), Painting::Clip::AxisRect, [this](QCPPainter& painter, const QRectF& box) {
    paintAmbient(painter, box);
    paintPasses(painter, box);
  });
  m_back = plot->addGraph();
  m_front = plot->addGraph();
  m_ghostBack = plot->addGraph();
  m_ghostFront = plot->addGraph();
  m_front->setName(tr("front"));
  m_back->setName(tr("back"));
  new Painting(plot, QStringLiteral("legend"), Painting::Clip::AxisRect, [this](QCPPainter& painter, const QRectF& box) {
    paintLimits(painter, box);
    paintPeaks(painter, box);
    paintSpreads(painter, box);
  });
  new Painting(plot, QStringLiteral("legend"), Painting::Clip::Whole,
               [this](QCPPainter& painter, const QRectF& box) { paintAbove(painter, box); });
  ready();
}

QString HeatPlot::missing() const {
  if (now()->thermal.trace.time_s.size() > 1) return {};
  return tr("No temperatures computed for this plan. Give the part's metal and thickness, and a travel speed above zero.");
}

QString HeatPlot::summary() const {
  const ThermalResult& thermal = now()->thermal;
  QStringList parts;
  const auto face = [this](std::optional<Spread> Ranges::*range, double single_C) {
    const std::optional<Spread> known = now()->ranges ? (*now()->ranges).*range : std::nullopt;
    if (known) return format::ends(*known, format::temperature);
    return format::temperature(single_C);
  };
  if (thermal.front_C) parts << tr("front %1").arg(face(&Ranges::front_C, *thermal.front_C));
  if (thermal.back_C) parts << tr("back %1").arg(face(&Ranges::back_C, *thermal.back_C));
  if (parts.isEmpty()) return {};
  const bool spread = now()->ranges && now()->ranges->back_C;
  if (isCompact()) return parts.join(QStringLiteral(", "));
  const QString text = (spread ? tr("Hottest anywhere, 9 in 10 such jobs: ") : tr("Hottest anywhere: ")) + parts.join(QStringLiteral(", "));
  if (ghost() != nullptr && ghost()->thermal.back_C) return text + tr("  →  back %1").arg(format::temperature(*ghost()->thermal.back_C));
  return text + (place() ? tr(". The curves keep their own place in the last swath, not the picked one")
                         : tr(". Curves: one place in the last swath") + (spread ? QString() : QStringLiteral(". ") + spreadWords()));
}

double HeatPlot::start_s() const {
  const auto& times = now()->thermal.trace.time_s;
  const auto found = std::find_if(times.begin(), times.end(), [](double time) { return time > 0; });
  return found == times.end() ? 1e-3 : *found;
}

void HeatPlot::refresh() {
  const HeatTrace& trace = now()->thermal.trace;
  fill(m_front, trace.time_s, trace.front_C);
  fill(m_back, trace.time_s, trace.back_C);
  const HeatTrace other = ghost() != nullptr ? ghost()->thermal.trace : HeatTrace{};
  fill(m_ghostFront, other.time_s, other.front_C);
  fill(m_ghostBack, other.time_s, other.back_C);
}

void HeatPlot::restyle(const Tones& tones) {
  m_front->setPen(QPen(tones.accent, 1));
  m_back->setPen(QPen(tones.ink, 1));
  QColor veil = tones.accent;
  veil.setAlphaF(0.12F);
  m_front->setChannelFillGraph(m_back);
  m_front->setBrush(veil);
  m_ghostFront->setPen(QPen(tones.accent, 1, Qt::DashLine));
  m_ghostBack->setPen(QPen(tones.ink, 1, Qt::DashLine));
  canvas()->axisRect()->setMinimumMargins(isCompact() ? QMargins(0, 4, 10, 0) : QMargins(50, 26, 16, 0));
  canvas()->xAxis->setLabel(isCompact() ? QString() : tr("time since the first line"));
  canvas()->yAxis->setLabel(isCompact() ? QString() : tr("temperature, °C"));
}

double HeatPlot::hottest() const { return std::max(highest(now()->thermal.trace.front_C), highest(now()->thermal.trace.back_C)); }

void HeatPlot::fitAxes() {
  const auto& times = now()->thermal.trace.time_s;
  m_logarithmic = m_logarithmicByHand.value_or(times.back() > decades * start_s());
  canvas()->xAxis->setScaleType(m_logarithmic ? QCPAxis::stLogarithmic : QCPAxis::stLinear);
  canvas()->xAxis->setRange(m_logarithmic ? start_s() : std::min(0.0, times.front()), times.back());
  double top = hottest();
  for (const LimitResult& limit : now()->thermal.limits) {
    const double from = project().part.startTemperature_C;
    if (limit.limit_C - from < 2.2 * (hottest() - from)) top = std::max(top, limit.limit_C);  // a limit far above would flatten the curves
  }
  for (const auto& range : {now()->ranges ? now()->ranges->front_C : std::nullopt, now()->ranges ? now()->ranges->back_C : std::nullopt})
    if (range && std::isfinite(range->high)) top = std::max(top, range->high);
  const double low = std::min(project().part.ambientTemperature_C, project().part.startTemperature_C);
  canvas()->yAxis->setRange(std::min(0.0, low), low + (top - low) * 1.18);
  setTicks();
}

void HeatPlot::setTicks() {
  const QCPRange range = canvas()->xAxis->range();
  canvas()->xAxis->setTicker(timeTicker(range.lower, range.upper, m_logarithmic, isCompact() ? 3 : 8));
}

void HeatPlot::setLogarithmic(bool logarithmic) {
  m_logarithmicByHand = logarithmic;
  fit();
}

void HeatPlot::extendMenu(QMenu& menu) {
  QAction* action = menu.addAction(tr("Time axis in powers of ten"));
  action->setCheckable(true);
  action->setChecked(m_logarithmic);
  connect(action, &QAction::toggled, this, &HeatPlot::setLogarithmic);
}

/// Lines with hatching beyond, the label above; labels of close limits step aside.
void HeatPlot::paintLimits(QPainter& painter, const QRectF& box) const {
  if (now() == nullptr) return;
  std::vector<LimitResult> limits = now()->thermal.limits;
  std::sort(limits.begin(), limits.end(), [](const LimitResult& a, const LimitResult& b) { return a.limit_C < b.limit_C; });
  double lastLabel = box.bottom() + labelHeight;
  for (const LimitResult& limit : limits) {
    const double y = canvas()->yAxis->coordToPixel(limit.limit_C);
    if (y < box.top() || y > box.bottom()) continue;
    QPainterPath beyond;
    beyond.addRect(QRectF(QPointF(box.left(), y - 9), QPointF(box.right(), y)));
    if (!limit.warnOnly) paintHatch(painter, beyond, Hatch::Diagonal, blend(tones().sheet, tones().quiet, 0.8));
    painter.setPen(
        QPen(limit.warnOnly ? tones().quiet : tones().ink, limit.warnOnly ? 1 : 2, limit.warnOnly ? Qt::DotLine : Qt::SolidLine));
    painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
    if (isCompact()) continue;
    const double bottom = std::min(y - 2, lastLabel - labelHeight);
    const QString brief = tr("%1  %2").arg(format::temperature(limit.limit_C), QString::fromStdString(limit.name));
    paintLimitLabel(painter, QRectF(box.left() + 8, bottom - labelHeight, box.width() - 16, labelHeight), brief,
                    tr(": %1 predicted").arg(format::temperature(limit.predicted_C)));
    lastLabel = bottom;
  }
}

/// In full where no curve runs through it, else in brief, else in brief at the left.
void HeatPlot::paintLimitLabel(QPainter& painter, const QRectF& row, const QString& brief, const QString& more) const {
  const QFontMetricsF metrics(painter.font());
  for (const QString& text : {brief + more, brief}) {
    const double width = metrics.horizontalAdvance(text) + 8;
    std::vector<QRectF> places;
    for (double left = row.left(); left + width <= row.right(); left += 20) places.emplace_back(left, row.top(), width, row.height());
    if (places.empty()) continue;
    const QRectF place = clearOf(places);
    if (text != brief && !isClear(place)) continue;
    paintLabel(painter, place, Qt::AlignCenter, text, tones().ink, tones().sheet);
    return;
  }
}

/// The first of the places that no curve runs through, or the first of all.
QRectF HeatPlot::clearOf(const std::vector<QRectF>& places) const {
  const auto found = std::find_if(places.begin(), places.end(), [this](const QRectF& box) { return isClear(box); });
  return found == places.end() ? places.front() : *found;
}

bool HeatPlot::isClear(const QRectF& box) const {
  const auto crossed = [this, &box](const QCPGraph* graph) {
    const auto end = graph->data()->findEnd(canvas()->xAxis->pixelToCoord(box.right()));
    double top = std::numeric_limits<double>::infinity(), bottom = -top;  // of the curve there, in pixels
    for (auto point = graph->data()->findBegin(canvas()->xAxis->pixelToCoord(box.left())); point != end; ++point) {
      const double y = canvas()->yAxis->coordToPixel(point->value);
      top = std::min(top, y);
      bottom = std::max(bottom, y);
    }
    return top < box.bottom() && bottom > box.top();
  };
  return !crossed(m_front) && !crossed(m_back);
}

void HeatPlot::paintPasses(QPainter& painter, const QRectF& box) const {
  if (now() == nullptr) return;
  const auto& starts = now()->thermal.trace.passStart_s;
  painter.setPen(QPen(blend(tones().sheet, tones().quiet, 0.6), 1, Qt::DotLine));
  double free = box.left();
  for (std::size_t pass = 0; pass < starts.size(); ++pass) {
    if (m_logarithmic && starts[pass] <= 0) continue;
    const double x = canvas()->xAxis->coordToPixel(starts[pass]);
    if (x < box.left() || x > box.right()) continue;
    painter.setPen(QPen(blend(tones().sheet, tones().quiet, 0.6), 1, Qt::DotLine));
    painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom()));
    const QString text = x - free > 60 || free <= box.left() ? tr("pass %1").arg(pass + 1) : QString::number(pass + 1);
    const double width = QFontMetricsF(painter.font()).horizontalAdvance(text) + 4;
    if (isCompact() || x < free || x + width > box.right()) continue;
    painter.setPen(tones().quiet);
    painter.drawText(QRectF(x + 3, box.top() + 1, width, 16), Qt::AlignLeft | Qt::AlignVCenter, text);
    free = x + width + 4;
  }
}

void HeatPlot::paintPeaks(QPainter& painter, const QRectF& box) const {
  if (now() == nullptr || isCompact()) return;
  const HeatTrace& trace = now()->thermal.trace;
  const auto mark = [&](const std::vector<double>& curve, const QColor& colour, const QString& name, bool above) {
    if (curve.empty()) return;
    const auto peak = std::max_element(curve.begin(), curve.end());
    const QPointF at(canvas()->xAxis->coordToPixel(trace.time_s[static_cast<std::size_t>(peak - curve.begin())]),
                     canvas()->yAxis->coordToPixel(*peak));
    if (!box.contains(at)) return;
    painter.setPen(QPen(tones().sheet, 1.5));
    painter.setBrush(colour);
    painter.drawEllipse(at, 4, 4);
    const QString text = name + QLatin1Char(' ') + format::temperature(*peak);
    const double width = QFontMetricsF(painter.font()).horizontalAdvance(text) + 8, high = above ? at.y() - 20 : at.y() + 2;
    const QRectF right(at.x() + 6, high, width, 18), left(at.x() - 6 - width, high, width, 18);
    const QRectF place = right.right() > box.right() ? left : clearOf({right, left, right.translated(0, -18), left.translated(0, -18)});
    paintLabel(painter, place, Qt::AlignCenter, text, tones().ink, tones().sheet);
  };
  mark(trace.back_C, tones().ink, tr("back"), false);
  mark(trace.front_C, tones().accent, tr("front"), true);
}

/// At the right edge: a thin line for the hottest in nine of ten such jobs, a tick where it is most likely.
void HeatPlot::paintSpreads(QPainter& painter, const QRectF& box) const {
  if (now() == nullptr || !now()->ranges) return;
  const QCPAxis* y = canvas()->yAxis;
  double x = box.right() - 8;
  for (const auto& [spread, colour] : {std::pair{now()->ranges->back_C, tones().ink}, std::pair{now()->ranges->front_C, tones().accent}}) {
    if (!spread) continue;
    const double low = y->coordToPixel(spread->low), high = y->coordToPixel(spread->high), likely = y->coordToPixel(spread->middle);
    painter.setPen(QPen(colour, 2));
    painter.drawLine(QPointF(x, low), QPointF(x, high));
    painter.setPen(QPen(colour, 4));
    painter.drawLine(QPointF(x - 4, likely), QPointF(x + 4, likely));
    x -= 13;
  }
}

void HeatPlot::paintAmbient(QPainter& painter, const QRectF& box) const {
  const double y = canvas()->yAxis->coordToPixel(project().part.ambientTemperature_C);
  painter.setPen(QPen(tones().quiet, 1, Qt::DotLine));
  painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
  if (isCompact()) return;
  painter.setPen(tones().quiet);
  const bool below = y + 18 < box.bottom();
  painter.drawText(QRectF(box.left() + 8, below ? y + 1 : y - 17, box.width() - 16, 16), Qt::AlignRight | Qt::AlignVCenter,
                   tr("air %1").arg(format::temperature(project().part.ambientTemperature_C)));
}

void HeatPlot::paintAbove(QPainter& painter, const QRectF& box) const {
  if (isCompact() || now() == nullptr) return;
  std::vector<KeyEntry> key = {{KeyEntry::Mark::Line, tones().accent, tr("front")},
                               {KeyEntry::Mark::Line, tones().ink, tr("back")},
                               {KeyEntry::Mark::HatchedArea, tones().quiet, tr("beyond a limit")}};
  if (now()->ranges && now()->ranges->back_C) key.push_back({KeyEntry::Mark::Line, tones().quiet, tr("at the edge: 9 in 10 such jobs")});
  if (ghost() != nullptr) key.push_back({KeyEntry::Mark::DashedLine, tones().ink, tr("after the change")});
  paintKey(painter, box, key, tones().ink);
}

QString HeatPlot::readoutAt(double time_s, double) const {
  const auto value = [time_s](const QCPGraph* graph) {
    const auto found = graph->data()->findBegin(time_s);
    return found == graph->data()->constEnd() ? std::numeric_limits<double>::quiet_NaN() : found->value;
  };
  return tr("After %1: front %2, back %3")
      .arg(format::duration(time_s), format::temperature(value(m_front)), format::temperature(value(m_back)));
}

QString HeatPlot::csv() const { return QString::fromStdString(traceCsv(now()->thermal.trace)); }

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/depth_plot.h"

#include "ui/plots/painting.h"
#include "ui/plots/remaining.h"
#include "ui/style/format.h"
#include "ui/style/hatch.h"
#include "ui/style/range_text.h"
#include "ui/style/units.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace bw {

namespace {

constexpr int namesWidth = 134;

void fill(QCPGraph* graph, const PlaceHistory* place) {
  QVector<QCPGraphData> data;
  if (place != nullptr) {
    for (std::size_t pass = 0; pass < place->depth_m.size(); ++pass)
      data.append({static_cast<double>(pass), place->depth_m[pass] * um_per_m});
  }
  graph->data()->set(data, true);
}

void fill(QCPGraph* graph, const std::vector<Spread>* depths_m, double Spread::*end) {
  QVector<QCPGraphData> data;
  for (std::size_t pass = 0; depths_m != nullptr && pass < depths_m->size(); ++pass)
    data.append({static_cast<double>(pass), (*depths_m)[pass].*end * um_per_m});
  graph->data()->set(data, true);
}

const PlaceHistory* first(const std::vector<PlaceHistory>& places) { return places.empty() ? nullptr : &places.front(); }
const PlaceHistory* last(const std::vector<PlaceHistory>& places) { return places.empty() ? nullptr : &places.back(); }

/// Evenly chosen, the first and the last among them: more columns than this nobody reads.
std::vector<PlaceHistory> someOf(const std::vector<PlaceHistory>& places) {
  constexpr std::size_t most = 41;
  if (places.size() <= most) return places;
  std::vector<PlaceHistory> some;
  for (std::size_t i = 0; i < most; ++i) some.push_back(places[i * (places.size() - 1) / (most - 1)]);
  return some;
}

double longest(const std::vector<PlaceHistory>& places) {
  std::size_t points = 0;
  for (const PlaceHistory& place : places) points = std::max(points, place.depth_m.size());
  return points > 1 ? static_cast<double>(points - 1) : 1;
}

}  // namespace

const PlaceHistory* medianPlace(const std::vector<PlaceHistory>& places) {
  double total = 0, below = 0;
  for (const PlaceHistory& place : places) total += place.share;
  for (const PlaceHistory& place : places) {
    below += place.share;
    if (below >= total / 2) return &place;
  }
  return last(places);
}

DepthPlot::DepthPlot(QWidget* parent) : PlotView(tr("Down through the coat"), tr("Coat depth, µm"), parent) {
  QCustomPlot* plot = canvas();
  plot->yAxis->setRangeReversed(true);
  plot->yAxis->grid()->setVisible(false);
  new Painting(plot, QStringLiteral("background"), Painting::Clip::AxisRect,
               [this](QCPPainter& painter, const QRectF& box) { paintBands(painter, box); });
  for (QCPGraph** graph : {&m_least, &m_most, &m_median, &m_picked, &m_ghostLeast, &m_ghostMedian, &m_low, &m_high, &m_likely})
    *graph = plot->addGraph();
  m_most->setChannelFillGraph(m_least);
  m_high->setChannelFillGraph(m_low);
  m_least->setName(tr("last to clear"));
  m_median->setName(tr("half of the area"));
  m_most->setName(tr("first to clear"));
  new Painting(plot, QStringLiteral("legend"), Painting::Clip::Whole, [this](QCPPainter& painter, const QRectF& box) {
    paintNames(painter, box);
    paintPost(painter, box);
  });
  ready();
}

QString DepthPlot::missing() const {
  if (now()->removal.computed && !now()->removal.places.empty()) return {};
  for (const VerdictRow& row : now()->verdict) {
    if (row.check.find("off") != std::string::npos || row.check.find("remov") != std::string::npos) {
      return tr("Removal not computed here. %1 A proof patch answers it: strip a small square and count the passes.")
          .arg(QString::fromStdString(row.message));
    }
  }
  return tr("Removal not computed for this plan. Add the layers of the coat, or strip a small square and count the passes.");
}

int DepthPlot::plannedPasses() const { return settings() != nullptr ? settings()->passes : 0; }

QString DepthPlot::stallText() const {
  for (const LayerResult& layer : now()->removal.layers) {
    if (!layer.stallReason.empty())
      return tr("%1 stalls: %2").arg(QString::fromStdString(layer.name), QString::fromStdString(layer.stallReason));
  }
  return {};
}

QString DepthPlot::summary() const {
  const RemovalResult& removal = now()->removal;
  const QString needed = removal.passesNeeded == 1 ? tr("Bare after 1 pass")
                         : removal.passesNeeded    ? tr("Bare after %1 passes").arg(*removal.passesNeeded)
                                                   : tr("Never quite bare");
  if (isCompact())
    return hasSpread() && std::isfinite(now()->ranges->passesNeeded.low)
               ? tr("Bare after %1").arg(format::ends(now()->ranges->passesNeeded, format::passes))
               : needed;
  if (ghost() != nullptr && ghost()->removal.computed) {
    return needed + (ghost()->removal.passesNeeded ? tr("  →  bare after %1 passes").arg(*ghost()->removal.passesNeeded)
                                                   : tr("  →  never quite bare"));
  }
  if (const PlaceHistory* at = place() ? nearest() : nullptr) {
    return at->passesToClear ? tr("Picked place, %1: bare after %2 passes").arg(format::dose(at->dose_J_m2)).arg(*at->passesToClear)
                             : tr("Picked place, %1: not bare within what was computed").arg(format::dose(at->dose_J_m2));
  }
  const QString stall = stallText();
  if (hasSpread()) {
    const Ranges& ranges = *now()->ranges;
    Spread spread = ranges.passesNeeded;
    spread.middle = removal.passesNeeded ? *removal.passesNeeded : std::numeric_limits<double>::infinity();
    const QString passes = format::range(spread, format::passes, ranges.neverShare);
    const QString text = std::isfinite(ranges.passesNeeded.low) ? tr("Bare after %1").arg(passes) : passes;
    return text + (stall.isEmpty() ? tr(" (9 in 10 such jobs)") : QStringLiteral(". ") + stall);
  }
  return needed + (stall.isEmpty() ? QStringLiteral(". ") + spreadWords() : QStringLiteral(". ") + stall);
}

const PlaceHistory* DepthPlot::nearest() const { return place() ? nearestPlace(*now(), *place()) : nullptr; }

bool DepthPlot::hasSpread() const { return now() != nullptr && now()->ranges && now()->ranges->depth_m.size() > 1; }

void DepthPlot::refresh() {
  const auto& places = now()->removal.places;
  const std::vector<Spread>* spread = hasSpread() ? &now()->ranges->depth_m : nullptr;
  fill(m_low, spread, &Spread::low);
  fill(m_high, spread, &Spread::high);
  fill(m_likely, spread, &Spread::middle);
  for (QCPGraph* single : {m_least, m_median, m_most}) single->setVisible(spread == nullptr);
  fill(m_least, first(places));
  fill(m_median, medianPlace(places));
  fill(m_most, last(places));
  fill(m_picked, nearest());
  const bool ghosted = ghost() != nullptr && ghost()->removal.computed;
  fill(m_ghostLeast, ghosted ? first(ghost()->removal.places) : nullptr);
  fill(m_ghostMedian, ghosted ? medianPlace(ghost()->removal.places) : nullptr);
}

void DepthPlot::restyle(const Tones& tones) {
  QColor veil = tones.accent;
  veil.setAlphaF(0.14F);
  m_most->setBrush(veil);
  m_most->setPen(QPen(tones.accent, 1));
  m_least->setPen(QPen(tones.accent, 1, Qt::DashLine));
  m_median->setPen(QPen(tones.accent, 2.5));
  m_high->setBrush(veil);
  for (QCPGraph* bound : {m_low, m_high}) bound->setPen(QPen(tones.accent, 1));
  m_likely->setPen(QPen(tones.accent, 3));
  m_likely->setScatterStyle(isCompact() ? QCPScatterStyle() : QCPScatterStyle(QCPScatterStyle::ssDisc, tones.accent, tones.sheet, 6));
  m_picked->setPen(QPen(tones.ink, 2));
  m_picked->setScatterStyle(QCPScatterStyle(QCPScatterStyle::ssDisc, tones.ink, tones.sheet, isCompact() ? 0 : 5));
  m_median->setScatterStyle(isCompact() ? QCPScatterStyle() : QCPScatterStyle(QCPScatterStyle::ssDisc, tones.accent, tones.sheet, 6));
  for (QCPGraph* graph : {m_ghostLeast, m_ghostMedian}) graph->setPen(QPen(tones.ink, 1, Qt::DashLine));
  canvas()->axisRect()->setMinimumMargins(isCompact() ? QMargins(0, 4, 4, 0) : QMargins(50, 26, namesWidth, 0));
  canvas()->xAxis->setLabel(isCompact() ? QString() : tr("passes"));
  canvas()->yAxis->setLabel(isCompact() ? QString() : tr("depth, µm"));
}

void DepthPlot::fitAxes() {
  const std::vector<Band> layers = bands();
  const double total = layers.empty() ? 1 : layers.back().bottom_um;
  double passes = std::max(plannedPasses() * 1.15, now()->removal.passesNeeded.value_or(0) * 1.1);
  const double known = std::max(longest(now()->removal.places), hasSpread() ? static_cast<double>(now()->ranges->depth_m.size()) - 1 : 0);
  passes = std::max(1.0, std::min(known, std::max(passes, 6.0)));
  canvas()->xAxis->setRange(0, passes * 1.02);
  canvas()->yAxis->setRange(0, total * 1.12);
}

std::vector<DepthPlot::Band> DepthPlot::bands() const {
  std::vector<Band> made;
  double top = 0;
  for (const LayerResult& layer : now()->removal.layers) {
    const double bottom = top + layer.thickness_m * um_per_m;
    made.push_back({QString::fromStdString(layer.name), top, bottom, colourOf(layer, project()), behaviourOf(layer, project()), layer.kept,
                    !layer.stallReason.empty()});
    top = bottom;
  }
  return made;
}

void DepthPlot::paintBands(QPainter& painter, const QRectF& box) const {
  if (now() == nullptr || !emptyText().isEmpty()) return;
  const QCPAxis* y = canvas()->yAxis;
  double bottom = box.top();
  for (const Band& band : bands()) {
    QRectF area(QPointF(box.left(), y->coordToPixel(band.top_um)), QPointF(box.right(), y->coordToPixel(band.bottom_um)));
    painter.fillRect(area, blend(tones().sheet, band.colour, 0.3));
    painter.setPen(QPen(blend(tones().sheet, band.colour, 0.7), 1));
    painter.drawLine(area.bottomLeft(), area.bottomRight());
    bottom = area.bottom();
  }
  QPainterPath metal;
  metal.addRect(QRectF(QPointF(box.left(), bottom), box.bottomRight()));
  painter.fillPath(metal, blend(tones().sheet, tones().quiet, 0.22));
  paintHatch(painter, metal, Hatch::Metal, blend(tones().sheet, tones().quiet, 0.5));
}

std::vector<KeyEntry> DepthPlot::key() const {
  std::vector<KeyEntry> entries;
  if (hasSpread()) {
    entries = {{KeyEntry::Mark::Line, tones().accent, tr("likely, mean over the surface")},
               {KeyEntry::Mark::Area, blend(tones().sheet, tones().accent, 0.25), tr("9 in 10 such jobs, thicker coats too")}};
  } else {
    entries = {{KeyEntry::Mark::DashedLine, tones().accent, tr("last to clear")},
               {KeyEntry::Mark::Line, tones().accent, tr("half the area")},
               {KeyEntry::Mark::Area, blend(tones().sheet, tones().accent, 0.25), tr("up to the first to clear")}};
  }
  if (ghost() != nullptr) entries.push_back({KeyEntry::Mark::DashedLine, tones().ink, tr("after the change")});
  if (place()) entries.push_back({KeyEntry::Mark::Line, tones().ink, tr("picked place")});
  return entries;
}

/// The layers in their own colours at the right edge, and the key.
void DepthPlot::paintNames(QPainter& painter, const QRectF& box) const {
  if (now() == nullptr || isCompact()) return;
  const QCPAxis* y = canvas()->yAxis;
  painter.save();
  painter.setClipRect(QRectF(box.right(), box.top() - 8, namesWidth + 20, box.height() + 16));
  double free = box.top() - 8;
  for (const Band& band : bands()) {
    const QRectF chip(QPointF(box.right() + 1, y->coordToPixel(band.top_um)), QPointF(box.right() + 13, y->coordToPixel(band.bottom_um)));
    QPainterPath area;
    area.addRect(chip.intersected(QRectF(box.right(), box.top(), 20, box.height())));
    painter.fillPath(area, band.colour);
    paintHatch(painter, area, hatchOf(band.behaviour), inkOn(band.colour));
    painter.setPen(QPen(tones().line, 1));
    painter.drawPath(area);
    QString text = band.name;
    if (band.stalls) text += tr(" stalls");
    if (band.kept) text += tr(" (stays)");
    const double middle = std::max(free + 8, chip.center().y());
    if (middle > box.bottom()) break;
    QFont font = painter.font();
    font.setBold(band.stalls);
    painter.setFont(font);
    painter.setPen(tones().ink);
    const QRectF label(chip.right() + 5, middle - 9, namesWidth - 22, 18);
    painter.drawText(label, Qt::AlignLeft | Qt::AlignVCenter, QFontMetricsF(font).elidedText(text, Qt::ElideRight, label.width()));
    free = middle + 8;
  }
  painter.restore();
  paintKey(painter, box.adjusted(0, 0, namesWidth - 20, 0), key(), tones().ink);
}

/// What the plan does, as a post that stands in the coat.
void DepthPlot::paintPost(QPainter& painter, const QRectF& box) const {
  const int passes = now() == nullptr ? 0 : plannedPasses();
  const double x = canvas()->xAxis->coordToPixel(passes);
  if (passes <= 0 || x < box.left() || x > box.right()) return;
  painter.setPen(QPen(tones().ink, 2));
  painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom()));
  if (isCompact()) return;
  const bool left = x > box.center().x();
  paintLabel(painter, QRectF(left ? x - 126 : x + 6, box.bottom() - 22, 120, 18),
             (left ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter,
             tr("plan: %n pass(es)", nullptr, passes).replace(QStringLiteral("(es)"), passes == 1 ? QString() : QStringLiteral("es")),
             tones().ink, tones().sheet);
}

QString DepthPlot::readoutAt(double passes, double depth_um) const {
  const int pass = std::max(0, static_cast<int>(std::lround(passes)));
  const auto depth = [pass](const QCPGraph* graph) {
    const auto found = graph->data()->findBegin(pass, false);
    return found == graph->data()->constEnd() ? std::numeric_limits<double>::quiet_NaN() : found->value / um_per_m;
  };
  QString layer = tr("metal");
  for (const Band& band : bands()) {
    if (depth_um < band.bottom_um) {
      layer = band.name;
      break;
    }
  }
  if (hasSpread() && static_cast<std::size_t>(pass) < now()->ranges->depth_m.size()) {
    return tr("%1: %2 gone in the mean. Here: %3")
        .arg(passWords(pass), format::range(now()->ranges->depth_m[static_cast<std::size_t>(pass)], format::micrometres), layer);
  }
  return tr("After %1 passes: least %2, half the area %3, most %4 gone. Here: %5")
      .arg(pass).arg(format::micrometres(depth(m_least)), format::micrometres(depth(m_median)), format::micrometres(depth(m_most)), layer);
}

QString DepthPlot::csv() const {
  PlotTable table{{QStringLiteral("passes")}, {}};
  const std::vector<PlaceHistory> places = someOf(now()->removal.places);
  for (const PlaceHistory& place : places) {
    table.header
        << QStringLiteral("depth_um_at_%1_J_cm2_share_%2").arg(place.dose_J_m2 / J_m2_per_J_cm2, 0, 'g', 4).arg(place.share, 0, 'g', 3);
  }
  if (hasSpread())
    table.header << QStringLiteral("mean_depth_um_low") << QStringLiteral("mean_depth_um_likely") << QStringLiteral("mean_depth_um_high");
  for (std::size_t pass = 0; pass <= static_cast<std::size_t>(longest(places)); ++pass) {
    std::vector<double> row{static_cast<double>(pass)};
    for (const PlaceHistory& place : places) {
      row.push_back(pass < place.depth_m.size() ? place.depth_m[pass] * um_per_m : std::numeric_limits<double>::quiet_NaN());
    }
    if (hasSpread()) {
      constexpr Spread unknown{NAN, NAN, NAN};
      const Spread& depth = pass < now()->ranges->depth_m.size() ? now()->ranges->depth_m[pass] : unknown;
      for (const double value : {depth.low, depth.middle, depth.high}) row.push_back(value * um_per_m);
    }
    table.rows.push_back(std::move(row));
  }
  return csvText(table);
}

}  // namespace bw

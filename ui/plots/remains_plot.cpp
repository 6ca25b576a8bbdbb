// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/remains_plot.h"

#include "ui/plots/layer_map.h"
#include "ui/plots/painting.h"
#include "ui/plots/pass_stepper.h"
#include "ui/plots/remaining.h"
#include "ui/style/format.h"
#include "ui/style/hatch.h"
#include "ui/style/units.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace bw {

namespace {

constexpr double leastShare = 0.005;  // of the surface, to be told in the line under the heading

bool usable(const std::shared_ptr<const RemovedMap>& map) {
  return map != nullptr && !map->depth_m.empty() && !map->depth_m.front().empty();
}

QColor metalHatch(const Tones& tones) { return blend(tones.sheet, tones.quiet, 0.75); }

}  // namespace

RemainsPlot::RemainsPlot(QWidget* parent)
    : MapPlot(tr("What remains of the coat"), tr("What remains"), parent),
      m_map(new LayerMap(canvas()->xAxis, canvas()->yAxis)),
      m_stepper(new PassStepper) {
  addSwitch(View::Remains);
  m_stepper->setMinimumWidth(150);
  addToHeading(m_stepper);
  connect(m_stepper, &PassStepper::passChanged, this, [this](int pass) {
    refreshAll();
    emit passChanged(pass);
  });
  canvas()->xAxis->setLabel(tr("across the swath, mm"));
  canvas()->yAxis->setLabel(tr("along the travel, mm"));
  new Painting(canvas(), QStringLiteral("legend"), Painting::Clip::AxisRect, [this](QCPPainter& painter, const QRectF& box) {
    const auto shown = extent();
    if (!shown) return;
    paintCell(painter, shown->across_m, shown->along_m, Qt::SolidLine);
    paintSizes(painter, box, true);
    paintPlace(painter);
  });
  new Painting(canvas(), QStringLiteral("legend"), Painting::Clip::Whole, [this](QCPPainter& painter, const QRectF& box) {
    if (!isCompact()) paintLegend(painter, box);
  });
  ready();
}

/// While the newest assessment still lacks its map the one before stays, so that nothing flickers between the two.
void RemainsPlot::arrived() {
  const bool there = now() != nullptr && usable(now()->removal.map);
  m_behind = !there && moreToCome() && m_source.map != nullptr;
  if (m_behind) return;
  m_source = there ? Source{now()->removal.map, now()->removal.layers, now()->profile.middle_m} : Source{};
  for (std::size_t i = 0; there && i < m_source.map->depth_m.size(); ++i)
    m_source.clear.push_back(clearShare(now()->removal, static_cast<int>(i)));
  m_stepper->setMost(there ? static_cast<int>(m_source.map->depth_m.size()) - 1 : 0);
}

std::size_t RemainsPlot::pass() const { return static_cast<std::size_t>(m_stepper->pass()); }

int RemainsPlot::plannedPasses() const { return settings() != nullptr ? settings()->passes : m_stepper->most(); }

void RemainsPlot::setPass(int pass) {
  m_stepper->setPass(pass);
  refreshAll();
}

std::optional<MapExtent> RemainsPlot::extent() const {
  if (m_source.map == nullptr) return std::nullopt;
  return MapExtent{m_source.map->columns * m_source.map->cellAcross_m,
                   m_source.map->rows * m_source.map->cellAlong_m,
                   {-m_source.middle_m, 0, true, true}};
}

QString RemainsPlot::missing() const {
  if (m_source.map != nullptr) return {};
  if (moreToCome()) return tr("What remains after each pass is being worked out; it follows in a moment.");
  if (project().coat.empty()) return tr("No coat, nothing to remain. Add what a chip shows, top first.");
  if (settings() != nullptr && settings()->travelSpeed_m_s <= 0)
    return tr("What remains is not computed for a hand that stands still. Give it a travel speed above zero.");
  return tr(
      "What remains at each point is not computed for this plan. The cross-section of the coat shows what places of different dose lose.");
}

void RemainsPlot::refresh() {
  m_map->setMap(topsAfter(*m_source.map, m_source.layers, pass()), *extent());
  restyle(tones());
  m_stepper->setWords(pass() == 0 ? tr("before pass 1") : tr("after pass %1").arg(pass()));
}

void RemainsPlot::restyle(const Tones& tones) {
  std::vector<QColor> colours;
  for (const LayerResult& layer : m_source.layers) colours.push_back(colourOf(layer, project()));
  colours.push_back(metalColour(tones));
  m_map->setColours(std::move(colours), metalHatch(tones));
  canvas()->axisRect()->setBackground(QBrush(blend(tones.sheet, tones.line, 0.4)));
  setMargins();
}

/// How much is clear is told by one number everywhere: that of the places of all doses. The map's points share out either side of it.
std::vector<double> RemainsPlot::sharedOut(std::vector<double> shares) const {
  std::size_t clearFrom = 0;  // what lies on top there is clear of all that should come off
  for (std::size_t i = 0; i < m_source.layers.size(); ++i)
    if (!m_source.layers[i].kept) clearFrom = i + 1;
  const double clear = m_source.clear[std::min(pass(), m_source.clear.size() - 1)];
  const auto scale = [&](std::size_t from, std::size_t to, std::size_t rest, double wanted) {
    const double sum = std::accumulate(shares.begin() + static_cast<long>(from), shares.begin() + static_cast<long>(to), 0.0);
    for (std::size_t i = from; i < to; ++i) shares[i] = sum > 0 ? shares[i] * wanted / sum : 0;
    if (sum <= 0 && from < to) shares[rest] = wanted;
  };
  if (clearFrom > 0) scale(0, clearFrom, clearFrom - 1, 1 - clear);
  scale(clearFrom, shares.size(), clearFrom, clear);
  return shares;
}

std::vector<RemainsPlot::Entry> RemainsPlot::legend() const {
  const std::vector<double> shares = sharedOut(m_map->tops().shares());
  std::vector<Entry> made;
  for (std::size_t i = 0; i < m_source.layers.size(); ++i) {
    const LayerResult& layer = m_source.layers[i];
    const QString name = QString::fromStdString(layer.name) + (layer.kept ? tr(" (stays)") : QString());
    made.push_back({name, colourOf(layer, project()), shares[i], false});
  }
  made.push_back({tr("bare metal"), metalColour(tones()), shares.back(), true});
  return made;
}

QString RemainsPlot::summary() const {
  const QString when = pass() == 0 ? tr("Before the first pass") : tr("After pass %1 of %2").arg(pass()).arg(m_stepper->most());
  std::vector<Entry> entries = legend();
  if (isCompact()) return tr("%1: %2 bare").arg(when, format::percent(entries.back().share));
  QStringList parts{tr("%1 bare").arg(format::percent(entries.back().share))};
  entries.pop_back();
  std::ranges::stable_sort(entries, std::ranges::greater(), &Entry::share);
  for (const Entry& entry : entries) {
    if (entry.share >= leastShare) parts << tr("%1 on %2").arg(entry.name, format::percent(entry.share));
  }
  QString text = when + QStringLiteral(": ") + parts.join(QStringLiteral(", "));
  if (ghost() != nullptr && ghost()->removal.clearedFraction)
    text += tr("  →  %1 bare in the end").arg(format::percent(*ghost()->removal.clearedFraction));
  return text;
}

QString RemainsPlot::readoutAt(double across_mm, double along_mm) const {
  const std::optional<PickedPlace> at = placeOf(across_mm, along_mm);
  if (!at) return {};
  const QString left = topWords(m_source.layers, depthIn(*m_source.map, *at, pass()));
  return whereWords(across_mm, along_mm) + left + QLatin1Char(' ') + passWords(m_stepper->pass());
}

QString RemainsPlot::csv() const {
  const RemovedMap& map = *m_source.map;
  PlotTable table{{QStringLiteral("x_mm"), QStringLiteral("y_mm"), QStringLiteral("removed_um_after_pass_%1").arg(pass())}, {}};
  std::size_t cell = 0;
  for (int row = 0; row < map.rows; ++row) {
    for (int column = 0; column < map.columns; ++column, ++cell) {
      table.rows.push_back({(column + 0.5) * map.cellAcross_m * mm_per_m, (row + 0.5) * map.cellAlong_m * mm_per_m,
                            static_cast<double>(map.depth_m[pass()][cell]) * um_per_m});
    }
  }
  return csvText(table);
}

/// Top layer first, metal last, each with its share of the surface.
void RemainsPlot::paintLegend(QPainter& painter, const QRectF& box) const {
  if (m_source.map == nullptr) return;
  constexpr double chip = 14, height = 22;
  const double left = box.right() + 12, right = canvas()->width() - space::small;
  double y = box.top() + 2;
  painter.setPen(tones().quiet);
  painter.drawText(QRectF(left, y - 6, right - left, 18), Qt::AlignLeft | Qt::AlignVCenter, tr("on top, of the surface"));
  y += 16;
  for (const Entry& entry : legend()) {
    QPainterPath area;
    area.addRect(QRectF(left, y + (height - chip) / 2, chip, chip));
    painter.fillPath(area, entry.colour);
    if (entry.isMetal) paintHatch(painter, area, Hatch::Metal, metalHatch(tones()));
    painter.setPen(QPen(tones().quiet, 1));
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(area);
    const QString share = format::percent(entry.share);
    const QFontMetricsF metrics(painter.font());
    painter.setPen(entry.share > 0 ? tones().ink : tones().quiet);
    painter.drawText(QRectF(left, y, right - left, height), Qt::AlignRight | Qt::AlignVCenter, share);
    const QRectF name(left + chip + 6, y, right - left - chip - 12 - metrics.horizontalAdvance(share), height);
    painter.drawText(name, Qt::AlignLeft | Qt::AlignVCenter, metrics.elidedText(entry.name, Qt::ElideRight, name.width()));
    y += height;
    if (y + height > canvas()->height()) break;
  }
}

}  // namespace bw

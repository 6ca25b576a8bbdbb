// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/plot_deck.h"

#include "ui/plots/depth_plot.h"
#include "ui/plots/dose_map_plot.h"
#include "ui/plots/heat_plot.h"
#include "ui/plots/part_map_plot.h"
#include "ui/plots/pass_stepper.h"
#include "ui/plots/remains_plot.h"
#include "ui/plots/swath_plot.h"

#include <QShortcut>

namespace bw {

namespace {

constexpr int wideFrom = 1000;  // px; from here the plots stand two by two
constexpr int tallFrom = 520;
constexpr double smallShare = 0.3;  // of the height, for the row of small plots

}  // namespace

PlotDeck::PlotDeck(QWidget* parent)
    : QWidget(parent),
      m_map(new DoseMapPlot(this)),
      m_remains(new RemainsPlot(this)),
      m_heat(new HeatPlot(this)),
      m_part(new PartMapPlot(this)) {
  m_plots = {m_map, new SwathPlot(this), new DepthPlot(this), m_heat};
  for (int i = 0; i < plotCount; ++i) {
    plot(i)->setObjectName(QStringLiteral("plot%1").arg(i + 1));
    connect(plot(i), &PlotView::activated, this, [this, i] { showPlot(i); });
    auto* key = new QShortcut(QKeySequence(Qt::Key_1 + i), this);
    connect(key, &QShortcut::activated, this, [this, i] { showPlot(i); });
  }
  m_remains->setObjectName(QStringLiteral("plotRemains"));
  m_part->setObjectName(QStringLiteral("plotPart"));
  m_remains->hide();
  m_part->hide();
  connect(m_remains, &PlotView::activated, this, [this] { showPlot(0); });
  connect(m_part, &PlotView::activated, this, [this] { showPlot(3); });
  connect(m_heat, &HeatPlot::partChosen, this, [this] { showHeat(HeatView::Part); });
  connect(m_part, &PartMapPlot::curvesChosen, this, &PlotDeck::showHeat);
  for (PlotView* view : all()) {
    connect(view, &PlotView::placePicked, this, &PlotDeck::pickPlace);
    connect(view, &PlotView::placeDropped, this, &PlotDeck::clearPlace);
  }
  for (MapPlot* map : {static_cast<MapPlot*>(m_map), static_cast<MapPlot*>(m_remains)})
    connect(map, &MapPlot::viewChosen, this, [this](MapPlot::View view) { showRemains(view == MapPlot::View::Remains); });
  connect(m_remains, &RemainsPlot::passChanged, this, &PlotDeck::passChanged);
  connect(m_map, &DoseMapPlot::sceneChosen, this, &PlotDeck::sceneChosen);
  setMinimumSize(480, 270);
  arrange();
}

void PlotDeck::setProject(const Project& project) {
  for (PlotView* view : all()) view->setProject(project);
}

std::vector<PlotView*> PlotDeck::all() const { return {m_map, m_remains, plot(1), plot(2), m_heat, m_part}; }

void PlotDeck::setAssessment(std::shared_ptr<const Assessment> assessment, bool moreToCome) {
  for (PlotView* view : all()) view->setAssessment(assessment, moreToCome);
}

void PlotDeck::setDose(std::shared_ptr<const Assessment> early) {
  for (PlotView* view : {static_cast<PlotView*>(m_map), plot(1)}) view->setAssessment(early, true);
}

void PlotDeck::setOutdated() {
  for (PlotView* view : all()) view->setOutdated();
}

void PlotDeck::setStale(bool stale) {
  for (PlotView* view : all()) view->setStale(stale);
}

void PlotDeck::setGhost(std::shared_ptr<const Assessment> outcome) {
  for (PlotView* view : all()) view->setGhost(outcome);
}

void PlotDeck::showPlot(int index) {
  if (index < 0 || index >= plotCount) return;
  const bool changed = index != m_shown;
  m_shown = index;
  if (changed) {
    arrange();
    emit shownPlotChanged(index);
  }
  plot(index)->setFocus(Qt::OtherFocusReason);
}

void PlotDeck::pickPlace(double across_m, double along_m) {
  for (PlotView* view : all()) view->setPlace(PickedPlace{across_m, along_m});
  emit placePicked(across_m, along_m);
}

SceneRequest PlotDeck::scene() const { return m_map->scene(); }

void PlotDeck::clearPlace() {
  for (PlotView* view : all()) view->setPlace(std::nullopt);
  emit placeDropped();
}

void PlotDeck::setPass(int pass) { m_remains->setPass(pass); }

void PlotDeck::showRemains(bool remains) {
  MapPlot* from = remains ? static_cast<MapPlot*>(m_map) : m_remains;
  MapPlot* to = remains ? static_cast<MapPlot*>(m_remains) : m_map;
  if (!swapIn(0, to)) return;
  to->lookAt(*from);
  if (remains && m_remains->stepper()->pass() == 0) {  // before the first pass there is little to see
    m_remains->setPass(m_remains->plannedPasses());
    emit passChanged(m_remains->plannedPasses());
  }
}

void PlotDeck::showHeat(HeatView view) {
  if (view != HeatView::Part) m_heat->setView(view);
  swapIn(3, view == HeatView::Part ? static_cast<PlotView*>(m_part) : m_heat);
}

/// Another plot in a place of the deck; says whether it was another.
bool PlotDeck::swapIn(std::size_t slot, PlotView* view) {
  PlotView* before = m_plots[slot];
  if (before == view) return false;
  m_plots[slot] = view;
  arrange();
  view->show();
  before->hide();
  view->setFocus(Qt::OtherFocusReason);
  return true;
}

void PlotDeck::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  arrange();
}

void PlotDeck::arrange() {
  if (width() >= wideFrom && height() >= tallFrom) return arrangeTwoByTwo();
  const int gap = space::medium;
  const int low = std::max(150, static_cast<int>(height() * smallShare));
  place(m_shown, QRect(0, 0, width(), height() - low - gap), false);
  const int each = (width() - (plotCount - 2) * gap) / (plotCount - 1);
  int slot = 0;
  for (int i = 0; i < plotCount; ++i) {
    if (i == m_shown) continue;
    const int left = slot * (each + gap);
    place(i, QRect(left, height() - low, slot == plotCount - 2 ? width() - left : each, low), true);
    ++slot;
  }
}

void PlotDeck::arrangeTwoByTwo() {
  const int gap = space::medium;
  const int across = (width() - gap) / 2, down = (height() - gap) / 2;
  for (int i = 0; i < plotCount; ++i) {
    const int left = i % 2 * (across + gap), top = i / 2 * (down + gap);
    place(i, QRect(left, top, i % 2 == 0 ? across : width() - left, i / 2 == 0 ? down : height() - top), false);
  }
}

void PlotDeck::place(int index, const QRect& where, bool compact) {
  plot(index)->setGeometry(where);
  if (plot(index)->isCompact() != compact) plot(index)->setCompact(compact);
}

}  // namespace bw

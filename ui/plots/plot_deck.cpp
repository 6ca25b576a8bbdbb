// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/plot_deck.h"

namespace bw {

PlotDeck::PlotDeck(QWidget* parent) : QWidget(parent) { setMinimumSize(480, 360); }
void PlotDeck::setProject(const Project&) {}
void PlotDeck::setAssessment(std::shared_ptr<const Assessment>) {}
void PlotDeck::setStale(bool) {}
void PlotDeck::setGhost(std::shared_ptr<const Assessment>) {}

void PlotDeck::showPlot(int index) {
  m_shown = index;
  emit shownPlotChanged(index);
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "core/values/project.h"
#include "ui/plots/heat_curves.h"

#include <QWidget>
#include <array>
#include <memory>

namespace bw {

class DoseMapPlot;
class HeatPlot;
class PartMapPlot;
class PlotView;
class RemainsPlot;

/// The four linked plots of a plan: one large and three small, or two by two where there is room.
/// 0 dose map or, instead, what remains, 1 across the swath, 2 down through the coat, 3 heat as curves or over the part.
class PlotDeck : public QWidget {
  Q_OBJECT

 public:
  static constexpr int plotCount = 4;

  explicit PlotDeck(QWidget* parent = nullptr);

  void setProject(const Project& project);
  /// Null: nothing to show yet. `moreToCome`: the same in depth is on its way.
  void setAssessment(std::shared_ptr<const Assessment> assessment, bool moreToCome = false);
  void setDose(std::shared_ptr<const Assessment> early);             // of the newest plan, the rest of which follows
  void setOutdated();                                                // what was told early
  void setStale(bool stale);                                         // dims until the next setAssessment
  void setGhost(std::shared_ptr<const Assessment> outcome);          // thin dashed lines of what a remedy would bring; null clears

  void showPlot(int index);
  int shownPlot() const { return m_shown; }
  SceneRequest scene() const;  // the part of the work that the dose map is to show
  void clearPlace();
  void setPass(int pass);  // of the map of what remains; says nothing
  void showRemains(bool remains);
  void showHeat(HeatView view);
  PlotView* plot(int index) const { return m_plots[static_cast<std::size_t>(index)]; }

 signals:
  void placePicked(double across_m, double along_m);
  void placeDropped();
  void shownPlotChanged(int index);
  void sceneChosen();
  void passChanged(int pass);

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  std::vector<PlotView*> all() const;
  void pickPlace(double across_m, double along_m);
  bool swapIn(std::size_t slot, PlotView* view);
  void arrange();
  void arrangeTwoByTwo();
  void place(int index, const QRect& where, bool compact);

  DoseMapPlot* m_map;
  RemainsPlot* m_remains;
  HeatPlot* m_heat;
  PartMapPlot* m_part;
  std::array<PlotView*, plotCount> m_plots{};
  int m_shown = 0;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assess.h"
#include "ui/document/project_document.h"

#include <QWidget>

#include <memory>
#include <vector>

class QStackedWidget;
class QTabBar;

namespace bw {

class InputsPanel;
class PlotDeck;
class VerdictPanel;

/// What will these settings do to this part? Inputs left, linked plots in the middle, verdict right; in a narrow window the verdict
/// is a tab beside the plots.
class PlanWorkspace : public QWidget {
  Q_OBJECT
 public:
  static constexpr int sideWidth = 300;
  static constexpr int narrowBelow = 1200;
  static constexpr int wideFrom = 1800;
  static constexpr int wideSide = 360;

  explicit PlanWorkspace(ProjectDocument& document, QWidget* parent = nullptr);

  /// `moreToCome`: the same assessment in depth is on its way.
  void setAssessment(std::shared_ptr<const Assessment> assessment, bool moreToCome = false);
  /// The dose of the newest plan, before all else that follows from it.
  void setDose(std::shared_ptr<const Assessment> early);
  void setOutdated();  // what was told early: a newer plan is being assessed, or none can be
  void setRemedies(std::vector<Remedy> remedies);
  void setStale(bool stale);
  void showPlot(int index);
  /// Goes to a check: its row opened and marked, its plot large. Empty: nothing is marked any more.
  void showCheck(const std::string& check);

  /// The part of the work that the dose map is to show.
  SceneRequest scene() const;

  PlotDeck* plots() const { return m_plots; }
  VerdictPanel* verdict() const { return m_verdict; }
  bool isNarrow() const { return m_narrow; }

 signals:
  void remedyChosen(int index);
  void sceneChosen();

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  void arrange();
  void refresh(Changes changes);

  ProjectDocument& m_document;
  InputsPanel* m_inputs;
  QTabBar* m_tabs;
  QStackedWidget* m_centre;
  PlotDeck* m_plots;
  VerdictPanel* m_verdict;
  std::vector<Remedy> m_remedies;
  bool m_narrow = false;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/plan_workspace.h"

#include "ui/fields/quantity_field.h"
#include "ui/plan/inputs_panel.h"
#include "ui/plan/verdict_panel.h"
#include "ui/plots/plot_deck.h"
#include "ui/style/theme.h"

#include <QHBoxLayout>
#include <QStackedWidget>
#include <QTabBar>

#include <map>

namespace bw {

namespace {

/// The plot that shows what a check is about, where there is one.
const std::map<std::string, int> plotOf{{"evenness", 1}, {"removal", 2}, {"temperature", 3}, {"flatness", 3}};

}  // namespace

PlanWorkspace::PlanWorkspace(ProjectDocument& document, QWidget* parent)
    : QWidget(parent), m_document(document), m_inputs(new InputsPanel(document)), m_tabs(new QTabBar), m_centre(new QStackedWidget),
      m_plots(new PlotDeck), m_verdict(new VerdictPanel) {
  setObjectName(QStringLiteral("planWorkspace"));
  m_tabs->setObjectName(QStringLiteral("narrowTabs"));
  m_tabs->addTab(tr("Plots"));
  m_tabs->addTab(tr("Verdict"));
  m_tabs->setDrawBase(false);
  m_tabs->setExpanding(false);
  m_tabs->hide();
  m_centre->addWidget(m_plots);
  auto* middle = new QVBoxLayout;
  middle->setSpacing(0);
  middle->addWidget(m_tabs);
  middle->addWidget(m_centre, 1);
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(1);  // the ground shows as a hairline between the columns
  row->addWidget(m_inputs);
  row->addLayout(middle, 1);
  row->addWidget(m_verdict);
  m_inputs->setFixedWidth(sideWidth);
  m_verdict->setFixedWidth(sideWidth);
  connect(m_tabs, &QTabBar::currentChanged, m_centre, &QStackedWidget::setCurrentIndex);
  connect(m_plots, &PlotDeck::passChanged, m_inputs, &InputsPanel::setPass);
  connect(m_inputs, &InputsPanel::passChanged, m_plots, &PlotDeck::setPass);
  connect(m_plots, &PlotDeck::placePicked, this, [this](double across_m, double along_m) {
    m_inputs->setPlace(PickedPlace{across_m, along_m});
  });
  connect(m_plots, &PlotDeck::placeDropped, this, [this] { m_inputs->setPlace(std::nullopt); });
  connect(m_plots, &PlotDeck::sceneChosen, this, &PlanWorkspace::sceneChosen);
  connect(m_verdict, &VerdictPanel::remedyChosen, this, &PlanWorkspace::remedyChosen);
  connect(m_verdict, &VerdictPanel::remedyHovered, this, [this](int index) {
    const bool known = index >= 0 && static_cast<std::size_t>(index) < m_remedies.size();
    m_plots->setGhost(known ? m_remedies[static_cast<std::size_t>(index)].outcome : nullptr);
  });
  connect(&m_document, &ProjectDocument::changed, this, &PlanWorkspace::refresh);
  refresh(Change::Everything);
}

void PlanWorkspace::refresh(Changes changes) {
  if (changes == Changes(Change::File)) return;
  m_verdict->showRow({});
  if (changes == Changes(Change::Everything) || changes == Changes(Change::Shown))
    for (QuantityField* field : findChildren<QuantityField*>()) field->dropTyped();  // that was about another part or plan
  if (changes == Changes(Change::Everything)) {
    m_plots->clearPlace();  // it was on another part
    m_verdict->forget();
  }
  m_plots->setProject(m_document.project());
  m_verdict->setProject(m_document.project());
}

void PlanWorkspace::setAssessment(std::shared_ptr<const Assessment> assessment, bool moreToCome) {
  m_inputs->setAssessment(assessment);
  m_plots->setGhost(nullptr);
  m_plots->setAssessment(assessment, moreToCome);
  m_verdict->setAssessment(std::move(assessment), moreToCome);
}

void PlanWorkspace::setDose(std::shared_ptr<const Assessment> early) {
  m_verdict->setEarly(*early);
  m_plots->setDose(std::move(early));
}

void PlanWorkspace::setOutdated() {
  m_verdict->setOutdated();
  m_plots->setOutdated();
}

void PlanWorkspace::setRemedies(std::vector<Remedy> remedies) {
  m_remedies = remedies;
  m_verdict->setRemedies(std::move(remedies));
}

void PlanWorkspace::setStale(bool stale) {
  m_inputs->setStale(stale);
  m_plots->setStale(stale);
  m_verdict->setStale(stale);
}

SceneRequest PlanWorkspace::scene() const { return m_plots->scene(); }

void PlanWorkspace::showPlot(int index) {
  m_tabs->setCurrentIndex(0);
  m_plots->showPlot(index);
}

void PlanWorkspace::showCheck(const std::string& check) {
  m_verdict->showRow(check);
  if (check.empty()) return;
  const auto plot = plotOf.find(check);
  if (plot != plotOf.end())
    showPlot(plot->second);
  else if (m_narrow)
    m_tabs->setCurrentIndex(1);
}

void PlanWorkspace::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  arrange();
}

void PlanWorkspace::arrange() {
  const int side = width() >= wideFrom ? wideSide : sideWidth;
  m_inputs->setFixedWidth(side);
  const bool narrow = width() < narrowBelow;
  m_verdict->setMinimumWidth(narrow ? 0 : side);
  m_verdict->setMaximumWidth(narrow ? QWIDGETSIZE_MAX : side);
  if (narrow == m_narrow) return;
  m_narrow = narrow;
  if (narrow) {
    m_centre->addWidget(m_verdict);
  } else {
    m_centre->removeWidget(m_verdict);
    layout()->addWidget(m_verdict);
    m_verdict->show();
    m_tabs->setCurrentIndex(0);
  }
  m_tabs->setVisible(narrow);
}

}  // namespace bw

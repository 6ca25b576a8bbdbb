// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/fields/chooser.h"
#include "ui/fields/division.h"
#include "ui/fields/problem_label.h"
#include "ui/fields/quantity_field.h"
#include "ui/own/cell_delegate.h"
#include "ui/own/fit_plot.h"
#include "ui/own/flow_layout.h"
#include "ui/own/proposal_model.h"
#include "ui/own/readings_table.h"
#include "ui/own/setup_readings.h"
#include "ui/own/setup_sheet.h"
#include "ui/plan/form.h"

#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QSplitter>
#include <QTabBar>
#include <QTabWidget>
#include <QTableView>
#include <QVBoxLayout>

namespace bw {

SetupSheet::SetupSheet(Asker*& asker, const OwnActions& actions, QWidget* parent)
    : QWidget(parent),
      m_asker(asker),
      m_actions(actions),
      m_readings(new SetupReadings(this)),
      m_changes(new ProposalModel(this)),
      m_title(new QLabel),
      m_problem(new ProblemLabel) {
  auto* back = new QPushButton(tr("‹ Machines"));
  back->setObjectName(QStringLiteral("leaveSetup"));
  back->setAccessibleName(tr("Back to the machines"));
  connect(back, &QPushButton::clicked, this, &SetupSheet::backWanted);
  QFont bold = font();
  bold.setBold(true);
  bold.setPixelSize(space::headFont);
  m_title->setFont(bold);
  auto* head = new QHBoxLayout;
  head->addWidget(back);
  head->addWidget(m_title, 1);
  auto* halves = new QSplitter;
  halves->addWidget(buildInputs());
  halves->addWidget(buildResults());
  halves->setChildrenCollapsible(false);
  halves->setStretchFactor(0, 1);
  halves->setStretchFactor(1, 1);
  halves->setSizes({600, 620});
  rememberDivision(*halves, QStringLiteral("window/setUp"));
  auto* all = new QVBoxLayout(this);
  all->setContentsMargins(0, 0, 0, 0);
  all->addLayout(head);
  all->addWidget(halves, 1);
  connect(m_readings, &SetupReadings::edited, this, &SetupSheet::request);
  connect(&m_runner, &SetupRunner::found, this, &SetupSheet::showResult);
  connect(m_changes, &QAbstractItemModel::dataChanged, this, &SetupSheet::refreshButtons);
  showResult({});
}

QWidget* SetupSheet::buildInputs() {
  m_tabs = new QTabWidget;
  m_tabs->setObjectName(QStringLiteral("setupTabs"));
  m_tabs->setAccessibleName(tr("Kinds of measurements"));
  m_tabs->tabBar()->setAccessibleName(m_tabs->accessibleName());
  m_tabs->setDocumentMode(true);
  for (int i = 0; i < SetupReadings::KindCount; ++i) {
    const auto kind = static_cast<SetupReadings::Kind>(i);
    m_tabs->addTab(new ReadingsTable(m_readings->table(kind), SetupReadings::nameOf(kind), SetupReadings::howTo(kind)),
                   SetupReadings::nameOf(kind));
  }
  connect(m_tabs, &QTabWidget::currentChanged, this, &SetupSheet::showPicture);

  constexpr double mostMeter = 0.99;
  m_meter = new QuantityField({tr("Meter may be off by"),
                               tr("Uncertainty of the power meter, from its calibration sheet; common to all its readings."),
                               quantities::share, 0, mostMeter, 0.01});
  m_meter->setObjectName(QStringLiteral("meterUncertainty"));
  m_meter->setValue(m_meterUncertainty);
  m_meter->setFixedWidth(84);
  connect(m_meter, &QuantityField::edited, this, [this](const Range& value) {
    m_meterUncertainty = value.likely;
    request();
  });
  m_date = new QLineEdit;
  m_date->setObjectName(QStringLiteral("setupDate"));
  m_date->setAccessibleName(tr("Measured on, year-month-day"));
  m_date->setFixedWidth(96);
  m_initials = new QLineEdit;
  m_initials->setObjectName(QStringLiteral("setupInitials"));
  m_initials->setAccessibleName(tr("Initials of who measured"));
  m_initials->setFixedWidth(56);
  connect(m_date, &QLineEdit::textChanged, this, &SetupSheet::refreshButtons);
  auto* fields = new QWidget;
  auto* flow = new FlowLayout(fields);
  for (QWidget* widget : std::initializer_list<QWidget*>{new QLabel(tr("Meter may be off by")), m_meter, new QLabel(tr("Measured on")),
                                                         m_date, new QLabel(tr("Initials")), m_initials})
    flow->addWidget(widget);

  auto* left = new QWidget;
  auto* column = new QVBoxLayout(left);
  column->setContentsMargins(0, 0, space::medium, 0);
  column->addWidget(m_tabs, 1);
  column->addWidget(fields);
  column->addWidget(buildCautions());
  return left;
}

QWidget* SetupSheet::buildCautions() {
  auto* text =
      new QLabel(tr("<b>Before the beam is on.</b> Foil is a mirror and burn paper throws light back: eyewear for this wavelength, "
                    "for everyone in the room. Both smoke: extract at the source. Paper burns: nothing that can catch fire near it, "
                    "an extinguisher at hand, and stay until it is cold. The laser safety officer decides whether and how this is done."));
  text->setObjectName(QStringLiteral("setupCautions"));
  text->setWordWrap(true);
  text->setTextFormat(Qt::RichText);
  return text;
}

QWidget* SetupSheet::buildResults() {
  m_which = new Chooser(tr("Which fit is drawn"), tr("Where there are several of this kind, one for each focus offset or pulse duration."));
  m_which->setObjectName(QStringLiteral("whichFit"));
  connect(m_which, &Chooser::chosen, this, &SetupSheet::showPicture);
  m_plot = new FitPlot;
  m_remarks = new QuietLabel;
  m_remarks->setWordWrap(true);
  m_remarks->setObjectName(QStringLiteral("setupRemarks"));
  m_table = new QTableView;
  m_table->setObjectName(QStringLiteral("setupChanges"));
  m_table->setAccessibleName(tr("What would change in the machine"));
  m_table->setModel(m_changes);
  m_table->setItemDelegate(new CellDelegate(m_table));
  m_table->setShowGrid(false);
  m_table->setTabKeyNavigation(false);
  m_table->setWordWrap(true);
  m_table->verticalHeader()->hide();
  m_table->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
  m_table->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
  m_table->horizontalHeader()->setSectionResizeMode(ProposalModel::Old, QHeaderView::ResizeToContents);
  m_table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  m_state = new QuietLabel;
  m_state->setWordWrap(true);
  m_state->setObjectName(QStringLiteral("setupState"));
  m_apply = new QPushButton(tr("Apply what is ticked"));
  m_apply->setObjectName(QStringLiteral("applySetup"));
  m_apply->setProperty("primary", true);
  connect(m_apply, &QPushButton::clicked, this, &SetupSheet::apply);
  auto* foot = new QHBoxLayout;
  foot->addWidget(m_state, 1);
  foot->addWidget(m_apply);
  auto* right = new QWidget;
  auto* column = new QVBoxLayout(right);
  column->setContentsMargins(space::small, 0, 0, 0);
  column->addWidget(m_which, 0, Qt::AlignLeft);
  column->addWidget(m_plot, 3);
  column->addWidget(m_remarks);
  column->addWidget(new SectionHeader(tr("What would change")));
  column->addWidget(m_table, 2);
  column->addWidget(m_problem);
  column->addLayout(foot);
  return right;
}

}  // namespace bw

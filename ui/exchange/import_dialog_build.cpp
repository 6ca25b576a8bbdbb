// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/exchange/decision_panel.h"
#include "ui/exchange/entry_delegate.h"
#include "ui/exchange/import_dialog.h"
#include "ui/fields/division.h"
#include "ui/fields/problem_label.h"
#include "ui/library/flow_row.h"
#include "ui/library/page_parts.h"
#include "ui/plan/form.h"

#include <QDialogButtonBox>
#include <QFileInfo>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QSplitter>
#include <QStackedWidget>
#include <QTableView>
#include <QVBoxLayout>

namespace bw {
namespace {

constexpr int leastList = 330;

QLabel* named(QLabel* label, const char* name) {
  label->setObjectName(QLatin1String(name));
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  return label;
}

}  // namespace

void ImportDialog::build() {
  setObjectName(QStringLiteral("importDialog"));
  setAttribute(Qt::WA_DeleteOnClose);
  setWindowTitle(tr("Bring in %1").arg(QFileInfo(m_file).fileName()));
  m_pages = new QStackedWidget;
  m_pages->addWidget(makeReading());
  m_pages->addWidget(makeUnusable());
  m_pages->addWidget(makePreview());
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(space::wide, space::wide, space::wide, space::large);
  column->setSpacing(space::medium);
  column->addWidget(m_pages, 1);
  column->addWidget(makeFoot());
}

QWidget* ImportDialog::makeReading() {
  auto* label = named(new QLabel(tr("Reading %1 and comparing it with your library…").arg(QFileInfo(m_file).fileName())), "importReading");
  label->setAlignment(Qt::AlignTop | Qt::AlignLeft);
  return label;
}

QWidget* ImportDialog::makeUnusable() {
  auto* page = new QWidget;
  m_unusable = new ProblemLabel;
  m_unusable->setObjectName(QStringLiteral("importUnusable"));
  auto* column = new QVBoxLayout(page);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::medium);
  column->addWidget(named(new QLabel(tr("This file cannot be brought in. Your library stays as it was.")), "importUntouched"));
  column->addWidget(m_unusable);
  column->addStretch();
  return page;
}

QWidget* ImportDialog::makePreview() {
  auto* page = new QWidget;
  m_origin = named(new QLabel, "importOrigin");
  m_note = named(new QuietLabel, "importNote");
  m_counts = named(new QLabel, "importCounts");
  m_meanwhile = named(new QLabel, "importMeanwhile");
  auto* notices = new QWidget;
  m_notices = new QVBoxLayout(notices);
  m_notices->setContentsMargins(0, 0, 0, 0);
  auto* split = new QSplitter(Qt::Horizontal);
  split->setChildrenCollapsible(false);
  split->addWidget(makeEntries());
  split->addWidget(m_panel = new DecisionPanel);
  split->setStretchFactor(0, 4);
  split->setStretchFactor(1, 5);
  rememberDivision(*split, QStringLiteral("window/import"));
  auto* column = new QVBoxLayout(page);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::medium);
  for (QWidget* widget : std::initializer_list<QWidget*>{m_origin, m_note, m_counts, notices, m_meanwhile}) column->addWidget(widget);
  column->addWidget(split, 1);
  column->addWidget(m_forAll = makeForAll());
  return page;
}

QWidget* ImportDialog::makeEntries() {
  m_table = new QTableView;
  m_table->setObjectName(QStringLiteral("importEntries"));
  m_table->setAccessibleName(tr("Entries of the bundle"));
  m_table->setModel(m_model);
  m_table->setShowGrid(false);
  m_table->setTabKeyNavigation(false);
  m_table->setEditTriggers(QAbstractItemView::NoEditTriggers);
  m_table->setSelectionBehavior(QAbstractItemView::SelectRows);
  m_table->setSelectionMode(QAbstractItemView::SingleSelection);
  m_table->setMinimumWidth(leastList);
  m_table->verticalHeader()->hide();
  m_table->verticalHeader()->setDefaultSectionSize(2 * m_table->fontMetrics().height() + space::large);
  m_table->setItemDelegateForColumn(ImportModel::Entry, new EntryDelegate(m_table));
  m_table->setColumnHidden(ImportModel::State, true);  // stands under the name
  m_table->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
  m_table->horizontalHeader()->setSectionResizeMode(ImportModel::Entry, QHeaderView::Stretch);
  m_table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  m_table->horizontalHeader()->setHighlightSections(false);
  m_table->horizontalHeader()->setResizeContentsPrecision(200);  // rows looked at for the width
  return m_table;
}

QWidget* ImportDialog::makeForAll() {
  auto* row = new FlowRow;
  auto* caption = new QLabel(tr("The same for all that are still open:"));
  row->add(caption);
  const std::tuple<ImportDecision, const char*, QString> all[] = {{ImportDecision::Mine, "allMine", tr("Keep mine")},
                                                                  {ImportDecision::Theirs, "allTheirs", tr("Take theirs")},
                                                                  {ImportDecision::Both, "allBoth", tr("Keep both")}};
  for (const auto& [decision, name, word] : all) {
    auto* button = new QPushButton(word);
    button->setObjectName(QLatin1String(name));
    button->setAccessibleName(tr("%1, for all that are still open").arg(word));
    button->setAutoDefault(false);
    connect(button, &QPushButton::clicked, this, [this, decision = decision] { m_model->decideAllOpen(decision); });
    row->add(button);
  }
  m_next = new QPushButton(tr("&Next open one"));
  m_next->setObjectName(QStringLiteral("nextOpen"));
  m_next->setAutoDefault(false);
  row->add(m_next);
  caption->setFixedHeight(m_next->sizeHint().height());
  return row;
}

QWidget* ImportDialog::makeFoot() {
  auto* foot = new QWidget;
  m_problem = new ProblemLabel;
  m_problem->setObjectName(QStringLiteral("importProblem"));
  m_missing = named(new QLabel, "missing");
  m_backup = named(new QuietLabel, "importBackup");
  auto* buttons = new QDialogButtonBox;
  buttons->addButton(tr("Cancel"), QDialogButtonBox::RejectRole)->setAutoDefault(false);
  m_another = buttons->addButton(tr("Another file…"), QDialogButtonBox::ActionRole);
  m_another->setObjectName(QStringLiteral("anotherBundle"));
  m_another->setAutoDefault(false);
  m_doIt = buttons->addButton(tr("Bring in"), QDialogButtonBox::ApplyRole);
  m_doIt->setObjectName(QStringLiteral("doIt"));
  m_doIt->setProperty("primary", true);
  auto* column = new QVBoxLayout(foot);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::small);
  for (QWidget* widget : std::initializer_list<QWidget*>{m_problem, m_missing, m_backup}) column->addWidget(widget);
  column->addSpacing(space::small);
  column->addWidget(buttons);
  m_doIt->setDefault(true);  // once it is in the dialog, or Enter would press another
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  return foot;
}

}  // namespace bw

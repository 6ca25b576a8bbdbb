// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/changes_page.h"

#include "ui/fields/division.h"
#include "ui/fields/problem_label.h"
#include "ui/own/cell_delegate.h"
#include "ui/own/three_way_model.h"
#include "ui/plan/form.h"
#include "ui/style/theme.h"

#include <QHeaderView>
#include <QLabel>
#include <QListWidget>
#include <QPointer>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

namespace bw {
namespace {

QString kindWord(EntryKind kind) {
  if (kind == EntryKind::Coating) return ChangesPage::tr("coating");
  return kind == EntryKind::Substrate ? ChangesPage::tr("metal") : ChangesPage::tr("machine");
}

}  // namespace

ChangesPage::ChangesPage(Asker*& asker, const OwnActions& actions, QWidget* parent)
    : QSplitter(parent),
      m_asker(asker),
      m_actions(actions),
      m_model(new ThreeWayModel(this)),
      m_list(new QListWidget),
      m_title(new QLabel),
      m_empty(new QuietLabel(
          tr("Nothing to decide. When an update of the program changes a coating, metal or machine of which you have your own copy, it is "
             "listed here. You then see what is different and choose which to use."))),
      m_problem(new ProblemLabel),
      m_view(new QTableView),
      m_keep(new QPushButton(tr("Keep mine"))),
      m_take(new QPushButton(tr("Take the shipped one…"))) {
  m_list->setObjectName(QStringLiteral("changedEntries"));
  m_list->setAccessibleName(tr("Entries that changed"));
  m_list->setWordWrap(true);
  m_view->setObjectName(QStringLiteral("threeWay"));
  m_view->setAccessibleName(tr("Shipped then, shipped now, mine"));
  m_view->setModel(m_model);
  m_view->setItemDelegate(new CellDelegate(m_view));
  m_view->setWordWrap(true);
  m_view->setShowGrid(false);
  m_view->setTabKeyNavigation(false);
  m_view->verticalHeader()->hide();
  m_view->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
  m_view->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
  m_view->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  m_keep->setObjectName(QStringLiteral("keepMine"));
  m_keep->setToolTip(tr("Keeps the copy as it is and says no more about this change."));
  m_take->setObjectName(QStringLiteral("takeShipped"));
  m_take->setToolTip(tr("Drops the copy, after showing what is lost."));
  m_title->setWordWrap(true);
  m_empty->setWordWrap(true);
  auto* right = new QWidget;
  auto* buttons = new QHBoxLayout;
  buttons->addWidget(m_keep);
  buttons->addWidget(m_take);
  buttons->addStretch();
  auto* column = new QVBoxLayout(right);
  column->setContentsMargins(space::medium, 0, 0, 0);
  column->addWidget(m_title);
  column->addWidget(m_empty);
  column->addLayout(buttons);
  column->addWidget(m_problem);
  column->addWidget(m_view, 1);
  addWidget(m_list);
  addWidget(right);
  setChildrenCollapsible(false);
  m_list->setMinimumWidth(240);
  setStretchFactor(1, 1);
  setSizes({290, 900});
  rememberDivision(*this, QStringLiteral("window/changes"));
  connect(m_list, &QListWidget::currentRowChanged, this, &ChangesPage::refresh);
  connect(m_keep, &QPushButton::clicked, this, &ChangesPage::keepMine);
  connect(m_take, &QPushButton::clicked, this, &ChangesPage::takeShipped);
  refresh();
}

void ChangesPage::setThings(const OwnedThings& things) {
  const int row = std::max(0, m_list->currentRow());
  m_things = things;
  m_list->clear();
  for (const ShippedChange& change : things.changes)
    m_list->addItem(
        tr("%1, %2%3")
            .arg(QString::fromStdString(change.name), kindWord(change.kind), change.gone ? tr(", no longer shipped") : QString()));
  m_list->setCurrentRow(std::min(row, m_list->count() - 1));
  refresh();
}

const ShippedChange* ChangesPage::current() const {
  const int row = m_list->currentRow();
  return row < 0 || row >= static_cast<int>(m_things.changes.size()) ? nullptr : &m_things.changes[static_cast<std::size_t>(row)];
}

void ChangesPage::refresh() {
  const ShippedChange* change = current();
  m_model->setChange(change);
  for (QWidget* widget : std::initializer_list<QWidget*>{m_title, m_view, m_keep, m_take}) widget->setVisible(change != nullptr);
  m_empty->setVisible(change == nullptr);
  if (!change) return;
  const QString name = QString::fromStdString(change->name);
  m_title->setText(change->gone ? tr("“%1” is no longer shipped. Your copy goes on working.").arg(name)
                                : tr("“%1” was changed by an update of the program. Your copy was not touched. Bold: what differs from "
                                     "what your copy was made from.")
                                      .arg(name));
  m_take->setText(change->gone ? tr("Drop my copy…") : tr("Take the shipped one…"));
  for (QPushButton* button : {m_keep, m_take}) button->setEnabled(!m_things.readOnly);
}

void ChangesPage::keepMine() {
  if (const ShippedChange* change = current())
    m_actions.keepOwn(change->kind, change->id, [problem = QPointer(m_problem)](const QString& sentence) {
      if (problem) problem->say(sentence);
    });
}

void ChangesPage::takeShipped() {
  const ShippedChange* change = current();
  const auto record = change ? findRecord(m_things, change->kind, change->id) : std::nullopt;
  if (!record) return;
  const QStringList lost = lostByReset(m_things, *record);
  const QString text =
      lost.isEmpty() ? tr("Nothing of your own differs from what is shipped now.")
                     : tr("This is lost:\n\n%1")
                           .arg(lost.mid(0, 14).join('\n') + (lost.size() > 14 ? tr("\nand %1 more").arg(lost.size() - 14) : QString()));
  if (!m_asker->askYes(m_take->text(), text, tr("Take the shipped one"), tr("Keep mine"))) return;
  m_actions.reset(change->kind, change->id, [problem = QPointer(m_problem)](const QString& sentence) {
    if (problem) problem->say(sentence);
  });
}

}  // namespace bw

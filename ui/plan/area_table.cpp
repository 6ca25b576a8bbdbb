// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/area_table.h"

#include "ui/fields/icon.h"
#include "ui/fields/problem_label.h"
#include "ui/models/area_model.h"
#include "ui/plan/form.h"
#include "ui/style/theme.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QStyledItemDelegate>
#include <QTableView>
#include <QToolButton>

namespace bw {
namespace {

/// Offers the words for access; everything else is typed.
class AreaDelegate : public QStyledItemDelegate {
 public:
  using QStyledItemDelegate::QStyledItemDelegate;

  QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
    if (index.column() != AreaModel::AccessKind) return QStyledItemDelegate::createEditor(parent, option, index);
    auto* words = new QComboBox(parent);
    words->addItems(AreaModel::accessWords());
    return words;
  }

  void setEditorData(QWidget* editor, const QModelIndex& index) const override {
    if (auto* words = qobject_cast<QComboBox*>(editor)) {
      words->setCurrentText(index.data(Qt::EditRole).toString());
    } else {
      QStyledItemDelegate::setEditorData(editor, index);
    }
  }

  void setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const override {
    if (const auto* words = qobject_cast<QComboBox*>(editor)) {
      model->setData(index, words->currentText(), Qt::EditRole);
    } else {
      QStyledItemDelegate::setModelData(editor, model, index);
    }
  }
};

}  // namespace

AreaTable::AreaTable(ProjectDocument& document, QWidget* parent)
    : QWidget(parent), m_model(new AreaModel(document, this)), m_view(new QTableView) {
  m_view->setObjectName(QStringLiteral("areas"));
  m_view->setAccessibleName(tr("Areas to strip"));
  m_view->setModel(m_model);
  m_view->setItemDelegate(new AreaDelegate(m_view));
  m_view->setEditTriggers(QAbstractItemView::AllEditTriggers);
  m_view->setShowGrid(false);
  m_view->setSelectionBehavior(QAbstractItemView::SelectRows);
  m_view->verticalHeader()->hide();
  m_view->verticalHeader()->setDefaultSectionSize(26);
  m_view->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  m_view->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  m_view->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
  m_view->horizontalHeader()->setSectionResizeMode(AreaModel::Name, QHeaderView::Stretch);
  m_view->horizontalHeader()->setHighlightSections(false);

  auto* add = new QToolButton;
  add->setObjectName(QStringLiteral("addArea"));
  add->setIcon(lineIcon(QStringLiteral("add")));
  add->setToolTip(tr("Add an area"));
  add->setAccessibleName(add->toolTip());
  auto* remove = new QToolButton;
  remove->setObjectName(QStringLiteral("removeArea"));
  remove->setIcon(lineIcon(QStringLiteral("remove")));
  remove->setToolTip(tr("Remove the chosen area"));
  remove->setAccessibleName(remove->toolTip());
  auto* problem = new ProblemLabel;
  for (auto* button : {add, remove}) button->setAutoRaise(true);

  auto* buttons = new QHBoxLayout;
  buttons->setContentsMargins(0, 0, 0, 0);
  buttons->setSpacing(0);
  buttons->addWidget(new QuietLabel(tr("Areas to strip")));
  buttons->addStretch();
  buttons->addWidget(add);
  buttons->addWidget(remove);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, space::medium, 0, 0);
  column->setSpacing(space::small);
  column->addLayout(buttons);
  column->addWidget(m_view);
  column->addWidget(problem);
  connect(add, &QToolButton::clicked, m_model, &AreaModel::add);
  connect(remove, &QToolButton::clicked, this, [this] { m_model->remove(m_view->currentIndex().row()); });
  connect(m_model, &AreaModel::problem, problem, &ProblemLabel::say);
  connect(m_model, &QAbstractItemModel::modelReset, this, &AreaTable::fitHeight);
  fitHeight();
}

void AreaTable::fitHeight() {
  constexpr int headerHeight = 26;
  m_view->horizontalHeader()->setFixedHeight(headerHeight);
  m_view->setFixedHeight(headerHeight + 26 * std::max(1, m_model->rowCount()) + 2 * m_view->frameWidth());
}

}  // namespace bw

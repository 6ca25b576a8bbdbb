// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/reading_list.h"

#include "ui/fields/problem_label.h"
#include "ui/readings/reading_list_model.h"
#include "ui/style/theme.h"

#include <QComboBox>
#include <QHeaderView>
#include <QKeyEvent>
#include <QPushButton>
#include <QStyledItemDelegate>
#include <QTableView>
#include <QVBoxLayout>

namespace bw {
namespace {

constexpr int rowHeight = 26;
constexpr int shownRows = 5;
constexpr int valueWidth = 84;

/// Kinds are chosen from the known ones, or typed.
class KindDelegate : public QStyledItemDelegate {
 public:
  using QStyledItemDelegate::QStyledItemDelegate;

  QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem&, const QModelIndex& index) const override {
    auto* box = new QComboBox(parent);
    box->setEditable(true);
    box->setInsertPolicy(QComboBox::NoInsert);
    box->addItems(index.data(ReadingListModel::WordsRole).toStringList());
    box->setAccessibleName(ReadingList::tr("Kind of reading"));
    return box;
  }
  void setEditorData(QWidget* editor, const QModelIndex& index) const override {
    static_cast<QComboBox*>(editor)->setEditText(index.data(Qt::EditRole).toString());
  }
  void setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const override {
    model->setData(index, static_cast<QComboBox*>(editor)->currentText(), Qt::EditRole);
  }
};

}  // namespace

ReadingList::ReadingList(QWidget* parent)
    : QWidget(parent),
      m_model(new ReadingListModel({"thickness_before_um", "thickness_after_um", "back_C"}, this)),
      m_view(new QTableView),
      m_problem(new ProblemLabel) {
  m_view->setObjectName(QStringLiteral("trialReadings"));
  m_view->setAccessibleName(tr("Readings of the trial"));
  m_view->setModel(m_model);
  m_view->setItemDelegateForColumn(ReadingListModel::Kind, new KindDelegate(m_view));
  m_view->setEditTriggers(QAbstractItemView::AnyKeyPressed | QAbstractItemView::DoubleClicked | QAbstractItemView::SelectedClicked |
                          QAbstractItemView::EditKeyPressed);
  m_view->setTabKeyNavigation(false);
  m_view->setShowGrid(false);
  m_view->verticalHeader()->hide();
  m_view->verticalHeader()->setDefaultSectionSize(rowHeight);
  m_view->horizontalHeader()->setSectionResizeMode(QHeaderView::Fixed);
  m_view->horizontalHeader()->setSectionResizeMode(ReadingListModel::Kind, QHeaderView::Stretch);
  m_view->horizontalHeader()->resizeSection(ReadingListModel::Value, valueWidth);
  m_view->horizontalHeader()->setSectionResizeMode(ReadingListModel::UnitColumn, QHeaderView::ResizeToContents);
  m_view->horizontalHeader()->setSectionResizeMode(ReadingListModel::Uncertainty, QHeaderView::ResizeToContents);
  m_view->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  m_view->horizontalHeader()->setMinimumSectionSize(56);
  m_view->setMinimumHeight((shownRows + 1) * rowHeight);
  m_view->installEventFilter(this);
  auto* file = new QPushButton(tr("Readings from a file…"));
  file->setObjectName(QStringLiteral("readingsFromFile"));
  file->setToolTip(tr("A thickness gauge's or a temperature logger's table (CSV)"));
  file->setAutoDefault(false);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::small);
  column->addWidget(m_view);
  column->addWidget(m_problem);
  column->addWidget(file, 0, Qt::AlignLeft);
  connect(m_model, &ReadingListModel::edited, this, &ReadingList::edited);
  connect(m_model, &ReadingListModel::refused, m_problem, &ProblemLabel::say);
  connect(file, &QPushButton::clicked, this, &ReadingList::fileWanted);
}

std::vector<Reading> ReadingList::readings() const { return m_model->readings(); }

void ReadingList::add(const std::vector<Reading>& readings) { m_model->add(readings); }

void ReadingList::removeChosen() {
  QList<int> rows;
  for (const QModelIndex& index : m_view->selectionModel()->selectedIndexes()) {
    if (!rows.contains(index.row())) rows << index.row();
  }
  m_model->takeOut(rows);
  m_problem->say({});
}

bool ReadingList::eventFilter(QObject* watched, QEvent* event) {
  if (watched == m_view && event->type() == QEvent::KeyPress && static_cast<QKeyEvent*>(event)->key() == Qt::Key_Delete) {
    removeChosen();
    return true;
  }
  return QWidget::eventFilter(watched, event);
}

}  // namespace bw

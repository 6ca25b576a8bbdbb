// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/readings_table.h"

#include "ui/fields/icon.h"
#include "ui/fields/problem_label.h"
#include "ui/own/cell_delegate.h"
#include "ui/own/readings_model.h"
#include "ui/plan/form.h"
#include "ui/style/theme.h"

#include <QApplication>
#include <QClipboard>
#include <QHeaderView>
#include <QKeyEvent>
#include <QTableView>
#include <QToolButton>

namespace bw {

ReadingsTable::ReadingsTable(ReadingsModel& model, const QString& name, const QString& howTo, QWidget* parent)
    : QWidget(parent), m_model(model), m_view(new QTableView), m_problem(new ProblemLabel) {
  m_view->setAccessibleName(name);
  m_view->setModel(&model);
  m_view->setItemDelegate(new CellDelegate(m_view));
  m_view->setEditTriggers(QAbstractItemView::AnyKeyPressed | QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed);
  m_view->setSelectionMode(QAbstractItemView::ContiguousSelection);
  m_view->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
  m_view->horizontalHeader()->setMinimumHeight(42);
  m_view->horizontalHeader()->setDefaultAlignment(Qt::AlignCenter | static_cast<Qt::Alignment>(Qt::TextWordWrap));
  m_view->verticalHeader()->setDefaultSectionSize(26);
  m_view->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
  m_view->setTabKeyNavigation(false);  // arrows move in the table, Tab leaves it
  m_view->installEventFilter(this);
  auto* how = new QLabel(howTo);
  how->setWordWrap(true);
  auto* buttons = new QHBoxLayout;
  const auto add = [&](const char* objectName, const QString& icon, const QString& text, const QString& tip, auto slot) {
    auto* button = new QToolButton;
    button->setObjectName(QLatin1String(objectName));
    button->setText(text);
    button->setToolTip(tip);
    button->setAccessibleName(tip);
    if (!icon.isEmpty()) button->setIcon(lineIcon(icon));
    button->setToolButtonStyle(text.isEmpty() ? Qt::ToolButtonIconOnly : Qt::ToolButtonTextBesideIcon);
    connect(button, &QToolButton::clicked, this, slot);
    buttons->addWidget(button);
    return button;
  };
  add("pasteReadings", {}, tr("Paste a block"), tr("Pastes rows copied from a spreadsheet or a text, from the chosen cell on (Ctrl+V)."),
      [this] { paste(); });
  add("removeReading", QStringLiteral("remove"), {}, tr("Remove the chosen rows"), [this] { removeChosen(); });
  auto* undo = add("undoReadings", QStringLiteral("undo"), {}, tr("Undo (Ctrl+Z)"), [this] { m_model.undoStack().undo(); });
  auto* redo = add("redoReadings", QStringLiteral("redo"), {}, tr("Redo"), [this] { m_model.undoStack().redo(); });
  buttons->addStretch();
  const auto refresh = [this, undo, redo] {
    undo->setEnabled(m_model.undoStack().canUndo());
    redo->setEnabled(m_model.undoStack().canRedo());
    m_problem->say(m_model.problem());
  };
  connect(&model, &ReadingsModel::edited, this, refresh);
  connect(&model.undoStack(), &QUndoStack::indexChanged, this, refresh);
  refresh();
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, space::small, 0, 0);
  column->addWidget(how);
  column->addLayout(buttons);
  column->addWidget(m_view, 1);
  column->addWidget(m_problem);
}

bool ReadingsTable::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::ShortcutOverride || event->type() == QEvent::KeyPress) {
    auto* key = static_cast<QKeyEvent*>(event);
    void (ReadingsTable::*act)() = key->matches(QKeySequence::Paste)    ? &ReadingsTable::paste
                                   : key->matches(QKeySequence::Copy)   ? &ReadingsTable::copy
                                   : key->matches(QKeySequence::Delete) ? &ReadingsTable::clearChosen
                                                                        : nullptr;
    const bool undo = key->matches(QKeySequence::Undo), redo = key->matches(QKeySequence::Redo);
    if (act || undo || redo) {
      event->accept();
      if (event->type() == QEvent::ShortcutOverride) return true;
      if (act) (this->*act)();
      if (undo) m_model.undoStack().undo();
      if (redo) m_model.undoStack().redo();
      return true;
    }
  }
  return QWidget::eventFilter(watched, event);
}

void ReadingsTable::paste() { m_model.paste(m_view->currentIndex(), QApplication::clipboard()->text()); }
void ReadingsTable::copy() { QApplication::clipboard()->setText(m_model.block(m_view->selectionModel()->selectedIndexes())); }

void ReadingsTable::removeChosen() {
  QList<int> rows;
  for (const QModelIndex& cell : m_view->selectionModel()->selectedIndexes()) {
    if (!rows.contains(cell.row())) rows << cell.row();
  }
  m_model.removeRows(rows);
}

void ReadingsTable::clearChosen() {
  const QModelIndexList cells = m_view->selectionModel()->selectedIndexes();
  m_model.undoStack().beginMacro(tr("clear readings"));
  for (const QModelIndex& cell : cells) m_model.setData(m_model.index(cell.row(), cell.column()), QString(), Qt::EditRole);
  m_model.undoStack().endMacro();
}

}  // namespace bw

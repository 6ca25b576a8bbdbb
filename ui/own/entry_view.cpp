// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/entry_view.h"

#include "ui/own/cell_delegate.h"
#include "ui/own/entry_model.h"
#include "ui/style/theme.h"

#include <QHeaderView>

namespace bw {

EntryView::EntryView(EntryModel& model, QWidget* parent) : QTableView(parent), m_model(model) {
  setObjectName(QStringLiteral("entryValues"));
  setAccessibleName(tr("Values of this entry"));
  setModel(&model);
  setItemDelegate(new CellDelegate(this));
  setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed | QAbstractItemView::AnyKeyPressed);
  setSelectionMode(QAbstractItemView::SingleSelection);
  setShowGrid(false);
  setWordWrap(true);
  setTabKeyNavigation(false);  // arrows move in the table, Tab leaves it
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
  verticalHeader()->hide();
  verticalHeader()->setMinimumSectionSize(26);
  horizontalHeader()->setHighlightSections(false);
  horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  connect(&model, &QAbstractItemModel::modelReset, this, &EntryView::layOut);
  connect(&model, &QAbstractItemModel::dataChanged, this, &QTableView::resizeRowsToContents);
  // Once the stretched column has its width; before, the text would be wrapped to another one.
  connect(horizontalHeader(), &QHeaderView::sectionResized, this, &QTableView::resizeRowsToContents, Qt::QueuedConnection);
  layOut();
}

void EntryView::resizeEvent(QResizeEvent* event) {
  QTableView::resizeEvent(event);
  resizeRowsToContents();
}

void EntryView::layOut() {
  const bool machine = m_model.isMachine();
  for (const int column : {EntryModel::Low, EntryModel::High, EntryModel::Estimate}) setColumnHidden(column, machine);
  const std::array<int, EntryModel::ColumnCount> widths{210, 78, machine ? 250 : 78, 78, 92, 76, 0};
  for (int column = 0; column < EntryModel::Source; ++column) setColumnWidth(column, widths[static_cast<std::size_t>(column)]);
  horizontalHeader()->setSectionResizeMode(EntryModel::Source, QHeaderView::Stretch);
  clearSpans();
  for (int row = 0; row < m_model.rowCount(); ++row) {
    if (m_model.isHeading(row))
      setSpan(row, 0, 1, EntryModel::ColumnCount);
    else if (!machine && !m_model.isRange(row))
      setSpan(row, EntryModel::Low, 1, EntryModel::Estimate - EntryModel::Low + 1);
  }
  resizeRowsToContents();
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/preview_model.h"

#include "ui/readings/csv_words.h"

#include <algorithm>

namespace bw {
namespace {

constexpr int longestCell = 200;

}  // namespace

void PreviewModel::setStudy(const CsvStudy& study) {
  const bool same = m_table == study.table;
  if (!same) beginResetModel();
  m_table = study.table;
  m_mapping = study.columns;
  m_understood = study.understood;
  m_rows = m_columns = 0;
  if (m_table) {
    m_rows = static_cast<int>(std::min(m_table->rows.size(), m_table->firstData + m_understood.size()));
    m_columns = static_cast<int>(m_table->columns);
    for (int row = 0; row < m_rows; ++row)
      m_columns = std::max(m_columns, static_cast<int>(m_table->rows[static_cast<std::size_t>(row)].cells.size()));
  }
  if (!same) {
    endResetModel();
  } else if (m_rows > 0 && m_columns > 0) {
    emit dataChanged(index(0, 0), index(m_rows - 1, m_columns - 1));
  }
}

int PreviewModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : m_rows; }
int PreviewModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : m_columns; }

/// Nothing of the rows that stand above the numbers.
const ConvertedRow* PreviewModel::understoodRow(int row) const {
  const auto at = static_cast<std::size_t>(row);
  return at < m_table->firstData || at - m_table->firstData >= m_understood.size() ? nullptr : &m_understood[at - m_table->firstData];
}

bool PreviewModel::isTaken(int column) const {
  return static_cast<std::size_t>(column) < m_mapping.size() &&
         m_mapping[static_cast<std::size_t>(column)].meaning != ColumnMeaning::Ignored;
}

QVariant PreviewModel::data(const QModelIndex& index, int role) const {
  if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
  const auto column = static_cast<std::size_t>(index.column());
  const auto& cells = m_table->rows[static_cast<std::size_t>(index.row())].cells;
  const QString raw = column < cells.size() ? QString::fromStdString(cells[column]).left(longestCell) : QString();
  if (role == Qt::DisplayRole || role == Qt::ToolTipRole) return raw;
  const ConvertedRow* row = understoodRow(index.row());
  const bool taken = row && isTaken(index.column());
  const bool read = taken && column < row->values.size() && row->values[column];
  const QString understood = !taken ? QString() : read ? words::understood(*row->values[column], m_mapping[column]) : tr("not read");
  if (role == UnderstoodRole) return understood;
  if (role == UnreadRole) return taken && !read;
  if (role == Qt::AccessibleTextRole) return understood.isEmpty() ? raw : tr("%1, understood as %2").arg(raw, understood);
  return {};
}

QVariant PreviewModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (role != Qt::DisplayRole || section < 0) return {};
  if (orientation == Qt::Vertical)
    return section < m_rows ? QVariant(static_cast<qulonglong>(m_table->rows[static_cast<std::size_t>(section)].line)) : QVariant();
  const auto column = static_cast<std::size_t>(section);
  return column < m_mapping.size() && !m_mapping[column].header.empty() ? QString::fromStdString(m_mapping[column].header)
                                                                        : tr("Column %1").arg(section + 1);
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/models/coating_model.h"

#include <QColor>

#include <algorithm>

namespace bw {

void CoatingModel::setLibraries(const Library& shipped, const Library& own) {
  beginResetModel();
  m_rows.clear();
  const auto add = [this](const Coating& one) {
    const QString id = QString::fromStdString(one.id);
    if (rowOf(id) >= 0) return;
    m_rows.push_back({id, QString::fromStdString(one.name), QString::fromStdString(one.note), QString::fromStdString(one.colour)});
  };
  for (const bool unknown : {true, false}) {
    for (const Library* library : {&own, &shipped}) {
      for (const Coating& one : library->coatings) {
        if (one.unknown == unknown) add(one);
      }
    }
  }
  endResetModel();
}

int CoatingModel::rowOf(const QString& id) const {
  const auto found = std::ranges::find(m_rows, id, &Row::id);
  return found == m_rows.end() ? -1 : static_cast<int>(found - m_rows.begin());
}

int CoatingModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(m_rows.size()); }

QVariant CoatingModel::data(const QModelIndex& index, int role) const {
  if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
  const Row& row = m_rows[static_cast<std::size_t>(index.row())];
  switch (role) {
    case Qt::DisplayRole: return row.name;
    case Qt::ToolTipRole: return row.note.isEmpty() ? QVariant() : row.note;
    case Qt::DecorationRole: return QColor(row.colour);
    case Qt::UserRole: return row.id;
    default: return {};
  }
}

}  // namespace bw

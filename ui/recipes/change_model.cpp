// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipes/change_model.h"

namespace bw {

void ChangeModel::setChanges(std::vector<SettingChange> changes) {
  beginResetModel();
  m_changes = std::move(changes);
  endResetModel();
}

int ChangeModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(m_changes.size()); }
int ChangeModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : ColumnCount; }

QVariant ChangeModel::data(const QModelIndex& index, int role) const {
  if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
  const SettingChange& change = m_changes[static_cast<std::size_t>(index.row())];
  const QString now = change.now.isEmpty() ? tr("not set") : change.now, then = change.then.isEmpty() ? tr("not set") : change.then;
  if (role == Qt::AccessibleTextRole) return tr("%1: now %2, then %3").arg(change.what, now, then);
  if (role != Qt::DisplayRole && role != Qt::ToolTipRole) return {};
  switch (index.column()) {
    case What:
      return change.what;
    case Now:
      return now;
    default:
      return then;
  }
}

QVariant ChangeModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  switch (section) {
    case What:
      return tr("Setting");
    case Now:
      return tr("Now");
    case Then:
      return tr("With the recipe");
    default:
      return {};
  }
}

}  // namespace bw

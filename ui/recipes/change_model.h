// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/recipes/applied_recipe.h"

#include <QAbstractTableModel>

namespace bw {

/// What applying a recipe changes: what, now, then.
class ChangeModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { What, Now, Then, ColumnCount };

  explicit ChangeModel(QObject* parent = nullptr) : QAbstractTableModel(parent) {}
  void setChanges(std::vector<SettingChange> changes);

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  std::vector<SettingChange> m_changes;
};

}  // namespace bw

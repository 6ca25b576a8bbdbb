// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/import_plan.h"

#include <QAbstractTableModel>

namespace bw {

/// One entry, yours and theirs beside each other: first how both stand as a whole, then each place where they differ.
class SidesModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { Place, Yours, Theirs, ColumnCount };
  using QAbstractTableModel::QAbstractTableModel;

  /// Nothing: an empty table.
  void setLine(const ImportLine* line);

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  std::vector<std::array<QString, ColumnCount>> m_rows;
};

}  // namespace bw

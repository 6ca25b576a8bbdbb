// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/change_table.h"

#include <QAbstractTableModel>

namespace bw {

/// What an update changed in one entry: shipped then, shipped now, mine.
class ThreeWayModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { Property, Then, Now, Mine, ColumnCount };
  using QAbstractTableModel::QAbstractTableModel;

  void setChange(const ShippedChange* change);

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  std::vector<ThreeWay> m_rows;
};

}  // namespace bw

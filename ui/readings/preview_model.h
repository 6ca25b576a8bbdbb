// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/readings/csv_study.h"

#include <QAbstractTableModel>

namespace bw {

/// A file's first rows as they stand, and beneath each cell how it was understood.
class PreviewModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Role { UnderstoodRole = Qt::UserRole, UnreadRole };

  using QAbstractTableModel::QAbstractTableModel;

  void setStudy(const CsvStudy& study);

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  const ConvertedRow* understoodRow(int row) const;
  bool isTaken(int column) const;

  std::shared_ptr<const CsvTable> m_table;
  std::vector<ColumnMapping> m_mapping;
  std::vector<ConvertedRow> m_understood;
  int m_rows = 0;
  int m_columns = 0;
};

}  // namespace bw

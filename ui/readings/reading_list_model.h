// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/plan.h"

#include <QAbstractTableModel>
#include <QStringList>

#include <optional>
#include <vector>

namespace bw {

/// The readings of one trial, of any kind, with an empty row at the end for the next. A row without a value is none yet.
class ReadingListModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { Kind, Value, Uncertainty, UnitColumn, ColumnCount };
  enum Role { WordsRole = Qt::UserRole };  // what a kind may be chosen from

  /// Begins with rows of these kinds, to be filled in.
  explicit ReadingListModel(const std::vector<std::string>& usual, QObject* parent = nullptr);

  std::vector<Reading> readings() const;
  /// Each goes into an empty row of its kind, or into one of its own.
  void add(const std::vector<Reading>& readings);
  void takeOut(QList<int> rows);

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role) override;

 signals:
  void edited();
  /// What was typed last is no reading, and why; empty: it is.
  void refused(const QString& sentence);

 private:
  struct Row {
    std::string kind;
    std::optional<double> value;
    std::optional<double> uncertainty;
  };

  QString setNumber(Row& row, int column, const QString& typed) const;
  void endWithEmpty();

  std::vector<Row> m_rows;
};

}  // namespace bw

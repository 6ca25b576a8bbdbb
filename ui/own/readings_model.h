// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/fields/quantity.h"

#include <QAbstractTableModel>
#include <QUndoStack>

#include <optional>

namespace bw {

/// One column of a table of readings, bounds in SI.
struct ReadingColumn {
  QString title;  // with its unit: "Width, µm"
  QString tip;
  Quantity quantity;
  double low = 0;
  double high = 0;
  bool above = false;  // the lower bound itself is not accepted
  bool needed = false;
  bool whole = false;
  QStringList words = {};  // instead of a number: one of these
};

/// Readings as they are typed or pasted, a row a reading, with an empty row at the end for the next. What is no reading stays as it was
/// typed, is marked and said, and takes no part. Every change is one undo step.
class ReadingsModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  explicit ReadingsModel(std::vector<ReadingColumn> columns, QObject* parent = nullptr);

  /// A block as spreadsheets copy it: cells apart by tabs or semicolons, rows by lines. A first line without any number is taken for a
  /// heading and left out.
  void paste(const QModelIndex& at, const QString& block);
  void removeRows(const QList<int>& rows);
  QString block(const QModelIndexList& cells) const;

  /// Rows without a fault and not empty.
  std::vector<int> goodRows() const;
  /// A number in SI; none where nothing stands there.
  std::optional<double> number(int row, int column) const;
  QString word(int row, int column) const;
  /// What is wrong first, as a sentence with its row; empty: nothing.
  QString problem() const;
  bool isEmpty() const { return m_cells.size() <= 1; }
  QUndoStack& undoStack() { return m_undo; }

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role) override;

 signals:
  void edited();

 private:
  using Cells = QList<QStringList>;
  class Step;

  void show(const Cells& cells);
  void push(Cells cells, const QString& name);
  QString problemAt(int row, int column) const;
  bool isBlank(int row) const;

  std::vector<ReadingColumn> m_columns;
  Cells m_cells;
  QUndoStack m_undo;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/exchange/bundle_jobs.h"

#include <QAbstractTableModel>

namespace bw {

/// The entries of a bundle with how they stand to the library and what is to become of them; what wants a decision comes first.
class ImportModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { Entry, State, Fate, ColumnCount };
  using QAbstractTableModel::QAbstractTableModel;

  void setPlan(std::shared_ptr<const PreparedImport> prepared, ImportDecisions decisions);
  const std::shared_ptr<const PreparedImport>& prepared() const { return m_prepared; }
  const ImportDecisions& decisions() const { return m_decisions; }

  /// Nothing where there is no such row.
  const ImportLine* line(int row) const;
  ImportDecision decision(int row) const;
  void decide(int row, ImportDecision decision);
  void decideAllOpen(ImportDecision decision);
  bool isOpen(int row) const;
  std::size_t openCount() const;
  /// The next open row after this one, from the top again after the last; -1: none.
  int nextOpen(int row) const;
  /// The row of the same entry in another plan; -1: none.
  int rowOf(BundlePart part, const std::string& id) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 signals:
  void decided();

 private:
  QString text(int row, int column) const;

  std::shared_ptr<const PreparedImport> m_prepared;
  ImportDecisions m_decisions;
  std::vector<std::size_t> m_order;  // of the plan's lines
};

}  // namespace bw

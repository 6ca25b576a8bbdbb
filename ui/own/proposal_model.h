// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/machine_setup.h"

#include <QAbstractTableModel>

#include <set>

namespace bw {

/// What measurements would change in a machine: a row a property, with its own tick.
class ProposalModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { Property, Old, New, From, ColumnCount };
  using QAbstractTableModel::QAbstractTableModel;

  /// Ticks stay with their property; what is new is ticked.
  void setChanges(const Machine& machine, std::vector<MachineChange> changes);
  std::vector<MachineChange> taken() const;

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role) override;

 private:
  using Key = std::pair<MachineField, std::optional<std::size_t>>;
  static Key keyOf(const MachineChange& change) { return {change.field, change.pulseDuration}; }
  QString text(const MachineChange& change, int column) const;

  Machine m_machine;
  std::vector<MachineChange> m_changes;
  std::set<Key> m_left;  // not ticked
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/own/own_things.h"

#include <QAbstractListModel>

namespace bw {

/// Entries by name, one's own first, as far as they hold every word that was searched for in name or note.
class EntryListModel : public QAbstractListModel {
  Q_OBJECT
 public:
  using QAbstractListModel::QAbstractListModel;

  void setRecords(std::vector<OwnRecord> records);
  void setSearch(const QString& words);
  int rowOf(const std::string& id) const;
  std::string idAt(int row) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;

 private:
  void filter();

  std::vector<OwnRecord> m_records;
  std::vector<std::size_t> m_shown;
  QStringList m_words;
};

}  // namespace bw

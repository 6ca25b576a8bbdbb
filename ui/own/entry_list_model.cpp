// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/entry_list_model.h"

#include <QColor>
#include <QPixmap>

#include <algorithm>

namespace bw {
namespace {

QString originWord(const OwnRecord& record) {
  if (record.origin == EntryOrigin::Shipped) return EntryListModel::tr("shipped");
  if (record.origin == EntryOrigin::Own) return EntryListModel::tr("yours");
  return record.shippedChanged ? EntryListModel::tr("your copy, the shipped one changed") : EntryListModel::tr("your copy");
}

QString noteOf(const OwnEntry& entry) {
  if (const auto* coating = std::get_if<Coating>(&entry)) return QString::fromStdString(coating->note);
  if (const auto* substrate = std::get_if<Substrate>(&entry)) return QString::fromStdString(substrate->note);
  return QString::fromStdString(std::get<MachineCard>(entry).note);
}

}  // namespace

void EntryListModel::setRecords(std::vector<OwnRecord> records) {
  beginResetModel();
  m_records = std::move(records);
  std::ranges::stable_sort(m_records, {}, [](const OwnRecord& record) { return record.origin == EntryOrigin::Shipped; });
  filter();
  endResetModel();
}

void EntryListModel::setSearch(const QString& words) {
  beginResetModel();
  m_words = words.split(' ', Qt::SkipEmptyParts);
  filter();
  endResetModel();
}

void EntryListModel::filter() {
  m_shown.clear();
  for (std::size_t i = 0; i < m_records.size(); ++i) {
    const QString text = nameOf(m_records[i].entry) + ' ' + noteOf(m_records[i].entry);
    if (std::ranges::all_of(m_words, [&](const QString& word) { return text.contains(word, Qt::CaseInsensitive); })) m_shown.push_back(i);
  }
}

int EntryListModel::rowOf(const std::string& id) const {
  const auto found = std::ranges::find(m_shown, id, [&](std::size_t i) { return idOf(m_records[i].entry); });
  return found == m_shown.end() ? -1 : static_cast<int>(found - m_shown.begin());
}

std::string EntryListModel::idAt(int row) const {
  return row < 0 || row >= rowCount() ? std::string() : idOf(m_records[m_shown[static_cast<std::size_t>(row)]].entry);
}

int EntryListModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(m_shown.size()); }

QVariant EntryListModel::data(const QModelIndex& index, int role) const {
  if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
  const OwnRecord& record = m_records[m_shown[static_cast<std::size_t>(index.row())]];
  const QString name = nameOf(record.entry);
  if (role == Qt::DisplayRole) return record.origin == EntryOrigin::Shipped ? name : tr("%1\n%2").arg(name, originWord(record));
  if (role == Qt::ToolTipRole || role == Qt::AccessibleTextRole) return tr("%1, %2").arg(name, originWord(record));
  if (role == Qt::DecorationRole && std::holds_alternative<Coating>(record.entry))
    return QColor(QString::fromStdString(std::get<Coating>(record.entry).colour));
  return {};
}

}  // namespace bw

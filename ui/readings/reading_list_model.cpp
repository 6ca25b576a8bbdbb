// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/reading_list_model.h"

#include "ui/fields/quantity_text.h"
#include "ui/library/recipe_words.h"
#include "ui/readings/reading_kinds.h"

#include <QLocale>

#include <algorithm>

namespace bw {

ReadingListModel::ReadingListModel(const std::vector<std::string>& usual, QObject* parent) : QAbstractTableModel(parent) {
  for (const std::string& kind : usual) m_rows.push_back({kind, {}, {}});
  m_rows.push_back({});
}

std::vector<Reading> ReadingListModel::readings() const {
  std::vector<Reading> readings;
  for (const Row& row : m_rows) {
    if (!row.kind.empty() && row.value) readings.push_back({row.kind, *row.value, row.uncertainty, {}});
  }
  return readings;
}

void ReadingListModel::add(const std::vector<Reading>& readings) {
  beginResetModel();
  for (const Reading& reading : readings) {
    const auto free = std::ranges::find_if(m_rows, [&](const Row& row) { return row.kind == reading.kind && !row.value; });
    if (free != m_rows.end()) {
      *free = {reading.kind, reading.value, reading.uncertainty};
    } else {
      m_rows.insert(m_rows.end() - 1, {reading.kind, reading.value, reading.uncertainty});
    }
  }
  endResetModel();
  emit edited();
}

void ReadingListModel::takeOut(QList<int> rows) {
  std::ranges::sort(rows, std::greater<>());
  beginResetModel();
  for (const int row : rows) {
    if (row >= 0 && row < rowCount() - 1) m_rows.erase(m_rows.begin() + row);
  }
  endResetModel();
  emit edited();
}

int ReadingListModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(m_rows.size()); }
int ReadingListModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : ColumnCount; }

QVariant ReadingListModel::data(const QModelIndex& index, int role) const {
  if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
  const Row& row = m_rows[static_cast<std::size_t>(index.row())];
  if (role == WordsRole && index.column() == Kind) return knownReadingKinds();
  if (role != Qt::DisplayRole && role != Qt::EditRole) return {};
  const auto exact = [](const std::optional<double>& value) {
    QLocale locale;
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    return value ? locale.toString(*value, 'g', 6) : QString();
  };
  switch (index.column()) {
    case Kind:
      return row.kind.empty() && role == Qt::DisplayRole ? tr("another…") : words::readingKind(row.kind);
    case Value:
      return exact(row.value);
    case Uncertainty:
      return exact(row.uncertainty);
    default:
      return words::unitOf(row.kind);
  }
}

QVariant ReadingListModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation == Qt::Vertical || (role != Qt::DisplayRole && role != Qt::ToolTipRole)) return {};
  const bool tip = role == Qt::ToolTipRole;
  switch (section) {
    case Kind:
      return tip ? tr("What was measured; choose a kind or type one of your own, such as gloss_percent") : tr("Reading");
    case Value:
      return tip ? tr("As measured; a row without a value is no reading") : tr("Value");
    case Uncertainty:
      return tip ? tr("Half the span that holds nine in ten such readings; empty where it is not known") : tr("±");
    case UnitColumn:
      return tip ? tr("Follows from the kind") : tr("Unit");
    default:
      return {};
  }
}

Qt::ItemFlags ReadingListModel::flags(const QModelIndex& index) const {
  const Qt::ItemFlags flags = QAbstractTableModel::flags(index);
  return !index.isValid() || index.column() == UnitColumn ? flags : flags | Qt::ItemIsEditable;
}

bool ReadingListModel::setData(const QModelIndex& index, const QVariant& value, int role) {
  if (role != Qt::EditRole || !checkIndex(index, CheckIndexOption::IndexIsValid)) return false;
  Row row = m_rows[static_cast<std::size_t>(index.row())];
  const QString typed = value.toString().trimmed();
  QString problem;
  if (index.column() == Kind) {
    row.kind = readingKindOf(typed);
    if (row.value && row.kind.empty()) problem = tr("A value needs a kind. To take the reading out, press Delete.");
    if (row.value && problem.isEmpty()) problem = wrongValue(row.kind, *row.value);
  } else {
    problem = setNumber(row, index.column(), typed);
  }
  emit refused(problem);
  if (!problem.isEmpty()) return false;
  m_rows[static_cast<std::size_t>(index.row())] = row;
  emit dataChanged(this->index(index.row(), 0), this->index(index.row(), ColumnCount - 1));
  endWithEmpty();
  emit edited();
  return true;
}

QString ReadingListModel::setNumber(Row& row, int column, const QString& typed) const {
  std::optional<double>& number = column == Value ? row.value : row.uncertainty;
  if (typed.isEmpty() || typed == QStringLiteral("-")) {
    number.reset();
    return {};
  }
  if (row.kind.empty()) return tr("Say first what was measured.");
  const TypedQuantity read = readQuantity(typed, quantityOfKind(row.kind));
  if (!read.value) return read.problem.isEmpty() ? tr("“%1” is no number.").arg(typed) : read.problem;
  if (read.value->low != read.value->high) return tr("One number is wanted; for a span, put half of it under ±.");
  if (column == Uncertainty && !(read.value->likely >= 0)) return tr("An uncertainty is zero or more.");
  number = read.value->likely;
  return column == Value ? wrongValue(row.kind, *number) : QString();
}

void ReadingListModel::endWithEmpty() {
  if (!m_rows.empty() && m_rows.back().kind.empty()) return;
  beginInsertRows({}, rowCount(), rowCount());
  m_rows.push_back({});
  endInsertRows();
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/three_way_model.h"

#include "ui/own/field_words.h"

#include <QFont>

namespace bw {

void ThreeWayModel::setChange(const ShippedChange* change) {
  beginResetModel();
  m_rows = change ? threeWay(*change) : std::vector<ThreeWay>();
  endResetModel();
}

int ThreeWayModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(m_rows.size()); }
int ThreeWayModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(ColumnCount); }

QVariant ThreeWayModel::data(const QModelIndex& index, int role) const {
  if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
  const ThreeWay& row = m_rows[static_cast<std::size_t>(index.row())];
  if (role == Qt::FontRole && ((index.column() == Now && row.shippedChanged) || (index.column() == Mine && row.ownChanged))) {
    QFont bold;
    bold.setBold(true);
    return bold;
  }
  if (role == Qt::TextAlignmentRole) return int(Qt::AlignLeft | Qt::AlignTop);
  if (role != Qt::DisplayRole && role != Qt::ToolTipRole) return {};
  switch (index.column()) {
    case Property:
      return placeWords(row.key);
    case Then:
      return QString::fromStdString(row.then);
    case Now:
      return row.now.empty() ? tr("no longer shipped") : QString::fromStdString(row.now);
    default:
      return QString::fromStdString(row.mine);
  }
}

QVariant ThreeWayModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  const QStringList titles{tr("Property"), tr("Shipped then"), tr("Shipped now"), tr("Mine")};
  return section >= 0 && section < titles.size() ? QVariant(titles[section]) : QVariant();
}

}  // namespace bw

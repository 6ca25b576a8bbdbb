// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/exchange/sides_model.h"

#include "core/library/change_table.h"
#include "ui/exchange/exchange_words.h"

#include <QTextDocument>

namespace bw {

void SidesModel::setLine(const ImportLine* line) {
  beginResetModel();
  m_rows.clear();
  if (line) {
    const QString none = tr("nothing");
    const auto whole = [&](const std::string& words) { return words.empty() ? none : words::oneLine(words); };
    m_rows.push_back({tr("as a whole"), whole(line->mine), whole(line->theirs)});
    for (const Difference& difference : line->differences) {
      m_rows.push_back({words::oneLine(wordsOfKey(difference.key).words), words::oneLine(valueInWords(difference.key, difference.was)),
                        words::oneLine(valueInWords(difference.key, difference.is))});
    }
  }
  endResetModel();
}

int SidesModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(m_rows.size()); }
int SidesModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(ColumnCount); }

QVariant SidesModel::data(const QModelIndex& index, int role) const {
  if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
  const auto& row = m_rows[static_cast<std::size_t>(index.row())];
  if (role == Qt::TextAlignmentRole) return int(Qt::AlignLeft | Qt::AlignTop);
  if (role == Qt::AccessibleTextRole) return tr("%1: yours %2, theirs %3").arg(row[Place], row[Yours], row[Theirs]);
  const QString& text = row[static_cast<std::size_t>(index.column())];
  if (role == Qt::ToolTipRole) return Qt::convertFromPlainText(text);  // whatever a stranger wrote
  return role == Qt::DisplayRole ? text : QVariant();
}

QVariant SidesModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  const QStringList titles{tr("Where"), tr("Yours"), tr("Theirs")};
  return section >= 0 && section < titles.size() ? QVariant(titles[section]) : QVariant();
}

}  // namespace bw

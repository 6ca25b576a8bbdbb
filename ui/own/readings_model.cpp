// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/readings_model.h"

#include "ui/fields/quantity_text.h"
#include "ui/own/entry_model.h"

#include <QUndoCommand>

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr int mostRows = 1000;  // more is no set-up by hand but a slip of the clipboard

bool isEmptyRow(const QStringList& row) {
  return std::ranges::all_of(row, [](const QString& cell) { return cell.trimmed().isEmpty(); });
}

QStringList cellsOf(const QString& line) {
  const QChar separator = line.contains('\t') ? '\t' : ';';
  return line.split(separator);
}

bool hasNumber(const QString& line) {
  return std::ranges::any_of(line, [](QChar letter) { return letter.isDigit(); });
}

}  // namespace

class ReadingsModel::Step : public QUndoCommand {
 public:
  Step(ReadingsModel& model, Cells after, const QString& name)
      : QUndoCommand(name), m_model(model), m_before(model.m_cells), m_after(std::move(after)) {}
  void undo() override { m_model.show(m_before); }
  void redo() override { m_model.show(m_after); }

 private:
  ReadingsModel& m_model;
  Cells m_before, m_after;
};

ReadingsModel::ReadingsModel(std::vector<ReadingColumn> columns, QObject* parent)
    : QAbstractTableModel(parent), m_columns(std::move(columns)) {
  m_cells << QStringList(columnCount());
}

/// Rows come and go at the end, so that the cell in which a person types stays the current one.
void ReadingsModel::show(const Cells& cells) {
  const int before = rowCount(), after = static_cast<int>(cells.size());
  if (after > before) {
    beginInsertRows({}, before, after - 1);
    m_cells = cells;
    endInsertRows();
  } else if (after < before) {
    beginRemoveRows({}, after, before - 1);
    m_cells = cells;
    endRemoveRows();
  } else {
    m_cells = cells;
  }
  emit dataChanged(index(0, 0), index(after - 1, columnCount() - 1));
  emit edited();
}

/// With one empty row at the end, and only there.
void ReadingsModel::push(Cells cells, const QString& name) {
  while (!cells.isEmpty() && isEmptyRow(cells.last())) cells.removeLast();
  cells.resize(std::min<qsizetype>(cells.size(), mostRows));
  cells << QStringList(columnCount());
  if (cells != m_cells) m_undo.push(new Step(*this, std::move(cells), name));
}

void ReadingsModel::paste(const QModelIndex& at, const QString& block) {
  QStringList lines = QString(block).remove('\r').split('\n', Qt::SkipEmptyParts);
  if (lines.size() > 1 && !hasNumber(lines.first())) lines.removeFirst();
  Cells cells = m_cells;
  const int top = at.isValid() ? at.row() : rowCount() - 1, left = at.isValid() ? at.column() : 0;
  for (qsizetype i = 0; i < std::min<qsizetype>(lines.size(), mostRows); ++i) {
    const QStringList given = cellsOf(lines[i]);
    while (cells.size() <= top + i) cells << QStringList(columnCount());
    for (qsizetype j = 0; j < given.size() && left + j < columnCount(); ++j) cells[top + i][left + j] = given[j].trimmed();
  }
  push(cells, tr("paste readings"));
}

void ReadingsModel::removeRows(const QList<int>& rows) {
  Cells left;
  for (int row = 0; row < rowCount(); ++row) {
    if (!rows.contains(row)) left << m_cells[row];
  }
  push(left, tr("remove readings"));
}

QString ReadingsModel::block(const QModelIndexList& cells) const {
  QMap<int, QStringList> lines;
  for (const QModelIndex& cell : cells) lines[cell.row()] << m_cells[cell.row()][cell.column()];
  QStringList joined;
  for (const QStringList& line : lines) joined << line.join('\t');
  return joined.join('\n');
}

bool ReadingsModel::isBlank(int row) const { return isEmptyRow(m_cells[row]); }

QString ReadingsModel::problemAt(int row, int at) const {
  const ReadingColumn& column = m_columns[static_cast<std::size_t>(at)];
  const QString text = m_cells[row][at].trimmed();
  if (text.isEmpty()) return column.needed && !isBlank(row) ? tr("a value is missing") : QString();
  if (!column.words.isEmpty())
    return column.words.contains(text, Qt::CaseInsensitive)
               ? QString()
               : tr("one of these is accepted: %1").arg(column.words.join(QStringLiteral(", ")));
  const TypedQuantity read = readQuantity(text, column.quantity);
  if (!read.problem.isEmpty()) return read.problem;
  if (!read.value || !read.value->isExact()) return tr("one number is needed");
  const double value = read.value->likely;
  const bool fits =
      (column.above ? value > column.low : value >= column.low) && value <= column.high && (!column.whole || value == std::floor(value));
  if (fits) return {};
  const QString low = withUnit(column.low, column.quantity), high = withUnit(column.high, column.quantity);
  return column.whole   ? tr("a whole number from %1 to %2 is accepted").arg(low, high)
         : column.above ? tr("a number above %1 and up to %2 is accepted").arg(low, high)
                        : tr("a number from %1 to %2 is accepted").arg(low, high);
}

std::vector<int> ReadingsModel::goodRows() const {
  std::vector<int> good;
  for (int row = 0; row < rowCount(); ++row) {
    bool fine = !isBlank(row);
    for (int column = 0; column < columnCount(); ++column) fine = fine && problemAt(row, column).isEmpty();
    if (fine) good.push_back(row);
  }
  return good;
}

std::optional<double> ReadingsModel::number(int row, int column) const {
  const TypedQuantity read = readQuantity(m_cells[row][column].trimmed(), m_columns[static_cast<std::size_t>(column)].quantity);
  return read.value && read.problem.isEmpty() ? std::optional(read.value->likely) : std::nullopt;
}

QString ReadingsModel::word(int row, int column) const { return m_cells[row][column].trimmed().toLower(); }

QString ReadingsModel::problem() const {
  for (int row = 0; row < rowCount(); ++row) {
    for (int column = 0; column < columnCount(); ++column) {
      QString found = problemAt(row, column);
      if (found.isEmpty()) continue;
      if (found.endsWith('.')) found.chop(1);
      return tr("Row %1, %2: %3. The row takes no part until it is mended.")
          .arg(row + 1)
          .arg(m_columns[static_cast<std::size_t>(column)].title.section(',', 0, 0).toLower(), found);
    }
  }
  return {};
}

int ReadingsModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(m_cells.size()); }
int ReadingsModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(m_columns.size()); }

QVariant ReadingsModel::data(const QModelIndex& index, int role) const {
  if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
  const ReadingColumn& column = m_columns[static_cast<std::size_t>(index.column())];
  if (role == Qt::DisplayRole || role == Qt::EditRole) return m_cells[index.row()][index.column()];
  if (role == EntryModel::ProblemRole) return !problemAt(index.row(), index.column()).isEmpty();
  if (role == EntryModel::WordsRole) return column.words.isEmpty() ? QStringList() : QStringList{QString()} + column.words;
  if (role == Qt::TextAlignmentRole) return int((column.words.isEmpty() ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
  if (role != Qt::ToolTipRole) return {};
  const QString problem = problemAt(index.row(), index.column());
  return problem.isEmpty() ? column.tip : problem;
}

QVariant ReadingsModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation == Qt::Vertical && role == Qt::DisplayRole) return section + 1;
  if (orientation != Qt::Horizontal || section < 0 || section >= columnCount()) return {};
  const ReadingColumn& column = m_columns[static_cast<std::size_t>(section)];
  if (role == Qt::ToolTipRole) return column.tip;
  return role == Qt::DisplayRole ? QVariant(column.title) : QVariant();
}

Qt::ItemFlags ReadingsModel::flags(const QModelIndex& index) const {
  return index.isValid() ? QAbstractTableModel::flags(index) | Qt::ItemIsEditable : Qt::NoItemFlags;
}

bool ReadingsModel::setData(const QModelIndex& index, const QVariant& value, int role) {
  if (role != Qt::EditRole || !checkIndex(index, CheckIndexOption::IndexIsValid)) return false;
  Cells cells = m_cells;
  cells[index.row()][index.column()] = value.toString().trimmed();
  push(cells, tr("change a reading"));
  return true;
}

}  // namespace bw

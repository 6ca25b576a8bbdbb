// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/exchange/import_model.h"

#include "ui/exchange/exchange_words.h"
#include "ui/style/theme.h"

#include <QFont>
#include <QGuiApplication>
#include <QTextDocument>

#include <algorithm>
#include <numeric>

namespace bw {
namespace {

constexpr int mark_px = 12;

int urgency(ImportStatus status) {
  switch (status) {
    case ImportStatus::Conflict:
      return 0;
    case ImportStatus::Continues:
      return 1;
    case ImportStatus::New:
      return 2;
    case ImportStatus::Identical:
      break;
  }
  return 3;
}

}  // namespace

void ImportModel::setPlan(std::shared_ptr<const PreparedImport> prepared, ImportDecisions decisions) {
  beginResetModel();
  m_prepared = std::move(prepared);
  m_decisions = std::move(decisions);
  m_order.resize(m_prepared ? m_prepared->plan.lines.size() : 0);
  std::iota(m_order.begin(), m_order.end(), std::size_t{0});
  std::ranges::stable_sort(m_order, {}, [this](std::size_t at) { return urgency(m_prepared->plan.lines[at].status); });
  endResetModel();
  emit decided();
}

const ImportLine* ImportModel::line(int row) const {
  return row < 0 || row >= rowCount() ? nullptr : &m_prepared->plan.lines[m_order[static_cast<std::size_t>(row)]];
}

ImportDecision ImportModel::decision(int row) const {
  if (!line(row)) return ImportDecision::Open;
  const auto found = m_decisions.find(m_order[static_cast<std::size_t>(row)]);
  return found == m_decisions.end() ? ImportDecision::Open : found->second;
}

void ImportModel::decide(int row, ImportDecision decision) {
  if (!line(row)) return;
  const std::size_t at = m_order[static_cast<std::size_t>(row)];
  if (decision == ImportDecision::Open)
    m_decisions.erase(at);
  else
    m_decisions[at] = decision;
  emit dataChanged(index(row, 0), index(row, ColumnCount - 1));
  emit decided();
}

void ImportModel::decideAllOpen(ImportDecision decision) {
  if (openCount() == 0) return;
  for (const auto& [at, same] : decideAll(m_prepared->plan, decision)) m_decisions.try_emplace(at, same);
  emit dataChanged(index(0, 0), index(rowCount() - 1, ColumnCount - 1));
  emit decided();
}

bool ImportModel::isOpen(int row) const {
  const ImportLine* found = line(row);
  return found && found->status == ImportStatus::Conflict && decision(row) == ImportDecision::Open;
}

std::size_t ImportModel::openCount() const { return m_prepared ? openConflicts(m_prepared->plan, m_decisions) : 0; }

int ImportModel::nextOpen(int row) const {
  const int count = rowCount();
  for (int step = 1; step <= count; ++step) {
    if (const int next = (row + step) % count; isOpen(next)) return next;
  }
  return -1;
}

int ImportModel::rowOf(BundlePart part, const std::string& id) const {
  for (int row = 0; row < rowCount(); ++row) {
    if (line(row)->part == part && line(row)->id == id) return row;
  }
  return -1;
}

int ImportModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(m_order.size()); }
int ImportModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(ColumnCount); }

QString ImportModel::text(int row, int column) const {
  const ImportLine& entry = *line(row);
  if (column == State) return words::status(entry);
  if (column == Fate) return words::fate(entry, decision(row));
  const QString name = words::oneLine(entry.name.empty() ? entry.id : entry.name);
  return entry.part == BundlePart::Recipe ? name : tr("%1, %2").arg(name, words::part(entry.part));
}

QVariant ImportModel::data(const QModelIndex& index, int role) const {
  if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
  const int row = index.row();
  switch (role) {
    case Qt::DisplayRole:
      return text(row, index.column());
    case Qt::ToolTipRole:
      return Qt::convertFromPlainText(text(row, index.column()));  // whatever a stranger wrote
    case Qt::AccessibleTextRole:
      return tr("%1 %2: %3; %4").arg(words::part(line(row)->part), text(row, Entry), text(row, State), text(row, Fate));
    case Qt::DecorationRole:
      if (index.column() != Fate || !isOpen(row)) return {};
      return statePixmap(Status::Near, mark_px, QGuiApplication::palette(), qApp->devicePixelRatio());
    case Qt::FontRole:
      if (!isOpen(row)) return {};
      {
        QFont bold;
        bold.setBold(true);
        return bold;
      }
    case Qt::ForegroundRole:
      if (line(row)->status == ImportStatus::Identical) return tonesOf(QGuiApplication::palette()).quiet;
      return {};
    default:
      return {};
  }
}

QVariant ImportModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  const QStringList titles{tr("In the bundle"), tr("Beside yours"), tr("What becomes of it")};
  return section >= 0 && section < titles.size() ? QVariant(titles[section]) : QVariant();
}

}  // namespace bw

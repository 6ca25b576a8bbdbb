// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/proposal_model.h"

#include "ui/fields/quantity_text.h"
#include "ui/style/format.h"

namespace bw {
namespace {

constexpr int proposalDigits = 3;

QString shown(double value_SI, const FieldShown& field) {
  const QString number = format::number(value_SI * field.perSI, proposalDigits);
  return field.unit.empty() ? number : QStringLiteral("%1\u00a0%2").arg(number, QString::fromStdString(field.unit));
}

}  // namespace

void ProposalModel::setChanges(const Machine& machine, std::vector<MachineChange> changes) {
  beginResetModel();
  m_machine = machine;
  m_changes = std::move(changes);
  endResetModel();
}

std::vector<MachineChange> ProposalModel::taken() const {
  std::vector<MachineChange> taken;
  for (const MachineChange& change : m_changes) {
    if (!m_left.contains(keyOf(change))) taken.push_back(change);
  }
  return taken;
}

int ProposalModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(m_changes.size()); }
int ProposalModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(ColumnCount); }

QString ProposalModel::text(const MachineChange& change, int column) const {
  const FieldShown field = fieldShown(change.field);
  switch (column) {
    case Property: {
      QString name = QString::fromStdString(field.name);
      name[0] = name[0].toUpper();
      return change.pulseDuration
                 ? tr("%1 at %2").arg(name, withUnit(m_machine.pulseDurations_s[*change.pulseDuration], quantities::pulseDuration))
                 : name;
    }
    case Old:
      return change.old ? shown(*change.old, field) : tr("not stated");
    case New: {
      const QString range = tr("%1 (%2 to %3)")
                                .arg(shown(change.value.likely, field), format::number(change.value.low * field.perSI, proposalDigits),
                                     format::number(change.value.high * field.perSI, proposalDigits));
      return change.agrees() ? tr("%1; the old value lies within").arg(range) : range;
    }
    default:
      return QString::fromStdString(change.from);
  }
}

QVariant ProposalModel::data(const QModelIndex& index, int role) const {
  if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
  const MachineChange& change = m_changes[static_cast<std::size_t>(index.row())];
  if (role == Qt::DisplayRole || role == Qt::ToolTipRole) return text(change, index.column());
  if (role == Qt::TextAlignmentRole) return int(Qt::AlignLeft | Qt::AlignVCenter);
  if (role == Qt::CheckStateRole && index.column() == Property) return m_left.contains(keyOf(change)) ? Qt::Unchecked : Qt::Checked;
  return {};
}

QVariant ProposalModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  const QStringList titles{tr("Change"), tr("Now"), tr("Measured (nine in ten)"), tr("From")};
  return section >= 0 && section < titles.size() ? QVariant(titles[section]) : QVariant();
}

Qt::ItemFlags ProposalModel::flags(const QModelIndex& index) const {
  if (!index.isValid()) return Qt::NoItemFlags;
  const Qt::ItemFlags flags = Qt::ItemIsEnabled | Qt::ItemIsSelectable;
  return index.column() == Property ? flags | Qt::ItemIsUserCheckable : flags;
}

bool ProposalModel::setData(const QModelIndex& index, const QVariant& value, int role) {
  if (role != Qt::CheckStateRole || !checkIndex(index, CheckIndexOption::IndexIsValid) || index.column() != Property) return false;
  const Key key = keyOf(m_changes[static_cast<std::size_t>(index.row())]);
  if (value.toInt() == Qt::Checked)
    m_left.erase(key);
  else
    m_left.insert(key);
  emit dataChanged(index, index, {Qt::CheckStateRole});
  return true;
}

}  // namespace bw

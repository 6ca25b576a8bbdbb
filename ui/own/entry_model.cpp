// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/entry_model.h"

#include "ui/fields/quantity_text.h"
#include "ui/own/entry_text.h"
#include "ui/own/field_words.h"

#include <QFont>
#include <QUndoCommand>

#include <algorithm>

namespace bw {

using Shape = EntryField::Shape;

/// The whole entry before and after: entries are small, and so nothing can be forgotten.
class EntryModel::Step : public QUndoCommand {
 public:
  Step(EntryModel& model, OwnEntry after, const QString& name)
      : QUndoCommand(name), m_model(model), m_before(model.m_entry), m_after(std::move(after)) {}
  void undo() override { m_model.show(m_before); }
  void redo() override { m_model.show(m_after); }

 private:
  EntryModel& m_model;
  OwnEntry m_before, m_after;
};

EntryModel::EntryModel(QObject* parent) : QAbstractTableModel(parent) {
  layOut();
  connect(&m_undo, &QUndoStack::indexChanged, this, &EntryModel::changedAtAll);
  connect(&m_undo, &QUndoStack::cleanChanged, this, &EntryModel::changedAtAll);
}

void EntryModel::open(const OwnEntry& entry, bool readOnly) {
  beginResetModel();
  m_entry = entry;
  m_readOnly = readOnly;
  m_typed.clear();
  m_problems.clear();
  layOut();
  endResetModel();
  m_undo.clear();
  emit changedAtAll();
}

void EntryModel::take(const OwnEntry& entry, const QString& stepName) {
  m_typed.clear();
  m_problems.clear();
  m_undo.push(new Step(*this, entry, stepName));
}

void EntryModel::add(MachinePart part, const std::string& today) {
  OwnEntry entry = m_entry;
  auto* card = std::get_if<MachineCard>(&entry);
  if (!card || m_readOnly) return;
  if (part == MachinePart::Optic) card->machine.optics.emplace_back().id = "optic " + std::to_string(card->machine.optics.size());
  if (part == MachinePart::Piece) card->pieces.emplace_back().what = tr("tip").toStdString();
  if (part == MachinePart::Check) card->checks.emplace_back().date = today;
  const QStringList names{tr("add an optic"), tr("add a piece"), tr("add a check")};
  m_undo.push(new Step(*this, entry, names[static_cast<int>(part)]));
}

bool EntryModel::isPart(int row) const {
  if (row < 0 || row >= rowCount() || !fieldAt(row)) return false;
  const QString key = QString::fromStdString(fieldAt(row)->key);
  return key.startsWith(QLatin1String("machine.optics.")) || key.startsWith(QLatin1String("pieces.")) ||
         key.startsWith(QLatin1String("checks."));
}

void EntryModel::removePartAt(int row) {
  if (!isPart(row) || m_readOnly) return;
  const QString key = QString::fromStdString(fieldAt(row)->key);
  const auto at = key.section('.', -2, -2).toLongLong() - 1;
  OwnEntry entry = m_entry;
  auto& card = std::get<MachineCard>(entry);
  const auto erase = [at](auto& list) { list.erase(list.begin() + at); };
  if (key.startsWith(QLatin1String("pieces.")))
    erase(card.pieces);
  else if (key.startsWith(QLatin1String("checks.")))
    erase(card.checks);
  else
    erase(card.machine.optics);
  m_typed.clear();  // keys of those behind it move up
  m_problems.clear();
  m_undo.push(new Step(*this, entry, tr("remove %1").arg(sectionOf(*fieldAt(row)).title)));
}

/// The fields hold on to the entry, so they are made anew with it; rows only where there are others.
void EntryModel::show(const OwnEntry& entry) {
  OwnEntry next = entry;
  const std::size_t count = std::visit([](auto& value) { return fieldsOf(value).size(); }, next);
  const bool reset = count != m_fields.size();
  if (reset) beginResetModel();
  m_entry = std::move(next);
  layOut();
  if (reset) return endResetModel();
  emit dataChanged(index(0, 0), index(rowCount() - 1, ColumnCount - 1));
}

void EntryModel::layOut() {
  m_fields = std::visit([](auto& value) { return fieldsOf(value); }, m_entry);
  std::ranges::stable_sort(m_fields, {}, [](const EntryField& field) { return sectionOf(field).order; });
  m_rows.clear();
  int order = -1;
  for (std::size_t i = 0; i < m_fields.size(); ++i) {
    const FieldSection section = sectionOf(m_fields[i]);
    if (section.order != order) m_rows.push_back({section.title, -1});
    order = section.order;
    m_rows.push_back({{}, static_cast<int>(i)});
  }
}

const EntryField* EntryModel::fieldAt(int row) const {
  const int field = m_rows[static_cast<std::size_t>(row)].field;
  return field < 0 ? nullptr : &m_fields[static_cast<std::size_t>(field)];
}

bool EntryModel::isRange(int row) const { return fieldAt(row) && fieldAt(row)->shape == Shape::Range; }

int EntryModel::rowOf(const std::string& key) const {
  const auto found = std::ranges::find_if(
      m_rows, [&](const Row& row) { return row.field >= 0 && m_fields[static_cast<std::size_t>(row.field)].key == key; });
  return found == m_rows.end() ? -1 : static_cast<int>(found - m_rows.begin());
}

int EntryModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(m_rows.size()); }
int EntryModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(ColumnCount); }

QString EntryModel::cellText(const EntryField& field, int column) const {
  const QHash<int, QString> typed = m_typed.value(QString::fromStdString(field.key));
  return typed.contains(column) ? typed[column] : shownText(field, column);
}

QString EntryModel::shownText(const EntryField& field, int column) const {
  if (column == UnitSymbol) return unitOf(field);
  const FieldValue value = field.get();
  if (field.shape == Shape::Range) {
    if (column == Source) return QString::fromStdString(value.text);
    const int at = column - Low;
    return at >= 0 && at < static_cast<int>(value.numbers.size()) ? entryText::number(value.numbers[static_cast<std::size_t>(at)])
                                                                  : QString();
  }
  if (column == Source) return wordsOf(field).tip;
  if (column != valueColumn()) return {};
  if (field.shape == Shape::Word) return sayWord(value.text);
  if (field.shape == Shape::Text) return QString::fromStdString(value.text);
  return entryText::numbers(value.numbers);
}

QString EntryModel::tip(const EntryField& field, int column) const {
  const QString problem = m_problems.value(QString::fromStdString(field.key));
  if (!problem.isEmpty()) return problem;
  if (column == Name) return wordsOf(field).tip;
  if (column == Estimate) return tr("Ticked: nobody measured or published this value.");
  if (column == Source) return cellText(field, column);
  return field.accepted.empty() ? QString() : tr("%1 is accepted.").arg(QString::fromStdString(field.accepted));
}

QVariant EntryModel::data(const QModelIndex& index, int role) const {
  if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
  const EntryField* field = fieldAt(index.row());
  if (role == HeadingRole) return field == nullptr;
  if (!field) {
    if (role == Qt::DisplayRole && index.column() == Name) return m_rows[static_cast<std::size_t>(index.row())].heading;
    if (role == Qt::FontRole) {
      QFont bold;
      bold.setBold(true);
      return bold;
    }
    return {};
  }
  const QString key = QString::fromStdString(field->key);
  if (role == KeyRole) return key;
  if (role == ProblemRole) return m_typed.value(key).contains(index.column());
  if (role == WordsRole) return entryText::words(*field);
  if (role == Qt::CheckStateRole) {
    if (!checkable(*field, index.column()) || (field->shape == Shape::Range && field->get().numbers.empty())) return {};
    return field->get().flag ? Qt::Checked : Qt::Unchecked;
  }
  if (role == Qt::ToolTipRole) return tip(*field, index.column());
  if (role == Qt::AccessibleTextRole && index.column() == Estimate && field->shape == Shape::Range)
    return field->get().flag ? tr("estimate") : tr("not an estimate");
  if (role == Qt::TextAlignmentRole && field->shape == Shape::Range && index.column() >= Low && index.column() <= High)
    return int(Qt::AlignRight | Qt::AlignVCenter);
  if (role == Qt::TextAlignmentRole) return int(Qt::AlignLeft | Qt::AlignVCenter);
  if (role != Qt::DisplayRole && role != Qt::EditRole) return {};
  if (index.column() != Name) return cellText(*field, index.column());
  const QString problem = m_problems.value(key);
  return problem.isEmpty() ? wordsOf(*field).name : wordsOf(*field).name + '\n' + problem;
}

QVariant EntryModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  if (isMachine() && section == Likely) return tr("Value");
  if (isMachine() && section == Source) return tr("What it is");
  const QStringList titles{tr("Property"), tr("Low"), tr("Likely"), tr("High"), tr("Unit"), tr("Estimate"), tr("Source")};
  return section >= 0 && section < titles.size() ? QVariant(titles[section]) : QVariant();
}

bool EntryModel::checkable(const EntryField& field, int column) const {
  return field.shape == Shape::Range ? column == Estimate : field.shape == Shape::Flag && column == valueColumn();
}

bool EntryModel::editable(const EntryField& field, int column) const {
  if (m_readOnly || field.shape == Shape::Flag) return false;
  if (field.shape == Shape::Range) return column == Low || column == Likely || column == High || column == Source;
  return column == valueColumn();
}

Qt::ItemFlags EntryModel::flags(const QModelIndex& index) const {
  if (!index.isValid()) return Qt::NoItemFlags;
  const EntryField* field = fieldAt(index.row());
  if (!field) return Qt::ItemIsEnabled;
  Qt::ItemFlags flags = Qt::ItemIsEnabled | Qt::ItemIsSelectable;
  if (editable(*field, index.column())) flags |= Qt::ItemIsEditable;
  if (!m_readOnly && checkable(*field, index.column())) flags |= Qt::ItemIsUserCheckable;
  return flags;
}

bool EntryModel::setData(const QModelIndex& index, const QVariant& value, int role) {
  if (m_readOnly || !checkIndex(index, CheckIndexOption::IndexIsValid)) return false;
  const EntryField* field = fieldAt(index.row());
  if (!field) return false;
  const EntryField kept = *field;  // a step lays the rows out anew
  if (role == Qt::CheckStateRole && checkable(kept, index.column())) {
    check(kept, value.toInt() == Qt::Checked);
    return true;
  }
  if (role != Qt::EditRole || !editable(kept, index.column())) return false;
  enter(kept, index.column(), value.toString().trimmed());
  return true;
}

void EntryModel::check(const EntryField& field, bool flag) {
  FieldValue value = field.get();
  value.flag = flag;
  push(field.key, value, tr("change %1").arg(wordsOf(field).name));
}

/// What is typed joins what else of this value waits to be mended; taken only as a whole.
void EntryModel::enter(const EntryField& field, int column, const QString& text) {
  const QString key = QString::fromStdString(field.key);
  QHash<int, QString> typed = m_typed.value(key);
  typed.insert(column, text);
  if (text == shownText(field, column)) typed.remove(column);
  FieldValue value;
  QString problem = typed.isEmpty() ? QString() : read(field, typed, value);
  if (problem.isEmpty() && !typed.isEmpty()) {
    OwnEntry trial = m_entry;
    auto fields = std::visit([](auto& entry) { return fieldsOf(entry); }, trial);
    const auto same = std::ranges::find(fields, field.key, &EntryField::key);
    problem = QString::fromStdString(same->set(value));
  }
  const QString name = tr("change %1").arg(wordsOf(field).name);
  if (problem.isEmpty()) {
    m_typed.remove(key);
    m_problems.remove(key);
    if (!typed.isEmpty()) push(field.key, value, name);
  } else {
    m_typed.insert(key, typed);
    m_problems.insert(key, problem);
  }
  emit dataChanged(index(0, 0), index(rowCount() - 1, ColumnCount - 1));
  emit changedAtAll();
}

void EntryModel::push(const std::string& key, const FieldValue& value, const QString& name) {
  OwnEntry entry = m_entry;
  auto fields = std::visit([](auto& changed) { return fieldsOf(changed); }, entry);
  const auto same = std::ranges::find(fields, key, &EntryField::key);
  if (same == fields.end() || !same->set(value).empty() || entry == m_entry) return;
  m_undo.push(new Step(*this, entry, name));
}

QString EntryModel::read(const EntryField& field, const QHash<int, QString>& typed, FieldValue& value) const {
  if (field.shape == Shape::Range)
    return entryText::readRange(field, {typed.value(Low), typed.value(Likely), typed.value(High)},
                                {typed.contains(Low), typed.contains(Likely), typed.contains(High)},
                                typed.contains(Source) ? std::optional(typed.value(Source)) : std::nullopt, value);
  return entryText::read(field, typed.value(valueColumn()), value);
}

}  // namespace bw

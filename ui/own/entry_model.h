// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/entry_fields.h"
#include "ui/own/own_things.h"

#include <QAbstractTableModel>
#include <QHash>
#include <QUndoStack>

namespace bw {

/// What comes with a machine in any number.
enum class MachinePart { Optic, Piece, Check };

/// One coating, substrate or machine as a table: a row a value, under headings. Every change is one undo step. What was typed and is not
/// taken stays in its cell with a sentence why, until it is mended; nothing typed is lost.
class EntryModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { Name, Low, Likely, High, UnitSymbol, Estimate, Source, ColumnCount };
  enum Role { WordsRole = Qt::UserRole, HeadingRole, ProblemRole, KeyRole };

  explicit EntryModel(QObject* parent = nullptr);

  /// Another entry; forgets the undo steps.
  void open(const OwnEntry& entry, bool readOnly);
  /// Another state of the same entry, as an undo step.
  void take(const OwnEntry& entry, const QString& stepName);
  void add(MachinePart part, const std::string& today);
  void removePartAt(int row);
  bool isPart(int row) const;

  const OwnEntry& entry() const { return m_entry; }
  bool isReadOnly() const { return m_readOnly; }
  bool isMachine() const { return std::holds_alternative<MachineCard>(m_entry); }
  /// Whether something would be lost by opening another one.
  bool isChanged() const { return !m_undo.isClean() || !m_typed.isEmpty(); }
  int problemCount() const { return static_cast<int>(m_problems.size()); }
  void markSaved() { m_undo.setClean(); }
  QUndoStack& undoStack() { return m_undo; }

  /// In which column the value of a row stands that is no range.
  int valueColumn() const { return isMachine() ? Likely : Low; }
  bool isHeading(int row) const { return m_rows[static_cast<std::size_t>(row)].field < 0; }
  bool isRange(int row) const;
  int rowOf(const std::string& key) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role) override;

 signals:
  void changedAtAll();  // anything that a button or a sentence depends on

 private:
  struct Row {
    QString heading;
    int field = -1;
  };
  class Step;

  void show(const OwnEntry& entry);
  void layOut();
  const EntryField* fieldAt(int row) const;
  QString cellText(const EntryField& field, int column) const;
  QString shownText(const EntryField& field, int column) const;
  QString tip(const EntryField& field, int column) const;
  bool editable(const EntryField& field, int column) const;
  bool checkable(const EntryField& field, int column) const;
  void enter(const EntryField& field, int column, const QString& typed);
  void check(const EntryField& field, bool flag);
  void push(const std::string& key, const FieldValue& value, const QString& name);
  QString read(const EntryField& field, const QHash<int, QString>& typed, FieldValue& value) const;

  OwnEntry m_entry;
  bool m_readOnly = true;
  std::vector<EntryField> m_fields;
  std::vector<Row> m_rows;
  QHash<QString, QHash<int, QString>> m_typed;  // not taken, by key and column
  QHash<QString, QString> m_problems;           // why, by key
  QUndoStack m_undo;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/style/theme.h"

#include <QStringList>
#include <QWidget>

#include <optional>

class QGridLayout;

namespace bw {

/// Things beside each other: a name, a column for each machine, and what is to be said of it. Long texts wrap.
class BesideTable : public QWidget {
  Q_OBJECT
 public:
  explicit BesideTable(const QStringList& headings, QWidget* parent = nullptr);

  void add(const QString& name, const QStringList& cells);
  /// The shape of a state before the last cell of the row added last.
  void mark(Status status);
  /// The word and shape of a state in a column (1: the first after the name) of that row; `otherwise` where there is none.
  void setState(int column, std::optional<Status> status, const QString& otherwise);
  /// A sentence on that row, beneath it and across all columns.
  void explain(const QString& sentence);
  bool isEmpty() const { return m_rows == 1; }

 private:
  QWidget* withShape(Status status, const QString& words) const;
  void put(QWidget* widget, int column);

  QGridLayout* m_grid;
  int m_columns;
  int m_rows = 1;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/readings/csv_columns.h"

#include <QWidget>

class QLabel;

namespace bw {

class Chooser;

/// What a column of the file is taken for, in which unit, and why; both can be chosen.
class ColumnHead : public QWidget {
  Q_OBJECT
 public:
  ColumnHead(int index, const ColumnMapping& column, QWidget* parent = nullptr);

  void setColumn(const ColumnMapping& column);

 signals:
  void meaningChosen(bw::ColumnMeaning meaning, const std::string& kind);
  void unitChosen(bw::CsvUnit unit);

 private:
  void offerUnits(const ColumnMapping& column);

  QString m_title;
  Chooser* m_meaning;
  Chooser* m_unit;
  QLabel* m_shape;
  QLabel* m_why;
};

}  // namespace bw

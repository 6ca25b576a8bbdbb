// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

class QTableView;

namespace bw {

class ProblemLabel;
class ReadingsModel;

/// A table of readings to type or paste into, with how to take them above and what is wrong with one below.
class ReadingsTable : public QWidget {
  Q_OBJECT
 public:
  ReadingsTable(ReadingsModel& model, const QString& name, const QString& howTo, QWidget* parent = nullptr);
  QTableView* view() const { return m_view; }

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void paste();
  void copy();
  void removeChosen();
  void clearChosen();

  ReadingsModel& m_model;
  QTableView* m_view;
  ProblemLabel* m_problem;
};

}  // namespace bw

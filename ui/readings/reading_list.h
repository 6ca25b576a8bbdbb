// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/plan.h"

#include <QWidget>

#include <vector>

class QTableView;

namespace bw {

class ProblemLabel;
class ReadingListModel;

/// The readings of a trial: typed row by row, or taken from a file.
class ReadingList : public QWidget {
  Q_OBJECT
 public:
  explicit ReadingList(QWidget* parent = nullptr);

  std::vector<Reading> readings() const;
  void add(const std::vector<Reading>& readings);

 signals:
  void edited();
  void fileWanted();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void removeChosen();

  ReadingListModel* m_model;
  QTableView* m_view;
  ProblemLabel* m_problem;
};

}  // namespace bw

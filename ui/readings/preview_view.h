// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/readings/csv_study.h"

#include <QTableView>

namespace bw {

class ColumnHead;
class HeadRow;
class PreviewModel;

/// The first rows of a file, under heads that say and choose what their columns are taken for.
class PreviewView : public QTableView {
  Q_OBJECT
 public:
  explicit PreviewView(QWidget* parent = nullptr);

  void setStudy(const CsvStudy& study);

 signals:
  void columnsChosen(std::vector<bw::ColumnMapping> columns);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void orderFocus();
  void makeHeads();
  void take(std::vector<ColumnMapping> columns);

  PreviewModel* m_preview;
  HeadRow* m_head;
  std::vector<ColumnHead*> m_heads;
  std::shared_ptr<const CsvTable> m_table;
  std::vector<ColumnMapping> m_columns;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QTableView>

namespace bw {

class EntryModel;

/// The table of one entry: headings across, words offered as lists, what was not taken with the stripe of "fails".
class EntryView : public QTableView {
  Q_OBJECT
 public:
  explicit EntryView(EntryModel& model, QWidget* parent = nullptr);

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  void layOut();

  EntryModel& m_model;
};

}  // namespace bw

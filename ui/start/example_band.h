// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assess.h"

#include <QWidget>

#include <memory>
#include <vector>

class QPushButton;

namespace bw {

class ElidedLabel;

/// The band over the example: says in how many places the plan fails, mends it one remedy at a time, and leads to one's own part.
class ExampleBand : public QWidget {
  Q_OBJECT
 public:
  explicit ExampleBand(QWidget* parent = nullptr);

  void setAssessment(const std::shared_ptr<const Assessment>& assessment);
  /// The remedy that a click on "mend" applies; empty: none was found.
  void setNext(const QString& remedy);
  void setDone(const QString& remedy);

 signals:
  void mendChosen();
  void startChosen();
  void openChosen();
  void dismissed();

 private:
  void refresh();

  ElidedLabel* m_text;
  QPushButton* m_mend;
  QString m_done;
  int m_failing = 0;
  int m_unknown = 0;
  bool m_stopped = false;
  bool m_assessed = false;
  bool m_remediesKnown = false;
  QString m_next;
};

/// The remedy to try first: the best one for the failing row that stands highest; -1 when there is none.
int firstRemedy(const Assessment& assessment, const std::vector<Remedy>& remedies);

}  // namespace bw

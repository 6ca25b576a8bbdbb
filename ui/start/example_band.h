// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assess.h"

#include <QWidget>

#include <array>
#include <memory>
#include <vector>

class QPushButton;

namespace bw {

class ElidedLabel;

/// The band over an example or a plan that fails: says where it fails and leads there, and fixes it one change at a time. Over an example
/// it leads to one's own part, too.
class ExampleBand : public QWidget {
  Q_OBJECT
 public:
  explicit ExampleBand(QWidget* parent = nullptr);

  /// Nothing: a new one is on its way.
  void setAssessment(const std::shared_ptr<const Assessment>& assessment);
  void setExample(bool example);
  bool isFailing() const;
  /// There is no assessment of this plan.
  void setFailed();
  /// The remedy that a click on "fix" applies and the check it is for; both empty: none was found.
  void setNext(const QString& remedy, const std::string& check);
  void setDone(const QString& remedy);
  bool hasDone() const { return !m_done.isEmpty(); }
  /// The failing check that the band tells of; empty where none fails.
  std::string place() const;

 signals:
  void mendChosen();
  void placeChosen(const std::string& check);
  void startChosen();
  void openChosen();
  void dismissed();

 private:
  void refresh();
  bool isStopped() const;
  QString sentence() const;
  QString stateWords() const;
  QString failingWords() const;
  std::vector<VerdictRow> rowsIn(Status status) const;

  ElidedLabel* m_text;
  QPushButton* m_mend;
  QPushButton* m_show;
  std::array<QPushButton*, 2> m_elsewhere{};  // to one's own part
  bool m_example = true;
  std::shared_ptr<const Assessment> m_assessment;
  bool m_failed = false;
  bool m_remediesKnown = false;
  QString m_done;
  QString m_next;
  std::string m_nextCheck;
};

/// The remedy to try first: the first of the list, best first, that is for a failing row; -1 when there is none.
int firstRemedy(const Assessment& assessment, const std::vector<Remedy>& remedies);

}  // namespace bw

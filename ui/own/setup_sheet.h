// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/asker.h"
#include "ui/own/own_things.h"
#include "ui/own/setup_runner.h"

#include <QWidget>

class QLabel;
class QLineEdit;
class QPushButton;
class QTabWidget;
class QTableView;

namespace bw {

class Chooser;
class ElidedLabel;
class FitPlot;
class ProblemLabel;
class ProposalModel;
class QuantityField;
class SetupReadings;

/// From what an operator can measure on a machine to its properties: readings at the left, the fit they give and what would change at the
/// right, each change with its own tick. Applying makes or changes an own copy.
class SetupSheet : public QWidget {
  Q_OBJECT
 public:
  SetupSheet(Asker*& asker, const OwnActions& actions, QWidget* parent = nullptr);

  /// Another machine begins with empty tables; the same one keeps them.
  void open(const OwnRecord& machine, bool readOnly);
  void setToday(const QString& date);
  /// Does `go`, after asking where readings would be lost.
  void leave(const std::function<void()>& go);

  SetupReadings& readings() { return *m_readings; }
  ProposalModel& changes() { return *m_changes; }
  FitPlot* plot() const { return m_plot; }
  bool isBusy() const { return m_runner.isBusy(); }

 signals:
  void backWanted();
  void applied(const QString& id);

 private:
  QWidget* buildInputs();
  QWidget* buildResults();
  QWidget* buildCautions();
  void request();
  void showResult(const SetupResult& result);
  void showPicture();
  void apply();
  void refreshButtons();
  QString dateProblem() const;

  Asker*& m_asker;
  const OwnActions& m_actions;
  OwnRecord m_machine;
  bool m_readOnly = false;
  bool m_applied = false;  // what stands in the tables is in the machine
  SetupReadings* m_readings;
  ProposalModel* m_changes;
  SetupRunner m_runner;
  SetupResult m_result;
  double m_meterUncertainty = 0;
  QLabel* m_title;
  QTabWidget* m_tabs;
  QuantityField* m_meter;
  QLineEdit *m_date, *m_initials;
  Chooser* m_which;
  FitPlot* m_plot;
  QLabel* m_remarks;
  QTableView* m_table;
  QLabel* m_state;
  ProblemLabel* m_problem;
  QPushButton* m_apply;
};

}  // namespace bw

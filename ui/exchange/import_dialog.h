// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/exchange/import_model.h"

#include <QDialog>

class QLabel;
class QPushButton;
class QStackedWidget;
class QTableView;
class QVBoxLayout;

namespace bw {

class DecisionPanel;
class ProblemLabel;

/// What a bundle would bring, before anything is brought in: its entries beside the library's, and a decision for each that differs. Shows
/// what it is given and says what is wanted; knows nothing of the library.
class ImportDialog : public QDialog {
  Q_OBJECT
 public:
  /// `whyNot`: why nothing can be brought in here, empty where it can.
  ImportDialog(const QString& file, const QString& whyNot, QWidget* parent);

  /// The bundle beside the library. Again with the same bundle: decisions that still fit stay.
  void showPlan(std::shared_ptr<const PreparedImport> prepared);
  /// The bundle cannot be used, and why.
  void showUnusable(const QString& sentence);
  /// It did not come in, and why.
  void showProblem(const QString& sentence);
  void setWorking(bool working);
  bool isWorking() const { return m_working; }

  const QString& file() const { return m_file; }
  ImportModel* model() const { return m_model; }
  const std::shared_ptr<const PreparedImport>& prepared() const { return m_model->prepared(); }

 signals:
  void bringInWanted();
  void anotherWanted();

 private:
  void build();
  QWidget* makeReading();
  QWidget* makeUnusable();
  QWidget* makePreview();
  QWidget* makeEntries();
  QWidget* makeForAll();
  QWidget* makeFoot();
  void connectAll();
  void enlarge();
  void showHead();
  void showCurrent();
  void chooseRow(int row);
  void check();
  QString missing() const;

  QString m_file;
  QString m_whyNot;
  bool m_working = false;
  ImportModel* m_model;
  QStackedWidget* m_pages = nullptr;
  ProblemLabel* m_unusable = nullptr;
  ProblemLabel* m_problem = nullptr;
  QLabel* m_origin = nullptr;
  QLabel* m_note = nullptr;
  QLabel* m_counts = nullptr;
  QVBoxLayout* m_notices = nullptr;
  QLabel* m_meanwhile = nullptr;
  QTableView* m_table = nullptr;
  DecisionPanel* m_panel = nullptr;
  QWidget* m_forAll = nullptr;
  QPushButton* m_next = nullptr;
  QLabel* m_missing = nullptr;
  QLabel* m_backup = nullptr;
  QPushButton* m_doIt = nullptr;
  QPushButton* m_another = nullptr;
};

}  // namespace bw

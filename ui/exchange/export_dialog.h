// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/exchange/bundle_jobs.h"

#include <QDialog>

class QButtonGroup;
class QCheckBox;
class QLabel;
class QLineEdit;
class QPlainTextEdit;
class QPushButton;
class QVBoxLayout;

namespace bw {

class Form;
class ProblemLabel;

/// What is given away, whether photos go along, and who says so. Shows what it is given and says what is wanted; knows nothing of the
/// library.
class ExportDialog : public QDialog {
  Q_OBJECT
 public:
  /// `offered`: what can be given away from here; the first is chosen.
  ExportDialog(const std::vector<GivenAway>& offered, QWidget* parent);

  const GivenAway& chosen() const;
  bool attachments() const;
  /// Date and time are for the caller to add.
  BundleWords words() const;

  /// How much it is, told a moment after something else was chosen.
  void showExtent(const ExportExtent& extent);
  void showProblem(const QString& sentence);
  void showWritten(const WrittenBundle& written);
  void setWorking(bool working);

 signals:
  void extentWanted();
  void writeWanted();

 private:
  void addChoices(QVBoxLayout& column);
  void addWords(Form& form);
  void addButtons(QVBoxLayout& column);
  void check();
  QString missing() const;

  std::vector<GivenAway> m_offered;
  std::optional<ExportExtent> m_extent;
  bool m_working = false;
  QWidget* m_asked;
  QWidget* m_done;
  QVBoxLayout* m_doneColumn;
  QButtonGroup* m_what;
  QLabel* m_much;
  QCheckBox* m_attachments;
  QLabel* m_attachmentsProblem;
  QLineEdit* m_from;
  QPlainTextEdit* m_note;
  ProblemLabel* m_problem;
  QLabel* m_missing;
  QPushButton* m_cancel;
  QPushButton* m_doIt;
};

}  // namespace bw

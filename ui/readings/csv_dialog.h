// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/readings/csv_reader.h"

#include <QDialog>

class QCheckBox;
class QLabel;
class QListWidget;
class QPushButton;
class QVBoxLayout;

namespace bw {

class Chooser;
class ProblemLabel;
class PreviewView;

/// Shows how a gauge's or a logger's file is understood, lets every part of that be chosen, and gives out the readings when accepted.
class CsvDialog : public QDialog {
  Q_OBJECT
 public:
  CsvDialog(const QString& path, QWidget* parent);

  const CsvReader& reader() const { return *m_reader; }
  std::vector<Reading> readings() const;
  /// The file is to be kept beside the recipe.
  bool keepsFile() const;

 private:
  QWidget* makeFormat();
  QWidget* makeBelow();
  QWidget* makeButtons();
  void chooseFormat();
  void refresh();
  void refreshFormat();
  void refreshProblems();
  void refreshSummary();

  CsvReader* m_reader;
  ProblemLabel* m_problem;
  Chooser* m_purpose = nullptr;
  Chooser* m_separator = nullptr;
  Chooser* m_decimal = nullptr;
  Chooser* m_encoding = nullptr;
  QLabel* m_remarks;
  PreviewView* m_preview;
  QWidget* m_below = nullptr;
  QLabel* m_unreadTitle = nullptr;
  QListWidget* m_unread = nullptr;
  QLabel* m_summary = nullptr;
  QCheckBox* m_means = nullptr;
  QCheckBox* m_keep = nullptr;
  QPushButton* m_enter = nullptr;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/import_apply.h"

#include <QWidget>

#include <array>

class QButtonGroup;
class QLabel;
class QRadioButton;
class QTableView;

namespace bw {

class SidesModel;

/// One entry of a bundle: yours and theirs beside each other, and what can be decided. Of a conflict nothing is decided beforehand.
class DecisionPanel : public QWidget {
  Q_OBJECT
 public:
  explicit DecisionPanel(QWidget* parent = nullptr);

  /// Nothing: an empty panel.
  void showLine(const ImportLine* line, ImportDecision decision);
  SidesModel* sides() const { return m_sides; }

 signals:
  void chosen(bw::ImportDecision decision);

 private:
  struct Choice {
    ImportDecision decision = ImportDecision::Open;
    QRadioButton* button = nullptr;
    QLabel* effect = nullptr;
  };
  QWidget* makeChoices();
  QTableView* makeTable();
  void showChoices(const ImportLine& line, ImportDecision decision);

  SidesModel* m_sides;
  QLabel* m_name;
  QLabel* m_standing;
  QButtonGroup* m_group;
  QWidget* m_choices = nullptr;
  QTableView* m_table = nullptr;
  std::array<Choice, 4> m_all;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/library_store.h"
#include "ui/carry/carry_work.h"

#include <QDialog>

class QLabel;
class QListWidget;
class QPushButton;
class QScrollArea;

namespace bw {

class CarryPage;

/// Lets a machine be chosen for a recipe, shows what becomes of it there, and offers to keep or apply that. It does neither itself.
class CarryDialog : public QDialog {
  Q_OBJECT
 public:
  using Machines = std::vector<LibraryEntry<MachineCard>>;

  /// `preferred`: id of the machine that is chosen at first, if it is offered. The recipe's own machine never is.
  CarryDialog(const RecipeVersion& version, const Machines& machines, const std::string& preferred, AssessmentRunner::Model model,
              QWidget* parent);

  const CarryWork& work() const { return *m_work; }
  /// Where the library cannot be written, keeping is off; `why` says so.
  void setWritable(bool writable, const QString& why);
  /// A sentence beside the buttons.
  void say(const QString& sentence);

 signals:
  void keepChosen();
  void applyChosen();

 private:
  QWidget* makeList(const Machines& machines, const std::string& preferred);
  QWidget* makeButtons();
  void choose(int row);
  void refresh();

  CarryWork* m_work;
  CarryPage* m_page;
  QListWidget* m_list;
  QScrollArea* m_scroll;
  QLabel* m_said;
  QPushButton* m_apply = nullptr;
  QPushButton* m_keep = nullptr;
  std::vector<Machine> m_machines;  // as listed
  bool m_writable = true;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/asker.h"
#include "ui/own/own_things.h"

#include <QSplitter>

class QLabel;
class QListWidget;
class QPushButton;
class QTableView;

namespace bw {

class ProblemLabel;
class ThreeWayModel;

/// After an update: what changed in shipped entries of which there are own copies, three columns a value; keep one's own or take theirs.
class ChangesPage : public QSplitter {
  Q_OBJECT
 public:
  ChangesPage(Asker*& asker, const OwnActions& actions, QWidget* parent = nullptr);
  void setThings(const OwnedThings& things);
  ThreeWayModel* model() const { return m_model; }

 private:
  const ShippedChange* current() const;
  void refresh();
  void keepMine();
  void takeShipped();

  Asker*& m_asker;
  const OwnActions& m_actions;
  OwnedThings m_things;
  ThreeWayModel* m_model;
  QListWidget* m_list;
  QLabel* m_title;
  QLabel* m_empty;
  ProblemLabel* m_problem;
  QTableView* m_view;
  QPushButton *m_keep, *m_take;
};

}  // namespace bw

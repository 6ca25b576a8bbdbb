// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/shop_stock.h"
#include "ui/document/asker.h"
#include "ui/document/project_document.h"

#include <QWidget>

class QButtonGroup;
class QHBoxLayout;
class QMenu;
class QToolButton;

namespace bw {

class Chooser;

/// Part, machine and plan, each a chooser; the workspaces as words; undo and redo.
class TopBar : public QWidget {
  Q_OBJECT
 public:
  TopBar(ProjectDocument& document, Asker*& asker, QAction* undo, QAction* redo, QWidget* parent = nullptr);

  /// What the part's own menu offers besides its name: opening other parts.
  void addPartActions(const QList<QAction*>& actions);

  /// Adds a workspace after those there are; its number is that of its place, from 0.
  void addWorkspace(const QString& word, const QString& question);
  /// The shop's own machines, offered before the typical ones.
  void setStock(const ShopStock& stock);
  /// Chooses a machine by its id: of the project, of the shop or a typical one, which are taken in.
  void chooseMachine(const std::string& id);
  /// Underlines the word of the workspace that is shown.
  void showWorkspace(int workspace);

 signals:
  void workspaceChosen(int workspace);
  void ownWanted();         // from the machine chooser: what the shop owns
  void newMachineWanted();  // likewise: one that is nowhere yet

 private:
  QToolButton* makePart();
  Chooser* makeMachine();
  Chooser* makePlan();
  QToolButton* makePlanMenu();
  void machineChosen(const std::string& entry);
  const ShopMachine* inStock(const std::string& id) const;
  void offerMachines();
  void renamePart();
  void renamePlan();
  void showPart();
  void refresh(Changes changes);

  ProjectDocument& m_document;
  Asker*& m_asker;
  ShopStock m_stock;
  QMenu* m_partMenu;
  QToolButton* m_part;
  Chooser* m_machine;
  Chooser* m_plan;
  QButtonGroup* m_workspaces;
  QHBoxLayout* m_words;
  QAction* m_removePlan = nullptr;
};

}  // namespace bw

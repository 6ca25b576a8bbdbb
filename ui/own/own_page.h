// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/asker.h"
#include "ui/own/own_things.h"

#include <QWidget>

class QStackedWidget;
class QTabBar;

namespace bw {

class AddMachinePage;
class ChangesPage;
class EntryEditor;
class MachinesPage;
class MaterialsPage;
class SetupSheet;
class ShopPage;

/// What I own: machines with their cards, coatings and metals with their sources, and what an update changed. Takes plain values and asks
/// for changes through `actions`; knows nothing of where they are kept.
class OwnPage : public QWidget {
  Q_OBJECT
 public:
  enum Tab { Machines, Coatings, Metals, Shop, Changed };

  OwnPage(Asker*& asker, OwnActions actions, QWidget* parent = nullptr);

  void setThings(const OwnedThings& things);
  /// The computer's date, unless one is given.
  void setToday(const QString& date);
  void showTab(Tab tab);
  void editMachine(const std::string& id);
  void setUpMachine(const std::string& id);
  /// Where a machine of one's own is described.
  void addMachine();
  /// Whether something is open that is not saved.
  bool hasUnsaved() const;

  MachinesPage* machines() const { return m_machines; }
  EntryEditor* machineEditor() const { return m_editor; }
  SetupSheet* setup() const { return m_setup; }
  MaterialsPage* coatings() const { return m_coatings; }
  MaterialsPage* metals() const { return m_metals; }
  ChangesPage* changes() const { return m_changes; }
  AddMachinePage* newMachine() const { return m_add; }
  ShopPage* shop() const { return m_shop; }

 signals:
  void machineWanted(const QString& id);  // for the open plan

 private:
  void tabChosen(int tab);
  void backToMachines();
  void saveNew(const Machine& machine);
  QString today() const;

  OwnActions m_actions;
  OwnedThings m_things;
  QString m_today;
  std::string m_wanted;       // a machine to be shown when it comes
  QWidget* m_open = nullptr;  // what stands in the place of the machines' cards
  QTabBar* m_tabs;
  QStackedWidget* m_pages;
  MachinesPage* m_machines;
  QWidget* m_editing;
  EntryEditor* m_editor;
  SetupSheet* m_setup;
  MaterialsPage* m_coatings;
  MaterialsPage* m_metals;
  ShopPage* m_shop;
  ChangesPage* m_changes;
  AddMachinePage* m_add;
};

}  // namespace bw

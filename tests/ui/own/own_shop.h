// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/library_file.h"
#include "core/start/typical_machines.h"
#include "tests/support/scratch_folder.h"
#include "tests/ui/support.h"
#include "ui/own/own_page.h"

namespace bw::test {

/// A page over a library of its own, in a shop of the invented railway: what the page asks for is done at once.
class OwnShop {
 public:
  OwnShop();

  /// The program is updated: what is shipped changes.
  void update(const std::function<void(Library&, std::vector<Machine>&)>& change);
  LibraryStore& store() { return *m_store; }
  OwnPage& page() { return *m_page; }
  void show();  // reads the library anew
  OwnedThings things();
  template <class T>
  T* find(const char* name) {
    return m_page->findChild<T*>(QLatin1String(name));
  }

  ScriptedAsker asker;
  QString refuse;  // what the next request is answered with; empty: it is done

 private:
  void open();
  OwnActions actions();

  ScratchFolder m_folder;
  Library m_materials = shippedLibrary();
  std::vector<Machine> m_machines = typicalMachines();
  std::unique_ptr<LibraryStore> m_store;
  Asker* m_asker = &asker;
  std::unique_ptr<OwnPage> m_page;
};

/// The workshop's own machine, checked twice, with two optics and a worn cover glass.
MachineCard shedMachine();

/// Burn marks, frame, times, powers and rates of that machine, as a spreadsheet copies them.
QString marksBlock();
QString ratesBlock();
QString powersBlock();
QString timesBlock();
QString frameBlock();

/// Complaints of QAbstractItemModelTester since it was made.
class ModelWatch {
 public:
  ModelWatch();
  ~ModelWatch();
  int complaints() const;
};

}  // namespace bw::test

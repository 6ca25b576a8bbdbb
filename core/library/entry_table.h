// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/library_store.h"
#include "core/library/sqlite.h"

namespace bw {

/// Own materials and machines over the shipped ones. Opens no transaction of its own.
class EntryTable {
 public:
  EntryTable(Database& database, const Library& materials, const std::vector<Machine>& machines);

  std::vector<LibraryEntry<Substrate>> substrates();
  std::vector<LibraryEntry<Coating>> coatings();
  std::vector<LibraryEntry<MachineCard>> machines();

  int save(const Substrate& substrate, int revision);
  int save(const Coating& coating, int revision);
  int save(const MachineCard& card, int revision);

  void reset(EntryKind kind, const std::string& id);
  std::vector<ShippedChange> shippedChanges();
  void keepOwn(EntryKind kind, const std::string& id);

 private:
  template <class T>
  std::vector<LibraryEntry<T>> list(const std::vector<T>& shipped);
  template <class T>
  int write(const T& entry, int revision, const std::vector<T>& shipped);
  template <class T>
  void addChanges(const std::vector<T>& shipped, std::vector<ShippedChange>& changes);
  std::optional<std::string> shippedText(EntryKind kind, const std::string& id) const;
  std::string what(EntryKind kind, const std::string& id) const;

  Database& m_database;
  const Library& m_materials;
  std::vector<MachineCard> m_machines;  // shipped
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/library_store.h"

#include <QString>

#include <functional>
#include <variant>

namespace bw {

/// What the page shows: a copy of the library's materials and machines, and what is shipped.
struct OwnedThings {
  std::vector<LibraryEntry<MachineCard>> machines;
  std::vector<LibraryEntry<Coating>> coatings;
  std::vector<LibraryEntry<Substrate>> substrates;
  std::vector<ShippedChange> changes;
  ShopFacts shop;
  Library shippedMaterials;
  std::vector<Machine> shippedMachines;
  bool readOnly = false;  // the library can be read but not written
};

/// One entry of the library, whatever it is.
using OwnEntry = std::variant<Coating, Substrate, MachineCard>;

EntryKind kindOf(const OwnEntry& entry);
std::string idOf(const OwnEntry& entry);
QString nameOf(const OwnEntry& entry);
/// The same under a new id and name, as an entry of its own.
OwnEntry renamed(OwnEntry entry, const QString& name);

/// An entry with how it stands in the library.
struct OwnRecord {
  OwnEntry entry;
  EntryOrigin origin = EntryOrigin::Shipped;
  int revision = 0;
  bool shippedChanged = false;
};
std::vector<OwnRecord> recordsOf(const OwnedThings& things, EntryKind kind);
std::optional<OwnRecord> findRecord(const OwnedThings& things, EntryKind kind, const std::string& id);

/// What would be lost if the record went back to what is shipped, a sentence each; of what was never shipped: that it goes altogether.
QStringList lostByReset(const OwnedThings& things, const OwnRecord& record);

/// What the page asks of the library. Each answers later, on the interface's thread: an empty text when it is done, else a sentence why
/// not. What changed is shown by giving the page its things anew.
struct OwnActions {
  using Answer = std::function<void(const QString& problem)>;
  std::function<void(const OwnEntry&, int revision, Answer)> save;
  std::function<void(EntryKind, const std::string& id, Answer)> reset;
  std::function<void(EntryKind, const std::string& id, Answer)> keepOwn;
  std::function<void(const ShopFacts&, Answer)> saveShop;
  /// Offers to give the entry to another library; empty: that cannot be done here.
  std::function<void(EntryKind, const std::string& id, const QString& name)> give;
};

}  // namespace bw

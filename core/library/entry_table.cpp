// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/entry_table.h"

#include "core/files/file_io.h"
#include "core/library/entry_id.h"
#include "core/library/recipe_json.h"
#include "core/library/stored_json.h"

#include <algorithm>

namespace bw {
namespace {

constexpr EntryKind kindOf(const Substrate*) { return EntryKind::Substrate; }
constexpr EntryKind kindOf(const Coating*) { return EntryKind::Coating; }
constexpr EntryKind kindOf(const MachineCard*) { return EntryKind::Machine; }
template <class T>
constexpr EntryKind kindOf() {
  return kindOf(static_cast<const T*>(nullptr));
}

const std::string& nameOf(const Substrate& substrate) { return substrate.name; }
const std::string& nameOf(const Coating& coating) { return coating.name; }
const std::string& nameOf(const MachineCard& card) { return card.machine.name; }

std::vector<Difference> between(const Substrate& was, const Substrate& is) { return differences(was, is); }
std::vector<Difference> between(const Coating& was, const Coating& is) { return differences(was, is); }
std::vector<Difference> between(const MachineCard& was, const MachineCard& is) { return differences(was.machine, is.machine); }

const char* nounOf(EntryKind kind) {
  switch (kind) {
    case EntryKind::Substrate:
      return "substrate ";
    case EntryKind::Coating:
      return "coating ";
    case EntryKind::Machine:
      return "machine ";
  }
  return "";
}

template <class T>
const T* findIn(const std::vector<T>& list, const std::string& id) {
  const auto found = std::ranges::find_if(list, [&](const T& entry) { return idOf(entry) == id; });
  return found == list.end() ? nullptr : &*found;
}

/// As it is kept beside an own copy, to tell later whether it has changed.
template <class T>
std::string shippedForm(const T& entry) {
  return storedText(writeJson(entry));
}

/// Whether what is shipped now (nothing: no longer) says something else than the kept text. A file format that grew does not.
template <class T>
bool hasChanged(const std::string& kept, const T* now, const std::string& what) {
  if (!now) return true;
  const std::string form = shippedForm(*now);
  return form != kept && form != shippedForm(fromStored<T>(kept, what));
}

}  // namespace

EntryTable::EntryTable(Database& database, const Library& materials, const std::vector<Machine>& machines)
    : m_database(database), m_materials(materials) {
  for (const Machine& machine : machines) m_machines.emplace_back().machine = machine;
}

std::string EntryTable::what(EntryKind kind, const std::string& id) const {
  return shownPath(m_database.path()) + ": " + nounOf(kind) + shownPath(id);
}

std::optional<std::string> EntryTable::shippedText(EntryKind kind, const std::string& id) const {
  const auto formOf = [&](const auto* entry) { return entry ? std::optional(shippedForm(*entry)) : std::nullopt; };
  if (kind == EntryKind::Substrate) return formOf(findIn(m_materials.substrates, id));
  if (kind == EntryKind::Coating) return formOf(findIn(m_materials.coatings, id));
  return formOf(findIn(m_machines, id));
}

template <class T>
std::vector<LibraryEntry<T>> EntryTable::list(const std::vector<T>& shipped) {
  std::vector<LibraryEntry<T>> entries;
  for (const T& entry : shipped) entries.push_back({entry, EntryOrigin::Shipped, 0, false});
  Statement own = m_database.prepare("SELECT id, revision, body, shipped FROM own_entry WHERE kind = ? ORDER BY id");
  own.with(static_cast<int>(kindOf<T>()));
  while (own.step()) {
    const std::string id = own.text(0);
    LibraryEntry<T> entry{fromStored<T>(own.text(2), what(kindOf<T>(), id)), EntryOrigin::Own, own.integer(1), false};
    const auto place = std::ranges::find_if(entries, [&](const LibraryEntry<T>& other) { return idOf(other.value) == id; });
    if (!own.nothing(3)) {
      entry.origin = EntryOrigin::OwnCopy;
      entry.shippedChanged = hasChanged(own.text(3), findIn(shipped, id), what(kindOf<T>(), id));
    }
    if (place == entries.end())
      entries.push_back(std::move(entry));
    else
      *place = std::move(entry);
  }
  return entries;
}

std::vector<LibraryEntry<Substrate>> EntryTable::substrates() { return list(m_materials.substrates); }
std::vector<LibraryEntry<Coating>> EntryTable::coatings() { return list(m_materials.coatings); }
std::vector<LibraryEntry<MachineCard>> EntryTable::machines() { return list(m_machines); }

template <class T>
int EntryTable::write(const T& entry, int revision, const std::vector<T>& shipped) {
  constexpr EntryKind kind = kindOf<T>();
  const std::string body = storedText(entry, shownPath(m_database.path()) + ": " + nounOf(kind));
  Statement known = m_database.prepare("SELECT revision FROM own_entry WHERE kind = ? AND id = ?");
  const bool isThere = known.with(static_cast<int>(kind)).with(idOf(entry)).step();
  const int newest = isThere ? known.integer(0) : 0;
  if (newest != revision) {
    throw LibraryError(
        LibraryTrouble::Conflict,
        what(kind, idOf(entry)) + ": was changed meanwhile by somebody else; nothing was overwritten: compare both and save again");
  }
  Statement write = m_database.prepare(isThere ? "UPDATE own_entry SET revision = ?, body = ? WHERE kind = ? AND id = ?"
                                               : "INSERT INTO own_entry (revision, body, kind, id, shipped) VALUES (?, ?, ?, ?, ?)");
  write.with(revision + 1).with(body).with(static_cast<int>(kind)).with(idOf(entry));
  const T* original = findIn(shipped, idOf(entry));
  if (!isThere) original ? write.with(shippedForm(*original)) : write.withNothing();
  write.run();
  return revision + 1;
}

int EntryTable::save(const Substrate& substrate, int revision) { return write(substrate, revision, m_materials.substrates); }
int EntryTable::save(const Coating& coating, int revision) { return write(coating, revision, m_materials.coatings); }
int EntryTable::save(const MachineCard& card, int revision) { return write(card, revision, m_machines); }

void EntryTable::reset(EntryKind kind, const std::string& id) {
  Statement drop = m_database.prepare("DELETE FROM own_entry WHERE kind = ? AND id = ? RETURNING id");
  const bool dropped = drop.with(static_cast<int>(kind)).with(id).step();
  if (!dropped) throw LibraryError(LibraryTrouble::Missing, what(kind, id) + ": there is no own one; only own ones can be reset");
  while (drop.step()) {
  }
}

template <class T>
void EntryTable::addChanges(const std::vector<T>& shipped, std::vector<ShippedChange>& changes) {
  constexpr EntryKind kind = kindOf<T>();
  Statement copies = m_database.prepare("SELECT id, body, shipped FROM own_entry WHERE kind = ? AND shipped IS NOT NULL ORDER BY id");
  copies.with(static_cast<int>(kind));
  while (copies.step()) {
    const std::string id = copies.text(0);
    const T* now = findIn(shipped, id);
    if (!hasChanged(copies.text(2), now, what(kind, id))) continue;
    const T then = fromStored<T>(copies.text(2), what(kind, id)), own = fromStored<T>(copies.text(1), what(kind, id));
    changes.push_back({kind, id, nameOf(own), now == nullptr, now ? between(then, *now) : std::vector<Difference>{}, between(then, own)});
  }
}

std::vector<ShippedChange> EntryTable::shippedChanges() {
  std::vector<ShippedChange> changes;
  addChanges(m_materials.substrates, changes);
  addChanges(m_materials.coatings, changes);
  addChanges(m_machines, changes);
  return changes;
}

void EntryTable::keepOwn(EntryKind kind, const std::string& id) {
  const std::optional<std::string> now = shippedText(kind, id);
  Statement keep = m_database.prepare("UPDATE own_entry SET shipped = ?, revision = revision + 1 WHERE kind = ? AND id = ? RETURNING id");
  now ? keep.with(*now) : keep.withNothing();
  const bool kept = keep.with(static_cast<int>(kind)).with(id).step();
  if (!kept) throw LibraryError(LibraryTrouble::Missing, what(kind, id) + ": there is no own one to keep");
  while (keep.step()) {
  }
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/own_things.h"

#include "core/library/change_table.h"
#include "ui/own/field_words.h"

#include <QCoreApplication>
#include <QStringList>
#include <QUuid>

#include <algorithm>

namespace bw {
namespace {

struct OwnThings {
  Q_DECLARE_TR_FUNCTIONS(OwnThings)
};

std::string& idIn(Coating& coating) { return coating.id; }
std::string& idIn(Substrate& substrate) { return substrate.id; }
std::string& idIn(MachineCard& card) { return card.machine.id; }
std::string& nameIn(Coating& coating) { return coating.name; }
std::string& nameIn(Substrate& substrate) { return substrate.name; }
std::string& nameIn(MachineCard& card) { return card.machine.name; }

template <class T>
std::vector<OwnRecord> recordsIn(const std::vector<LibraryEntry<T>>& entries) {
  std::vector<OwnRecord> records;
  for (const auto& entry : entries) records.push_back({entry.value, entry.origin, entry.revision, entry.shippedChanged});
  return records;
}

template <class T, class S>
QStringList lost(const T& own, const std::vector<S>& shipped) {
  const auto found = std::ranges::find(shipped, idOf(OwnEntry(own)), [](const S& entry) { return entry.id; });
  if (found == shipped.end()) return {OwnThings::tr("It is no longer shipped and goes altogether.")};
  QStringList lines;
  for (const Difference& difference : bw::lostByReset(own, *found)) {
    lines << OwnThings::tr("%1: %2 becomes %3")
                 .arg(placeWords(difference.key), QString::fromStdString(valueInWords(difference.key, difference.was)),
                      QString::fromStdString(valueInWords(difference.key, difference.is)));
  }
  return lines;
}

}  // namespace

EntryKind kindOf(const OwnEntry& entry) {
  if (std::holds_alternative<Coating>(entry)) return EntryKind::Coating;
  return std::holds_alternative<Substrate>(entry) ? EntryKind::Substrate : EntryKind::Machine;
}

std::string idOf(const OwnEntry& entry) {
  OwnEntry copy = entry;
  return std::visit([](auto& value) { return idIn(value); }, copy);
}

QString nameOf(const OwnEntry& entry) {
  OwnEntry copy = entry;
  const std::string name = std::visit([](auto& value) { return nameIn(value).empty() ? idIn(value) : nameIn(value); }, copy);
  return QString::fromStdString(name);
}

OwnEntry renamed(OwnEntry entry, const QString& name) {
  std::visit(
      [&](auto& value) {
        idIn(value) = "own-" + QUuid::createUuid().toString(QUuid::WithoutBraces).toStdString();
        nameIn(value) = name.toStdString();
      },
      entry);
  return entry;
}

std::vector<OwnRecord> recordsOf(const OwnedThings& things, EntryKind kind) {
  switch (kind) {
    case EntryKind::Substrate:
      return recordsIn(things.substrates);
    case EntryKind::Coating:
      return recordsIn(things.coatings);
    case EntryKind::Machine:
      break;
  }
  return recordsIn(things.machines);
}

std::optional<OwnRecord> findRecord(const OwnedThings& things, EntryKind kind, const std::string& id) {
  for (OwnRecord& record : recordsOf(things, kind)) {
    if (idOf(record.entry) == id) return std::move(record);
  }
  return std::nullopt;
}

QStringList lostByReset(const OwnedThings& things, const OwnRecord& record) {
  if (record.origin != EntryOrigin::OwnCopy) return {OwnThings::tr("It was never shipped and goes altogether.")};
  if (const auto* coating = std::get_if<Coating>(&record.entry)) return lost(*coating, things.shippedMaterials.coatings);
  if (const auto* substrate = std::get_if<Substrate>(&record.entry)) return lost(*substrate, things.shippedMaterials.substrates);
  return lost(std::get<MachineCard>(record.entry), things.shippedMachines);
}

}  // namespace bw

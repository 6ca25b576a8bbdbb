// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/own_library.h"

#include "core/files/library_file.h"
#include "core/start/typical_machines.h"

namespace bw {
namespace {

/// What was refused is the answer; damage goes on to the desk, which knows of backups.
LibraryDesk::Work answered(std::function<void(LibraryStore&)> work, OwnActions::Answer answer) {
  return [work = std::move(work), answer = std::move(answer)](LibraryStore& store) -> LibraryDesk::Delivery {
    try {
      work(store);
      return [answer] { answer({}); };
    } catch (const LibraryError& error) {
      if (error.trouble() == LibraryTrouble::Corrupt) throw;
      return [answer, sentence = QString::fromUtf8(error.what())] { answer(sentence); };
    }
  };
}

void save(LibraryStore& store, const OwnEntry& entry, int revision) {
  if (const auto* coating = std::get_if<Coating>(&entry))
    store.saveCoating(*coating, revision);
  else if (const auto* substrate = std::get_if<Substrate>(&entry))
    store.saveSubstrate(*substrate, revision);
  else
    store.saveMachine(std::get<MachineCard>(entry), revision);
}

}  // namespace

OwnedThings ownedThings(LibraryStore& store, const LibraryOptions& options) {
  OwnedThings things;
  things.machines = store.machines();
  things.coatings = store.coatings();
  things.substrates = store.substrates();
  things.changes = store.shippedChanges();
  things.shop = store.shop();
  things.shippedMaterials = options.shippedMaterials ? *options.shippedMaterials : shippedLibrary();
  things.shippedMachines = options.shippedMachines ? *options.shippedMachines : typicalMachines();
  things.readOnly = store.readOnly();
  return things;
}

OwnActions actionsOn(LibraryDesk& desk, BundleFlow& bundles) {
  OwnActions actions;
  actions.save = [&desk](const OwnEntry& entry, int revision, OwnActions::Answer answer) {
    desk.write(answered([entry, revision](LibraryStore& store) { save(store, entry, revision); }, std::move(answer)));
  };
  actions.reset = [&desk](EntryKind kind, const std::string& id, OwnActions::Answer answer) {
    desk.write(answered([kind, id](LibraryStore& store) { store.resetEntry(kind, id); }, std::move(answer)));
  };
  actions.keepOwn = [&desk](EntryKind kind, const std::string& id, OwnActions::Answer answer) {
    desk.write(answered([kind, id](LibraryStore& store) { store.keepOwn(kind, id); }, std::move(answer)));
  };
  actions.saveShop = [&desk](const ShopFacts& facts, OwnActions::Answer answer) {
    desk.write(answered([facts](LibraryStore& store) { store.saveShop(facts); }, std::move(answer)));
  };
  actions.give = [&bundles](EntryKind kind, const std::string& id, const QString& name) { bundles.give(kind, id, name); };
  return actions;
}

void askForThings(LibraryDesk& desk, const LibraryOptions& options, std::function<void(const OwnedThings&)> taker) {
  desk.ask(LibraryDesk::Lane::Each, [options, taker = std::move(taker)](LibraryStore& store) -> LibraryDesk::Delivery {
    auto things = std::make_shared<const OwnedThings>(ownedThings(store, options));
    return [taker, things] { taker(*things); };
  });
}

}  // namespace bw

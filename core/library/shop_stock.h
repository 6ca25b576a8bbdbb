// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/library_store.h"

namespace bw {

/// A machine of the shop as its card describes it; the machine's id is the card's.
struct ShopMachine {
  Machine machine;
  std::string library;
  int revision = 0;
  bool operator==(const ShopMachine&) const = default;
};

/// What a project may take from the shop.
struct ShopStock {
  std::vector<ShopMachine> machines;  // its own, those it copied from shipped ones too
  ShopFacts facts;
  bool operator==(const ShopStock&) const = default;
};

ShopStock stockOf(LibraryStore& store);

/// A machine as a project takes it in, and what it remembers of where that came from.
struct TakenMachine {
  Machine machine;
  MachineOrigin origin;
};

/// A copy for the project. Where another machine of the project has the card's id or name, the copy gets one of its own: nothing of the
/// project is replaced. A machine that is the same already is the copy.
TakenMachine takenInto(const Project& project, const ShopMachine& card);

/// What the project remembers of its copy of that card; nothing where it has none, or where the person wants to keep that copy apart from
/// what the card has become.
const MachineOrigin* copyOf(const Project& project, const ShopMachine& card);

/// A copy in the project whose card has been changed since.
struct MachineUpdate {
  MachineOrigin origin;  // as it is once the copy is updated
  Machine machine;       // the card's, under the copy's id and name
  std::vector<Difference> changes;
};

/// What the project may take over from changed cards: not what it has declined, nor where no value of the machine differs.
std::vector<MachineUpdate> machineUpdates(const Project& project, const std::vector<ShopMachine>& cards);

/// The project with that update. Steps on a machine that has become of another kind begin with a first guess, and what names an optic the
/// machine no longer has goes without.
Project updated(Project project, const MachineUpdate& update);

/// The project that is not to be asked again about that version of the card.
Project declined(Project project, const MachineUpdate& update);

}  // namespace bw

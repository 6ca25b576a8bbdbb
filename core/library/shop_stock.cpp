// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/shop_stock.h"

#include "core/start/first_guess.h"

#include <algorithm>

namespace bw {
namespace {

/// `wanted`, or with the first number behind it that is free.
template <class Taken>
std::string freeWord(const std::string& wanted, const std::string& before, const std::string& after, const Taken& isTaken) {
  std::string word = wanted;
  for (int number = 2; isTaken(word); ++number) word = wanted + before + std::to_string(number) + after;
  return word;
}

bool isOf(const MachineOrigin& origin, const ShopMachine& card) { return origin.library == card.library && origin.card == card.machine.id; }

/// What differs apart from id and name, which are the project's.
std::vector<Difference> changesOf(Machine was, const Machine& is) {
  was.id = is.id;
  was.name = is.name;
  return differences(was, is);
}

MachineOrigin* originOf(Project& project, const std::string& machine) {
  const auto found = std::ranges::find(project.machineOrigins, machine, &MachineOrigin::machine);
  return found == project.machineOrigins.end() ? nullptr : &*found;
}

void settle(Step& step, const Machine& before, const Machine& now) {
  if (step.machine != now.id) return;
  if (before.kind != now.kind || before.scan.axes != now.scan.axes) step.settings = firstGuess(now);
  if (step.optic && std::ranges::find(now.optics, *step.optic, &Optic::id) == now.optics.end()) step.optic.reset();
}

void settle(Plan& plan, const Machine& before, const Machine& now) {
  for (Step& step : plan.steps) settle(step, before, now);
  if (!plan.steps.empty()) return;
  Step whole;
  whole.machine = plan.machine;
  whole.settings = plan.settings;
  settle(whole, before, now);
  plan.settings = whole.settings;
}

}  // namespace

ShopStock stockOf(LibraryStore& store) {
  ShopStock stock;
  const std::string library = store.libraryId();
  for (const auto& entry : store.machines()) {
    if (entry.origin != EntryOrigin::Shipped) stock.machines.push_back({entry.value.machine, library, entry.revision});
  }
  stock.facts = store.shop();
  return stock;
}

TakenMachine takenInto(const Project& project, const ShopMachine& card) {
  TakenMachine taken{card.machine, {card.machine.id, card.library, card.machine.id, card.revision, 0, {}}};
  if (const Machine* there = findMachine(project, card.machine.id); there && *there == card.machine) return taken;
  const auto hasId = [&](const std::string& id) { return findMachine(project, id) != nullptr; };
  const auto hasName = [&](const std::string& name) {
    return std::ranges::find(project.machines, name, &Machine::name) != project.machines.end();
  };
  taken.machine.id = taken.origin.machine = freeWord(card.machine.id, "-", "", hasId);
  taken.machine.name = freeWord(card.machine.name, " (", ")", hasName);
  return taken;
}

const MachineOrigin* copyOf(const Project& project, const ShopMachine& card) {
  for (const MachineOrigin& origin : project.machineOrigins) {
    if (isOf(origin, card) && origin.declined != card.revision && findMachine(project, origin.machine)) return &origin;
  }
  return nullptr;
}

std::vector<MachineUpdate> machineUpdates(const Project& project, const std::vector<ShopMachine>& cards) {
  std::vector<MachineUpdate> updates;
  for (const MachineOrigin& origin : project.machineOrigins) {
    const auto card = std::ranges::find_if(cards, [&](const ShopMachine& one) { return isOf(origin, one); });
    const Machine* copy = findMachine(project, origin.machine);
    if (card == cards.end() || !copy || card->revision == origin.revision || card->revision == origin.declined) continue;
    MachineUpdate update{origin, card->machine, changesOf(*copy, card->machine)};
    update.origin.revision = card->revision;
    update.origin.declined = 0;
    update.machine.id = copy->id;
    update.machine.name = copy->name;
    if (!update.changes.empty()) updates.push_back(std::move(update));
  }
  return updates;
}

Project updated(Project project, const MachineUpdate& update) {
  const auto copy = std::ranges::find(project.machines, update.machine.id, &Machine::id);
  MachineOrigin* origin = originOf(project, update.machine.id);
  if (copy == project.machines.end() || !origin) return project;
  for (Plan& plan : project.plans) settle(plan, *copy, update.machine);
  *copy = update.machine;
  *origin = update.origin;
  return project;
}

Project declined(Project project, const MachineUpdate& update) {
  if (MachineOrigin* origin = originOf(project, update.machine.id)) origin->declined = update.origin.revision;
  return project;
}

}  // namespace bw

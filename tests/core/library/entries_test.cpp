// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/library/library_case.h"

#include <algorithm>

using namespace bw;
using namespace bw::test;

namespace {

template <class T>
const LibraryEntry<T>& entryOf(const std::vector<LibraryEntry<T>>& entries, const std::string& id) {
  const auto found = std::ranges::find_if(entries, [&](const LibraryEntry<T>& entry) {
    if constexpr (std::is_same_v<T, MachineCard>)
      return entry.value.machine.id == id;
    else
      return entry.value.id == id;
  });
  REQUIRE(found != entries.end());
  return *found;
}

/// A library over a small shipped one, which an update of the program can change.
struct Shop : LibraryCase {
  Library shipped = smallLibrary();
  std::vector<Machine> machines = typicalMachines();

  LibraryStore open() {
    LibraryOptions given = options();
    given.shippedMaterials = shipped;
    given.shippedMachines = machines;
    return LibraryStore(path, given);
  }
};

}  // namespace

TEST_CASE("Shipped entries are there and are not written; an own copy stands in for one until it is reset", "[library]") {
  Shop shop;
  LibraryStore store = shop.open();
  REQUIRE(store.coatings().size() == 3);
  CHECK(store.substrates().front().origin == EntryOrigin::Shipped);
  CHECK(store.materials().coatings == shop.shipped.coatings);

  Coating white = entryOf(store.coatings(), "alkyd-white").value;
  white.absorptance.range = {0.1, 0.2, 0.3};
  white.note = "measured on the door";
  CHECK(store.saveCoating(white, 0) == 1);
  const auto copy = entryOf(shop.open().coatings(), "alkyd-white");
  CHECK(copy.value == white);
  CHECK(copy.origin == EntryOrigin::OwnCopy);
  CHECK(copy.revision == 1);
  CHECK_FALSE(copy.shippedChanged);
  CHECK(store.coatings().size() == 3);
  CHECK(findCoating(store.materials(), "alkyd-white")->note == "measured on the door");

  Coating own = white;
  own.id = own.name = "boiler black";
  store.saveCoating(own, 0);
  CHECK(entryOf(store.coatings(), "boiler black").origin == EntryOrigin::Own);

  store.resetEntry(EntryKind::Coating, "alkyd-white");
  CHECK(entryOf(store.coatings(), "alkyd-white").value == *findCoating(shop.shipped, "alkyd-white"));
  store.resetEntry(EntryKind::Coating, "boiler black");
  CHECK(store.coatings().size() == 3);
  CHECK(troubleOf([&] { store.resetEntry(EntryKind::Coating, "alkyd-white"); }) == LibraryTrouble::Missing);

  Substrate steel = store.substrates().front().value;
  steel.conductivity_W_mK.range = Range::exact(48);
  store.saveSubstrate(steel, 0);
  CHECK(store.substrates().front().value == steel);
}

TEST_CASE("An entry that was changed meanwhile is not overwritten, and what makes no sense is refused", "[library]") {
  Shop shop;
  LibraryStore here = shop.open(), there = shop.open();
  Coating white = entryOf(here.coatings(), "alkyd-white").value;
  there.saveCoating(white, 0);
  CHECK(here.changedByOthers());
  CHECK(troubleOf([&] { here.saveCoating(white, 0); }) == LibraryTrouble::Conflict);
  CHECK(here.saveCoating(white, 1) == 2);
  CHECK(troubleOf([&] { there.saveCoating(white, 1); }) == LibraryTrouble::Conflict);

  white.absorptance.range = Range::exact(1.5);
  CHECK(troubleOf([&] { here.saveCoating(white, 2); }) == LibraryTrouble::Refused);
  white.absorptance.range = Range::exact(0.5);
  white.name = "\xff";
  CHECK(troubleOf([&] { here.saveCoating(white, 2); }) == LibraryTrouble::Refused);
  CHECK(entryOf(here.coatings(), "alkyd-white").revision == 2);
}

TEST_CASE("After an update it is told what changed in what an own copy was made from", "[library]") {
  Shop shop;
  {
    LibraryStore store = shop.open();
    Coating white = entryOf(store.coatings(), "alkyd-white").value;
    white.note = "ours";
    store.saveCoating(white, 0);
    store.saveCoating(entryOf(store.coatings(), "alkyd-dark").value, 0);
    MachineCard card = entryOf(store.machines(), "typical-300").value;
    card.coverGlass_s = 3600;
    store.saveMachine(card, 0);
    CHECK(store.shippedChanges().empty());
  }
  shop.shipped.coatings[1].absorptance.range = Range::exact(0.25);  // alkyd-white
  shop.shipped.coatings[2].note = "of which there is no copy";
  shop.machines[1].M2 = 2;
  std::erase_if(shop.shipped.coatings, [](const Coating& coating) { return coating.id == "alkyd-dark"; });
  LibraryStore store = shop.open();
  CHECK(entryOf(store.coatings(), "alkyd-white").shippedChanged);
  const std::vector<ShippedChange> changes = store.shippedChanges();
  REQUIRE(changes.size() == 3);
  const auto changeOf = [&](const std::string& id) { return *std::ranges::find(changes, id, &ShippedChange::id); };
  CHECK(changeOf("alkyd-white").shipped == std::vector<Difference>{{"absorptance.value", "0.5", "0.25"}});
  CHECK(changeOf("alkyd-white").own == std::vector<Difference>{{"note", "", "ours"}});
  CHECK(changeOf("alkyd-dark").gone);
  CHECK(changeOf("typical-300").shipped == std::vector<Difference>{{"M2", "1.8", "2"}});

  store.keepOwn(EntryKind::Coating, "alkyd-white");
  store.keepOwn(EntryKind::Coating, "alkyd-dark");
  CHECK(store.shippedChanges().size() == 1);
  CHECK(entryOf(store.coatings(), "alkyd-white").value.note == "ours");
  CHECK(entryOf(store.coatings(), "alkyd-dark").origin == EntryOrigin::Own);
  store.resetEntry(EntryKind::Machine, "typical-300");
  CHECK(store.shippedChanges().empty());
  CHECK(entryOf(store.machines(), "typical-300").value.machine.M2 == 2);
}

TEST_CASE("A machine's card keeps what the shop owns and when it was checked", "[library]") {
  Shop shop;
  MachineCard card;
  card.machine = machineLike(MachineKind::Pulsed, 250, 1e-4);
  card.machine.id = "ours";
  Optic optic;
  optic.id = "narrow";
  optic.tipWidth_m = 0.02;
  card.machine.optics = {optic};
  card.coverGlass_s = 41 * 3600;
  card.coverGlassSince = "2026-02-20";
  card.pieces = {{"cover glass in the drawer", "", 3, {}}};
  card.checks = {{"2026-02-01", "mk", 231.0, {}, "before the panels", {}}, {"2026-03-01", "hs", 226.5, 1.05e-4, "", {}}};
  shop.open().saveMachine(card, 0);
  const LibraryEntry<MachineCard> back = entryOf(shop.open().machines(), "ours");
  CHECK(back.origin == EntryOrigin::Own);
  CHECK(back.value.checks.back().date == "2026-03-01");
  CHECK(back.value.checks.back().deliveredPower_W == 226.5);
  CHECK(*back.value.coverGlass_s == Catch::Approx(41 * 3600));
  CHECK(differences(back.value.machine, card.machine).empty());
  CHECK(back.value.pieces == card.pieces);
}

TEST_CASE("The shop is kept with the library, and what no file could hold is refused", "[library]") {
  Shop shop;
  CHECK(shop.open().shop() == ShopFacts{});
  ShopFacts facts;
  facts.currency = "EUR";
  facts.prices.labourPerHour = 42;
  facts.site.people = 2;
  facts.site.generator = true;
  facts.extraction = {true, 0.25, {Filter::FineDust, Filter::Gas}, {}};
  {
    LibraryStore other = shop.open(), store = shop.open();
    other.changedByOthers();
    store.saveShop(facts);
    CHECK(other.changedByOthers());
    CHECK(other.shop() == facts);
  }
  CHECK(shop.open().shop() == facts);
  facts.site.humidity = 3;
  LibraryStore store = shop.open();
  CHECK_THROWS_AS(store.saveShop(facts), LibraryError);
  CHECK(store.shop().site.humidity == std::nullopt);
}

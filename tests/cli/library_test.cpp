// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/library_store.h"
#include "core/start/typical_machines.h"
#include "tests/cli/run.h"
#include "tests/support/catch.h"
#include "tests/support/some_recipes.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdlib>
#include <filesystem>

using namespace bw::test;
using nlohmann::json;

namespace {

/// A library of twenty recipes in a folder of its own.
struct ShopLibrary {
  Folder folder;
  std::string path = folder.path("shop's library.sqlite");
  std::vector<std::string> ids;

  ShopLibrary() {
    bw::LibraryStore store{std::filesystem::path(path)};
    for (unsigned n = 0; n < 20; ++n) ids.push_back(store.saveRecipe(SomeRecipes::number(n)).id);
  }
  Run library(std::vector<std::string> arguments) const {
    arguments.insert(arguments.begin(), "library");
    arguments.insert(arguments.end(), {"--library", path});
    return run(arguments);
  }
  json answer(std::vector<std::string> arguments) const {
    arguments.push_back("--json");
    const Run answered = library(arguments);
    CAPTURE(answered.errors);
    REQUIRE(answered.status == 0);
    return json::parse(answered.output);
  }
};

}  // namespace

TEST_CASE("The nearest recipes to a project say what makes their distance", "[cli]") {
  const ShopLibrary shop;
  const std::string project = std::string(BAREWRIGHT_SOURCE_DIR) + "/sample-projects/lamp-bezel.bwright";
  const json rows = shop.answer({"nearest", project, "--most", "5"})["recipes"];
  REQUIRE(rows.size() == 5);
  double before = 0;
  for (const json& row : rows) {
    const double distance = row["distance"].get<double>();
    CHECK(distance >= before);
    before = distance;
    double sum = 0;
    for (const json& part : row["differences"]) {
      sum += part["distance"].get<double>();
      CHECK_FALSE(part["words"].get<std::string>().empty());
    }
    CHECK_THAT(sum, Catch::Matchers::WithinAbs(distance, 1e-6));
  }
  const Run table = shop.library({"nearest", project});
  CHECK_THAT(table.output, Catch::Matchers::Contains("what differs") && Catch::Matchers::Contains(rows[0]["id"].get<std::string>()));
  CHECK(std::ranges::count(table.output, '\n') == 11);
  const Run unknown = shop.library({"nearest", project, "--plan", "none such"});
  CHECK(unknown.status != 0);
  CHECK_THAT(unknown.errors, Catch::Matchers::Contains("none such"));
}

TEST_CASE("The library's recipes are listed and found, for people and for programs", "[cli]") {
  const ShopLibrary shop;
  const json all = shop.answer({"list"});
  CHECK(all["total"] == 20);
  REQUIRE(all["recipes"].size() == 20);
  CHECK(all["recipes"][0]["state"] == "proven");
  CHECK(all["facets"]["machine_kind"].size() == 2);
  const Run table = shop.library({"list"});
  CHECK(table.status == 0);
  CHECK(std::ranges::count(table.output, '\n') == 22);
  CHECK_THAT(table.output, Catch::Matchers::Contains(shop.ids[3]) && Catch::Matchers::EndsWith("20 recipes\n"));

  const json proven = shop.answer({"find", "--proven"});
  CHECK(proven["total"] == 4);  // every fourth, but for one that was withdrawn
  CHECK(std::ranges::all_of(proven["recipes"], [](const json& row) { return row["state"] == "proven"; }));
  const std::string name = SomeRecipes::number(13).version.name;
  const json named = shop.answer({"find", name, "--kind", all["recipes"][0]["machine_kind"].get<std::string>()});
  CHECK(named["total"].get<int>() <= 1);
  CHECK(shop.answer({"find", name})["recipes"][0]["id"] == shop.ids[13]);
  CHECK(shop.answer({"find", "--coat-from-um", "100", "--coat-to-um", "200"})["total"] ==
        std::ranges::count_if(all["recipes"], [](const json& row) { return row["coat_um"] >= 100 && row["coat_um"] <= 200; }));
  const json few = shop.answer({"find", "--most", "3"});
  CHECK(few["recipes"].size() == 3);
  CHECK(few["total"] == 20);
  CHECK(shop.answer({"find", "\"; DROP TABLE recipe"})["total"] == 0);
}

TEST_CASE("A recipe is shown with its proof and its versions", "[cli]") {
  const ShopLibrary shop;
  const json recipe = shop.answer({"show", shop.ids[4]});
  CHECK(recipe["state"] == "proven");
  CHECK(recipe["version"]["proof"]["trials"].size() == 1);
  CHECK(recipe["version"]["predicted"]["numbers"]["thermal.back_C"]["low"] == 70);
  CHECK(recipe["versions"].size() == 1);
  const Run table = shop.library({"show", shop.ids[4], "--version", "1"});
  CHECK_THAT(table.output, Catch::Matchers::Contains("behind the door hinge") && Catch::Matchers::Contains(shop.ids[4]));
  for (const std::vector<std::string>& wrong : {std::vector<std::string>{"show", "nobody"}, {"show", shop.ids[4], "--version", "7"}}) {
    const Run refused = shop.library(wrong);
    CHECK(refused.status == 2);
    CHECK(std::ranges::count(refused.errors, '\n') == 1);
  }
}

TEST_CASE("A library is backed up, found damaged, and restored", "[cli]") {
  const ShopLibrary shop;
  CHECK(shop.answer({"backups"})["backups"].empty());
  const json made = shop.answer({"backup"})["backups"][0];
  CHECK(std::filesystem::exists(made["path"].get<std::string>()));
  CHECK(shop.answer({"backups"})["backups"].size() == 1);
  CHECK(shop.answer({"check"})["sound"] == true);

  std::string bytes = textOf(shop.path);
  std::fill(bytes.begin() + 4096, bytes.begin() + 4096 * 40, 'x');
  shop.folder.write("shop's library.sqlite", bytes);
  const Run damaged = shop.library({"check", "--json"});
  CHECK(damaged.status == 2);
  CHECK(json::parse(damaged.output)["sound"] == false);
  CHECK(std::ranges::count(damaged.errors, '\n') == 1);
  CHECK_THAT(damaged.errors, Catch::Matchers::Contains("restore"));

  const json restored = shop.answer({"restore"});
  CHECK(restored["restored"] == made["path"]);
  CHECK(textOf(restored["aside"].get<std::string>()) == bytes);
  CHECK(shop.answer({"list"})["total"] == 20);
}

TEST_CASE("Where there is no library, or a wrong verb, one line says so and nothing is made", "[cli]") {
  const Folder folder;
  for (const char* verb : {"list", "find", "backup", "check"}) {
    const Run refused = run({"library", verb, "--library", folder.path("none.sqlite")});
    CAPTURE(verb);
    CHECK(refused.status == 2);
    CHECK(std::ranges::count(refused.errors, '\n') == 1);
  }
  CHECK(run({"library"}).status == 2);
  CHECK(run({"library", "bake"}).status == 2);
  CHECK(run({"library", "restore", "--library", folder.path("none.sqlite")}).status == 2);
  CHECK(run({"library", "find", "--kind", "steam", "--library", folder.path("none.sqlite")}).status == 2);
  CHECK(folder.entries() == 0);
  CHECK_THAT(run({"library", "--help"}).output, Catch::Matchers::Contains("XDG_DATA_HOME") && Catch::Matchers::Contains("restore"));
}

TEST_CASE("Before anything was kept, looking into one's own library says that there is none yet", "[cli]") {
  const Folder folder;
  const char* before = std::getenv("XDG_DATA_HOME");
  const std::string kept = before == nullptr ? "" : before;
  setenv("XDG_DATA_HOME", folder.path("data").c_str(), 1);
  for (const std::vector<std::string>& verb : std::vector<std::vector<std::string>>{
           {"list"}, {"find", "maroon"}, {"show", "x"}, {"backup"}, {"backups"}, {"check"}, {"carry", "x", "--machine", "y"}}) {
    std::vector<std::string> arguments{"library"};
    arguments.insert(arguments.end(), verb.begin(), verb.end());
    const Run looked = run(arguments);
    CAPTURE(verb.front(), looked.errors);
    CHECK(looked.status == 0);
    CHECK_THAT(looked.output, Catch::Matchers::StartsWith("There is no library yet."));
    arguments.push_back("--json");
    CHECK(json::parse(run(arguments).output)["library"].is_null());
  }
  CHECK(run({"library", "restore"}).status == 2);
  before == nullptr ? unsetenv("XDG_DATA_HOME") : setenv("XDG_DATA_HOME", kept.c_str(), 1);
  CHECK(folder.entries() == 0);
}

TEST_CASE("A recipe is carried over to another machine, said what is kept, and kept as a draft where asked", "[cli]") {
  const ShopLibrary shop;
  const Run unknown = shop.library({"carry", shop.ids[0], "--machine", "nobody's"});
  CHECK(unknown.status == 2);
  const std::size_t from = unknown.errors.find("there are ");
  REQUIRE(from != std::string::npos);
  const std::string machine = unknown.errors.substr(from + 10, unknown.errors.find(',', from) - from - 10);

  const json looked = shop.answer({"carry", shop.ids[0], "--machine", machine});
  CHECK(looked["proven"] == false);
  CHECK(looked["saved_as"] == "");
  CHECK(looked["plan"]["machine"] == machine);
  CHECK_FALSE(looked["carried"].empty());
  for (const json& one : looked["carried"]) CHECK(one["kept"].get<bool>() == one["why"].get<std::string>().empty());
  CHECK(shop.answer({"list"})["total"] == 20);

  const json saved = shop.answer({"carry", shop.ids[0], "--machine", machine, "--save"});
  const json draft = shop.answer({"show", saved["saved_as"].get<std::string>()});
  CHECK(draft.dump().find("not proven") != std::string::npos);
  CHECK(shop.answer({"list"})["total"] == 21);
  CHECK_THAT(shop.library({"carry", shop.ids[0], "--machine", machine}).output, Catch::Matchers::Contains("planned, not proven"));
}

TEST_CASE("The shop's machines are printed before typical ones, and the shop as it usually is", "[cli]") {
  const ShopLibrary shop;
  {
    bw::LibraryStore store{std::filesystem::path(shop.path)};
    bw::MachineCard card;
    card.machine = bw::machineLike(bw::MachineKind::Continuous, 1200, 4e-4);
    card.machine.id = "own-yard";
    store.saveMachine(card, 0);
    bw::ShopFacts facts;
    facts.currency = "EUR";
    facts.site.supply_W = 3500;
    store.saveShop(facts);
  }
  const json machines = shop.answer({"machines"})["machines"];
  REQUIRE(machines.size() == 5);
  CHECK(machines[0]["machine"]["id"] == "own-yard");
  CHECK(machines[0]["origin"] == "own");
  CHECK(machines[1]["origin"] == "typical");
  CHECK(shop.library({"machines"}).output.find("1200 W") != std::string::npos);
  CHECK(shop.answer({"shop"})["shop"]["site"]["supply_kW"] == 3.5);
  CHECK(shop.library({"shop"}).output.find("site.supply_kW") != std::string::npos);
}

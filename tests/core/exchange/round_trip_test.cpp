// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/base64.h"
#include "core/library/library_check.h"
#include "core/library/recipe_json.h"
#include "tests/core/exchange/exchange_case.h"
#include "tests/core/files/random_project.h"

#include "core/files/file_io.h"

#include <fstream>

using namespace bw;
using namespace bw::test;

namespace {

Coating ownCoating() {
  Coating coating = shippedLibrary().coatings.front();
  coating.id = "workshop-red";
  coating.name = "Workshop red, two coats";
  return coating;
}

/// A library with something of everything in it.
void furnish(LibraryStore& store) {
  for (unsigned n = 0; n < 6; ++n) store.saveRecipe(recipeNamed("recipe-" + std::to_string(n), n));
  saveNext(store, "recipe-1", "second thoughts");
  Recipe withPhoto = recipeNamed("with-photo", 8);
  withPhoto.version.proof = SomeRecipes::proofOf(withPhoto.version);
  withPhoto.version.proof->attachments = {store.attach(std::string("not a real photo\0but bytes\xFF", 27), "panel after pass 3.jpg")};
  withPhoto.state = RecipeState::Proven;
  withPhoto.extras["later"] = "[1, {\"a\": null}]";
  store.saveRecipe(withPhoto);
  store.saveCoating(ownCoating(), 0);
  Substrate metal = shippedLibrary().substrates.front();
  metal.note = "as we found it in the old stock";
  store.saveSubstrate(metal, 0);
  MachineCard card;
  card.machine = typicalMachines().front();
  card.machine.id = "bench-one";
  card.note = "the grey one at the door";
  card.pieces = {{"cover glass", "in the drawer", 3, {}}};
  card.checks = {{"2026-02-01", "hs", 280.0, 1.2e-4, "", {}}};
  store.saveMachine(card, 0);
}

}  // namespace

TEST_CASE("Base64 by the examples of its standard, and back", "[exchange]") {
  // RFC 4648, section 10.
  const std::pair<const char*, const char*> examples[] = {
      {"", ""}, {"f", "Zg=="}, {"fo", "Zm8="}, {"foo", "Zm9v"}, {"foob", "Zm9vYg=="}, {"fooba", "Zm9vYmE="}, {"foobar", "Zm9vYmFy"}};
  for (const auto& [bytes, text] : examples) {
    CHECK(toBase64(bytes) == text);
    CHECK(fromBase64(text) == std::optional<std::string>(bytes));
  }
  for (const char* text : {"Zg", "Zg=", "Zg===", "Z===", "Zm9v!bcd", "Zm 9v   ", "Zg==Zg==", "Zh==", "\xC3\xA9\xC3\xA9"}) {
    CAPTURE(text);
    CHECK_FALSE(fromBase64(text));
  }
}

TEST_CASE("What one library gives another has whole, and gives on byte by byte the same", "[exchange]") {
  ExchangeCase test;
  furnish(test.other);
  const std::string text = test.textOf(test.other);
  CHECK(text == test.textOf(test.other));
  const ImportPlan plan = planImport(test.mine, test.read(text));
  CHECK(plan.count(ImportStatus::New) == plan.lines.size() - 1);  // the metal is shipped: a conflict with it
  CHECK(plan.count(ImportStatus::Conflict) == 1);
  const ImportOutcome outcome = applyImport(test.mine, plan, decideAll(plan, ImportDecision::Theirs));
  CHECK(outcome.recipes == 7);
  CHECK(outcome.materials == 2);
  CHECK(outcome.machines == 1);
  CHECK(outcome.attachments == 1);
  CHECK(test.textOf(test.mine) == text);
  CHECK(checkLibrary(test.ours.path).findings == std::vector<std::string>{});
  CHECK(test.plan().count(ImportStatus::Identical) == test.plan().lines.size());
}

TEST_CASE("Imported proofs and versions stay those of who made them", "[exchange]") {
  ExchangeCase test;
  furnish(test.other);
  test.ours.clock = day(40);
  test.bringIn(ImportDecision::Mine);
  const Recipe recipe = test.mine.recipe("with-photo");
  CHECK(recipe.state == RecipeState::Proven);
  REQUIRE(recipe.version.proof);
  CHECK(recipe.version.proof->initials == "mk");
  CHECK(recipe.version.proof->trials.front().date == "2026-03-13");
  CHECK(recipe.version.savedAt == "2026-03-01T09:00:00Z");
  CHECK(recipe.extras.at("later") == "[1,{\"a\":null}]");
  const std::string hash = recipe.version.proof->attachments.at(0).sha256;
  CHECK(readWholeFile(test.mine.attachmentPath(hash)) == std::string("not a real photo\0but bytes\xFF", 27));
  CHECK(notesOf(test.mine, "recipe-1") == notesOf(test.other, "recipe-1"));
}

TEST_CASE("Only what is chosen goes along, and an unknown id is named", "[exchange]") {
  ExchangeCase test;
  furnish(test.other);
  ExportChoice choice;
  choice.recipes = {"recipe-3", "recipe-1"};
  choice.coatings = {"workshop-red"};
  const Bundle bundle = test.fromOther(choice);
  REQUIRE(bundle.recipes.size() == 2);
  CHECK(bundle.recipes[0].id == "recipe-1");  // in the library's order
  CHECK(bundle.recipes[0].versions.size() == 2);
  CHECK(bundle.coatings == std::vector<Coating>{ownCoating()});
  CHECK(bundle.substrates.empty());
  CHECK(bundle.machines.empty());
  choice.machines = {"no such machine"};
  std::string message;
  CHECK(troubleOf([&] { exportBundle(test.other, choice); }, &message) == LibraryTrouble::Missing);
  CHECK_THAT(message, Catch::Matchers::Contains("no such machine"));
}

TEST_CASE("Attachments that do not come along keep their names, and may come later", "[exchange]") {
  ExchangeCase test;
  furnish(test.other);
  ExportChoice choice = test.everything();
  choice.attachments = false;
  const std::string lean = test.textOf(test.other, choice);
  CHECK_THAT(lean, !Catch::Matchers::Contains("base64"));
  const auto importLean = [&] { return planImport(test.mine, test.read(lean)); };
  const ImportPlan plan = importLean();
  REQUIRE(plan.notices.size() == 1);
  CHECK_THAT(plan.notices.front(), Catch::Matchers::StartsWith("1 attachment that proofs name is not in the bundle"));
  applyImport(test.mine, plan, decideAll(plan, ImportDecision::Mine));
  const Proof proof = *test.mine.recipe("with-photo").version.proof;
  CHECK(proof.attachments.empty());
  CHECK_THAT(proof.extras.at("attachments_left_out"), Catch::Matchers::Contains("panel after pass 3.jpg"));
  CHECK(importLean().count(ImportStatus::New) == 0);
  CHECK(importLean().count(ImportStatus::Identical) == 9);  // all but the metal that is shipped differently
}

TEST_CASE("An attachment that is damaged on the disk stays behind, and that is said", "[exchange]") {
  ExchangeCase test;
  furnish(test.other);
  const std::string hash = test.other.recipe("with-photo").version.proof->attachments.at(0).sha256;
  std::filesystem::permissions(test.other.attachmentPath(hash), std::filesystem::perms::owner_all);
  std::ofstream(test.other.attachmentPath(hash)) << "something else";
  const ExportResult result = exportBundle(test.other, test.everything());
  CHECK(result.bundle.files.empty());
  REQUIRE(result.notices.size() == 1);
  CHECK_THAT(result.notices.front(), Catch::Matchers::Contains("panel after pass 3.jpg"));
}

TEST_CASE("Recipes of any content go through a bundle as they are", "[exchange]") {
  ExchangeCase test;
  for (std::uint32_t seed = 0; seed < 60; ++seed) {
    const Project project = randomProject(seed);
    if (project.plans.empty() || project.machines.empty()) continue;
    Recipe recipe;
    recipe.id = "seed-" + std::to_string(seed);
    recipe.version = recipeFrom(project, {}, smallLibrary());
    recipe.version.name = "seed " + std::to_string(seed);
    recipe.version.extras["later"] = "{\"a\":[1,2]}";
    test.other.saveRecipe(recipe);
  }
  REQUIRE(test.other.recipeCount() > 20);
  const std::string text = test.textOf(test.other);
  test.bringIn();
  CHECK(test.mine.recipeCount() == test.other.recipeCount());
  CHECK(test.textOf(test.mine) == text);
}

TEST_CASE("A bundle may be written by hand: profiles in the version, and keys nobody knows", "[exchange]") {
  ExchangeCase test;
  const RecipeVersion version = SomeRecipes::number(3).version;
  Json json{{"format", "barewright-bundle"}, {"version", 1}, {"sent_by", {{"desk", 2}}}};
  json["recipes"] = Json::array({{{"id", "by-hand"}, {"versions", Json::array({writeJson(version)})}, {"mood", "good"}}});
  const Bundle bundle = test.read(json.dump());
  CHECK(bundle.extras.at("sent_by") == "{\"desk\":2}");
  CHECK_THAT(writeBundle(bundle), Catch::Matchers::Contains("\"mood\": \"good\""));
  const ImportPlan plan = planImport(test.mine, bundle);
  applyImport(test.mine, plan);
  CHECK(test.mine.recipe("by-hand").version.machines == version.machines);
  CHECK(test.mine.recipe("by-hand").extras.at("mood") == "\"good\"");
}

TEST_CASE("Who made a bundle, when and what for goes along, on one line each", "[exchange]") {
  ExchangeCase test;
  furnish(test.other);
  Bundle bundle = test.fromOther();
  bundle.from = "Narrow-gauge workshop";
  bundle.madeAt = "2026-03-20T10:00:00Z";
  bundle.note = "the winter's work";
  CHECK(test.read(writeBundle(bundle)) == bundle);
  bundle.from = "Narrow-gauge\nworkshop";
  const BundleReadResult result = readBundle(writeBundle(bundle));
  REQUIRE(result.problems.size() == 1);
  CHECK(result.problems.front().path == "$.from");
}

TEST_CASE("How much would go along is told beforehand, by what lies on the disk", "[exchange]") {
  ExchangeCase test;
  furnish(test.other);
  const ExportExtent all = extentOf(test.other, test.everything());
  CHECK(all.recipes == 7);
  CHECK(all.materials == 2);
  CHECK(all.machines == 1);
  CHECK(all.attachments == 1);
  CHECK(all.attachments_bytes == 27);
  CHECK(all.problem == "");
  CHECK(all.attachmentsProblem == "");
  ExportChoice choice;
  choice.recipes = {"recipe-1", "no such recipe"};
  choice.coatings = {"workshop-red"};
  const ExportExtent some = extentOf(test.other, choice);
  CHECK(some.recipes == 1);
  CHECK(some.materials == 1);
  CHECK(some.attachments == 0);
  CHECK(extentOf(test.other, {}).recipes == 0);
}

TEST_CASE("Attachments that one bundle cannot hold are refused before they are read", "[exchange]") {
  ExchangeCase test;
  Recipe recipe = recipeNamed("with-photos", 4);
  for (const char* name : {"1", "2", "3", "4", "5", "6", "7", "8"})
    recipe.version.proof->attachments.push_back(test.other.attach(name, name));
  test.other.saveRecipe(recipe);
  const auto enlarge = [&](std::uintmax_t size_bytes) {
    for (const Attachment& attachment : recipe.version.proof->attachments) {
      const std::filesystem::path file = test.other.attachmentPath(attachment.sha256);
      std::filesystem::permissions(file, std::filesystem::perms::owner_all);
      std::filesystem::resize_file(file, size_bytes);  // sparse: it takes no room on the disk
    }
  };
  enlarge(25u << 20);
  CHECK_THAT(extentOf(test.other, test.everything()).attachmentsProblem, Catch::Matchers::Contains("a bundle of 266 MB; up to 256 MB"));
  enlarge(20u << 20);
  CHECK(extentOf(test.other, test.everything()).attachmentsProblem == "");
  enlarge(largestBundledFile_bytes + 1);  // each of them stays behind, which the export says
  CHECK(extentOf(test.other, test.everything()).attachments == 0);
}

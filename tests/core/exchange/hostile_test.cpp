// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/base64.h"
#include "core/exchange/safe_names.h"
#include "core/library/library_check.h"
#include "core/library/recipe_json.h"
#include "core/library/sha256.h"
#include "tests/core/exchange/exchange_case.h"

using namespace bw;
using namespace bw::test;
using Catch::Matchers::Contains;

namespace {

/// A good bundle of one recipe with an attachment, as text.
const std::string& good() {
  static const std::string text = [] {
    ExchangeCase test;
    Recipe recipe = recipeNamed("victim", 4);
    recipe.version.proof->attachments = {test.other.attach("bytes of a photo", "panel.jpg")};
    test.other.saveRecipe(recipe);
    return test.textOf(test.other);
  }();
  return text;
}

/// The bundle with something changed in it.
template <class Change>
std::string spoiled(Change change) {
  Json json = Json::parse(good());
  change(json);
  return json.dump();
}

Json& version(Json& bundle) { return bundle["recipes"][0]["versions"][0]; }

std::string replaced(std::string text, const std::string& old, const std::string& replacement) {
  const std::size_t at = text.find(old);
  REQUIRE(at != std::string::npos);
  return text.replace(at, old.size(), replacement);
}

/// Refused with its place, what is wrong, and what would be right.
void checkRefused(const std::string& text, const std::string& path, const std::string& words) {
  const BundleReadResult result = readBundle(text);
  REQUIRE_FALSE(result.problems.empty());
  CAPTURE(result.problems.front().message);
  CHECK(result.problems.front().path == path);
  CHECK_THAT(result.problems.front().message, Contains(words));
  CHECK(result.problems.front().message.find('\n') == std::string::npos);
}

/// `depth` lists within each other as the value of a key nobody knows.
std::string nested(std::size_t depth) {
  return replaced(good(), "{", "{\"deep\": " + std::string(depth, '[') + std::string(depth, ']') + ",");
}

}  // namespace

TEST_CASE("The good bundle is good", "[exchange]") { CHECK(readBundle(good()).problems.empty()); }

TEST_CASE("Bundles past the limits are refused before they fill the memory", "[exchange]") {
  SECTION("size") {
    const std::string blanks(largestBundle_bytes + 1, ' ');
    checkRefused(blanks, "$", "up to 256 MB is accepted: export fewer recipes");
  }
  SECTION("depth") {
    CHECK(readBundle(nested(60)).problems.empty());
    checkRefused(nested(64), "$", "nested more than 64 deep");
    checkRefused(std::string(1000000, '['), "$", "nested more than 64 deep");
  }
  SECTION("number of values") {
    std::string zeros = "{\"x\": [0";
    for (std::size_t i = 0; i < mostBundleValues; ++i) zeros += ",0";
    checkRefused(zeros + "]}", "$", "holds more than 4000000 values; export fewer");
  }
  SECTION("number of entries") {
    std::string many = "{\"format\":\"barewright-bundle\",\"version\":1,\"recipes\":[{}";
    for (std::size_t i = 0; i < longestList; ++i) many += ",{}";
    checkRefused(many + "]}", "$.recipes", "up to 10000 elements are accepted");
  }
  SECTION("number of keys") {
    checkRefused(spoiled([](Json& json) {
                   for (int i = 0; i < 600; ++i) json["k" + std::to_string(i)] = i;
                 }),
                 "$.k495", "up to 500 in one object");
  }
  SECTION("profiles of a version") {
    checkRefused(spoiled([](Json& json) { version(json)["uses"]["coatings"] = std::vector<std::string>(101, "x"); }),
                 "$.recipes[0].versions[0].uses.coatings", "up to 100 keys are accepted");
  }
}

TEST_CASE("Texts that are no JSON, or not ours, are refused with the place", "[exchange]") {
  checkRefused("", "$", "ends too early");
  checkRefused(good().substr(0, good().size() / 2), readBundle(good().substr(0, good().size() / 2)).problems.at(0).path, "ends too early");
  checkRefused(good() + "{}", "$", "not JSON at line");
  checkRefused("[]", "$", "is not an object");
  checkRefused("null", "$", "is not an object");
  checkRefused(replaced(good(), "barewright-bundle", "barewright-project"), "$.format", "\"barewright-bundle\" is accepted");
  checkRefused(replaced(good(), "\"version\": 1,", "\"version\": 2,"), "$.version", "newer than this program reads");
  checkRefused(replaced(good(), "\"state\": \"proven\"", "\"state\": \"proven\", \"state\": \"draft\""), "$.recipes[0].state",
               "the key stands twice");
  checkRefused(replaced(good(), "victim", "vic\xC0\xAFtim"), "$.recipes[0].id", "UTF-8 JSON text is accepted");
  checkRefused(replaced(good(), "victim", "vic\xED\xA0\x80tim"), "$.recipes[0].id", "UTF-8");
  checkRefused(replaced(good(), "victim", "vic\\ud800tim"), "$.recipes[0].id", "not JSON");
  checkRefused(replaced(good(), "victim", "vic\\u0000tim"), "$.recipes[0].id", "the number zero");
}

TEST_CASE("Numbers beyond all numbers, and beyond sense, are refused with the place", "[exchange]") {
  const std::string power = "$.recipes[0].versions[0].plan.settings.power_percent";
  const auto with = [](const std::string& number) {
    const std::size_t at = good().find("\"power_percent\": ") + 17;
    return good().substr(0, at) + number + good().substr(good().find(',', at));
  };
  CHECK(readBundle(with("50")).problems.empty());
  checkRefused(with("1e999"), power, "past the range of numbers");
  checkRefused(with("-1e999"), power, "past the range of numbers");
  checkRefused(with("1e308"), power, "a number from 0 to 100");
  checkRefused(with("5e-324"), power, "a number from 0 to 100");  // its share of one would be zero
  checkRefused(with("NaN"), power, "not JSON");
  checkRefused(with("\"50\""), power, "is not a percentage");
  checkRefused(with("null"), power, "is not a percentage");
  checkRefused(spoiled([](Json& json) { version(json)["number"] = 1e300; }), "$.recipes[0].versions[0].number", "a whole number");
  checkRefused(spoiled([](Json& json) { version(json)["number"] = -1; }), "$.recipes[0].versions[0].number", "a whole number");
}

TEST_CASE("Names of attachments lead nowhere", "[exchange]") {
  const auto named = [](const std::string& name) {
    return spoiled([&](Json& json) { version(json)["proof"]["attachments"][0]["name"] = name; });
  };
  const std::string place = "$.recipes[0].versions[0].proof.attachments[0].name";
  CHECK(readBundle(named("pa\xC3\xA9nel after (3) .. done.jpg")).problems.empty());
  for (const char* bad : {"../../../etc/passwd", "..", "a/../../b", "..\\..\\boot.ini"}) checkRefused(named(bad), place, "\"..\"");
  for (const char* bad : {"/etc/passwd", "\\\\server\\share", "C:\\boot.ini", "c:boot.ini"}) checkRefused(named(bad), place, "absolute");
  for (const char* bad : {"sub/panel.jpg", "sub\\panel.jpg"}) checkRefused(named(bad), place, "is a path");
  for (const char* bad : {"a\nb", "a\x1B[2Jb", "a\x7F", "a\xC2\x9B", "gpj\xE2\x80\xAE.exe"}) checkRefused(named(bad), place, "control");
  checkRefused(spoiled([](Json& json) { json["attachments"][0]["name"] = "../x"; }), "$.attachments[0].name", "\"..\"");
  checkRefused(spoiled([](Json& json) { version(json)["part"]["photos"] = Json::array({"/home/x/panel.jpg"}); }),
               "$.recipes[0].versions[0].part.photos[0]", "absolute");
  CHECK(safeFileName("/home/x/pan\nel.jpg") == "pan_el.jpg");
  CHECK(safeFileName("C:..") == "_");
}

TEST_CASE("Attachments are what their hash says", "[exchange]") {
  checkRefused(spoiled([](Json& json) { json["attachments"][0]["base64"] = toBase64("bytes of another photo"); }),
               "$.attachments[0].sha256", "is not the hash of the file");
  checkRefused(spoiled([](Json& json) { json["attachments"][0]["base64"] = "b?=="; }), "$.attachments[0].base64", "not base64");
  checkRefused(spoiled([](Json& json) { json["attachments"][0]["sha256"] = std::string(64, 'A'); }), "$.attachments[0].sha256",
               "64 digits of 0-9 and a-f");
  checkRefused(spoiled([](Json& json) { json["attachments"][0]["sha256"] = "../" + std::string(61, 'a'); }), "$.attachments[0].sha256",
               "is no SHA-256");
  checkRefused(spoiled([](Json& json) { version(json)["proof"]["attachments"][0]["sha256"] = std::string(64, '/'); }),
               "$.recipes[0].versions[0].proof.attachments[0].sha256", "is no SHA-256");
  checkRefused(spoiled([](Json& json) { json["attachments"].push_back(json["attachments"][0]); }), "$.attachments[1].sha256",
               "stands twice");
  const std::string large(largestBundledFile_bytes + 1, 'x');
  checkRefused(spoiled([&](Json& json) {
                 json["attachments"][0] = {{"sha256", sha256(large)}, {"base64", toBase64(large)}};
               }),
               "$.attachments[0].base64", "up to 32 MB is accepted");
}

TEST_CASE("Ids, keys and versions must go together", "[exchange]") {
  checkRefused(spoiled([](Json& json) { json["recipes"].push_back(json["recipes"][0]); }), "$.recipes[1].id", "stands twice");
  checkRefused(spoiled([](Json& json) { json["recipes"][0]["versions"] = Json::array(); }), "$.recipes[0].versions",
               "at least one version");
  checkRefused(spoiled([](Json& json) { json["recipes"][0]["versions"].push_back(version(json)); }), "$.recipes[0].versions[1].number",
               "1 comes after 1");
  checkRefused(spoiled([](Json& json) { version(json)["uses"]["machines"] = Json::array({"none such"}); }),
               "$.recipes[0].versions[0].uses.machines[0]", "is no key of a profile");
  checkRefused(spoiled([](Json& json) { json["shared"]["machines"].push_back(json["shared"]["machines"][0]); }), "$.shared.machines[1].key",
               "stands twice");
  checkRefused(spoiled([](Json& json) { version(json)["saved_at"] = "2026\x1B[2J"; }), "$.recipes[0].versions[0].saved_at", "control");
  checkRefused(spoiled([](Json& json) { json["recipes"][0]["id"] = std::string(101, 'x'); }), "$.recipes[0].id", "1 to 100 letters");
}

TEST_CASE("SQL in names is a name", "[exchange]") {
  const std::string attack = "x'); DROP TABLE recipe; DELETE FROM about; --";
  ExchangeCase test;
  test.mine.saveRecipe(recipeNamed("bystander", 1));
  const Bundle bundle = test.read(spoiled([&](Json& json) {
    json["recipes"][0]["id"] = attack;
    version(json)["name"] = attack;
    version(json)["saved_at"] = "'); --";
    version(json)["saved_by"] = "\" OR 1=1 --";
    json["coatings"] = Json::array({json["shared"]["coatings"][0]["coating"]});
    json["coatings"][0]["id"] = attack;
    json["attachments"][0]["name"] = attack;
  }));
  applyImport(test.mine, planImport(test.mine, bundle));
  CHECK(test.mine.recipeCount() == 2);
  CHECK(test.mine.recipe(attack).version.name == attack);
  CHECK(checkLibrary(test.ours.path).findings == std::vector<std::string>{});
  RecipeQuery query;
  query.text = "DROP TABLE";
  CHECK(test.mine.find(query).total == 1);
}

TEST_CASE("A spoiled bundle never leaves anything behind", "[exchange]") {
  ExchangeCase test;
  test.mine.saveRecipe(recipeNamed("bystander", 1));
  const std::string before = test.textOf(test.mine);
  Bundle bundle = test.read(good());
  bundle.recipes.push_back(bundle.recipes.front());  // past the reader's checks: its version 1 comes a second time
  CHECK(troubleOf([&] { applyImport(test.mine, planImport(test.mine, bundle)); }) == LibraryTrouble::Conflict);
  CHECK(test.textOf(test.mine) == before);
  CHECK(checkLibrary(test.ours.path).findings == std::vector<std::string>{});
}

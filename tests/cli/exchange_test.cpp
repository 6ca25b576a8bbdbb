// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/run.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

#include <algorithm>

using namespace bw::test;
using Catch::Matchers::Contains;
using Json = nlohmann::json;

namespace {

std::string seed(const std::string& name) { return textOf(std::string(BAREWRIGHT_SOURCE_DIR) + "/tests/fuzz/bundle_seeds/" + name); }

/// A library in a folder of its own, made by importing two recipes under one id.
struct Shop {
  Folder folder;
  std::string library = folder.path("library.sqlite");

  Run call(std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), "library");
    arguments.insert(arguments.end(), {"--library", library});
    return run(arguments);
  }
  Run bringIn(const std::string& text, std::vector<std::string> options = {}) {
    options.insert(options.begin(), {"import", folder.write("in.json", text)});
    return call(options);
  }
  Json json(std::vector<std::string> arguments) {
    arguments.push_back("--json");
    const Run result = call(arguments);
    CAPTURE(result.errors);
    CHECK(result.status == 0);
    return Json::parse(result.output);
  }
};

void checkNotTaken(const Run& result, const std::string& words) {
  CHECK(result.status == 2);
  CHECK(std::count(result.errors.begin(), result.errors.end(), '\n') == 1);
  CHECK_THAT(result.errors, Catch::Matchers::StartsWith("barewright: ") && Contains(words));
}

}  // namespace

TEST_CASE("library import brings a bundle in and export gives it out the same", "[exchange]") {
  Shop shop, other;
  const Run in = shop.bringIn(seed("shared.json"));
  CHECK(in.status == 0);
  CHECK_THAT(in.output, Contains("new  recipe  door  r1") && Contains("Imported: 1 recipe,") && Contains("1 attachment."));
  CHECK(shop.call({"export", shop.folder.path("out.json")}).status == 0);
  const std::string text = textOf(shop.folder.path("out.json"));
  CHECK(shop.call({"export", "-"}).output == text);
  CHECK(other.bringIn(text).status == 0);
  CHECK(other.call({"export", "-"}).output == text);
  CHECK(other.json({"import", shop.folder.path("out.json"), "--dry-run"})["counts"] ==
        Json({{"new", 0}, {"identical", 1}, {"continues", 0}, {"conflict", 0}}));
}

TEST_CASE("library export takes what is chosen", "[exchange]") {
  Shop shop;
  shop.bringIn(seed("shared.json"));
  shop.bringIn(seed("withdrawn.json"));
  const Json report = shop.json({"export", shop.folder.path("one.json"), "--recipe", "r2", "--no-attachments"});
  CHECK(report["recipes"] == 1);
  CHECK(Json::parse(textOf(shop.folder.path("one.json")))["recipes"][0]["reason"] == "stalls");
  checkNotTaken(shop.call({"export", shop.folder.path("none.json"), "--recipe", "r3"}), "recipe r3: there is none");
  CHECK(textOf(shop.folder.path("none.json")).empty());
  checkNotTaken(shop.call({"export", shop.library}), "is the library itself");
}

TEST_CASE("library import --dry-run changes nothing", "[exchange]") {
  Shop shop;
  shop.bringIn(seed("shared.json"));
  const std::string before = shop.call({"export", "-"}).output;
  const Run look = shop.bringIn(seed("withdrawn.json"), {"--dry-run"});
  CHECK(look.status == 0);
  CHECK_THAT(look.output, Contains("new  recipe  door  r2") && Contains("Nothing was changed."));
  CHECK(shop.call({"export", "-"}).output == before);
}

TEST_CASE("library import refuses conflicts until told what to keep", "[exchange]") {
  Shop shop;
  shop.bringIn(seed("recipe.json"));
  const std::string contrary = replaced(seed("recipe.json"), "clears\\nevenly", "stripes at the seams");
  const Run refused = shop.bringIn(contrary);
  checkNotTaken(refused, "--keep mine, --keep theirs or --keep both");
  CHECK_THAT(refused.output, Contains("conflict  recipe  door  r1") && Contains("yours") && Contains("stripes at the seams"));
  const Json line = shop.json({"import", shop.folder.path("in.json"), "--dry-run"})["entries"][0];
  CHECK(line["status"] == "conflict");
  CHECK(line["differences"] ==
        Json::array({{{"key", "note"}, {"place", "note"}, {"mine", "clears\nevenly"}, {"theirs", "stripes at the seams"}}}));

  const auto counts = [&](const char* keep) {
    const Run result = shop.bringIn(contrary, {"--keep", keep});
    CHECK(result.status == 0);
    const Json recipes = Json::parse(shop.call({"export", "-"}).output)["recipes"];
    return std::pair(recipes.size(), recipes[0]["versions"].size());
  };
  CHECK(counts("mine") == std::pair<std::size_t, std::size_t>(1, 1));
  CHECK(counts("both") == std::pair<std::size_t, std::size_t>(2, 1));
  CHECK(shop.bringIn(contrary).status == 0);  // it stands beside mine now
  checkNotTaken(shop.bringIn(contrary, {"--keep", "all"}), "--keep");
}

TEST_CASE("library import names what is wrong in a bundle, on one line", "[exchange]") {
  Shop shop;
  checkNotTaken(shop.bringIn(replaced(seed("shared.json"), "\"panel.jpg\"", "\"../../panel.jpg\"")),
                "$.recipes[0].versions[1].proof.attachments[0].name: \"../../panel.jpg\" leads out of its folder");
  checkNotTaken(shop.bringIn(replaced(seed("recipe.json"), "\"number\":1", "\"number\":1e999")),
                "$.recipes[0].versions[0].number: a number past");
  checkNotTaken(shop.bringIn(goodProject()), "\"barewright-bundle\" is accepted");
  checkNotTaken(shop.call({"import", shop.folder.path("nothing.json")}), "there is no such file; the path of a bundle is accepted");
}

TEST_CASE("Export, import and schema stand in the help", "[exchange]") {
  CHECK_THAT(run({"library", "--help"}).output, Contains("export") && Contains("import"));
  CHECK_THAT(run({"library", "import", "--help"}).output, Contains("--dry-run") && Contains("--keep"));
  CHECK_THAT(run({"library", "export", "--help"}).output, Contains("--no-attachments") && Contains("--recipe"));
  const Run schema = run({"schema", "bundle"});
  CHECK(schema.status == 0);
  CHECK(schema.output == textOf(std::string(BAREWRIGHT_SOURCE_DIR) + "/resources/schema/bundle.schema.json"));
}

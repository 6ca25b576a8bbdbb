// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/schema.h"
#include "core/library/recipe_json.h"
#include "tests/core/exchange/exchange_case.h"

#include "core/files/file_io.h"

#include <cstdlib>
#include <fstream>

using namespace bw;
using namespace bw::test;

namespace {

const std::string root = BAREWRIGHT_SOURCE_DIR;

std::string quoted(const std::string& path) { return " '" + path + "'"; }

/// Files that are held to a schema by python3-jsonschema.
class Validation {
 public:
  void good(const std::string& text) { m_good += quoted(write(text)); }
  void goodFile(const std::filesystem::path& path) { m_good += quoted(path.string()); }
  void bad(const std::string& text) { m_bad += quoted(write(text)); }

  /// What the validator has against it; empty: nothing.
  std::string run(const std::string& schema) const {
    const std::string report = (m_folder / "report").string();
    const std::string command = "/usr/bin/python3" + quoted(root + "/tests/core/exchange/validate.py") +
                                quoted(root + "/resources/schema/" + schema) + m_good + " --" + m_bad + " >" + quoted(report) + " 2>&1";
    const int status = std::system(command.c_str());
    const std::string words = readWholeFile(report);
    return status == 0 ? "" : words;
  }

 private:
  std::string write(const std::string& text) {
    const std::filesystem::path path = m_folder / (std::to_string(m_count++) + ".json");
    std::ofstream(path, std::ios::binary) << text;
    return path.string();
  }
  ScratchFolder m_folder;
  std::string m_good;
  std::string m_bad;
  int m_count = 0;
};

std::string furnished() {
  ExchangeCase test;
  for (unsigned n = 0; n < 40; ++n) test.other.saveRecipe(recipeNamed("recipe-" + std::to_string(n), n));
  Recipe recipe = recipeNamed("with-photo", 4);
  recipe.version.proof->attachments = {test.other.attach("bytes of a photo", "panel.jpg")};
  test.other.saveRecipe(recipe);
  for (Coating coating : shippedLibrary().coatings) {
    coating.note += " (own)";
    test.other.saveCoating(coating, 0);
  }
  for (Substrate metal : shippedLibrary().substrates) {
    metal.note += " (own)";
    test.other.saveSubstrate(metal, 0);
  }
  MachineCard card;
  card.machine = typicalMachines().front();
  card.machine.id = "bench-one";
  card.checks = {{"2026-02-01", "hs", 280.0, 1.2e-4, "", {}}};
  card.coverGlass_s = 7200;
  test.other.saveMachine(card, 0);
  return test.textOf(test.other);
}

}  // namespace

TEST_CASE("The schemas in the resources are those of the files", "[exchange]") {
  // After a change of the format: barewright schema bundle >resources/schema/bundle.schema.json, and the same for project.
  CHECK(readWholeFile(root + "/resources/schema/bundle.schema.json") == bundleSchema());
  CHECK(readWholeFile(root + "/resources/schema/project.schema.json") == projectSchema());
}

TEST_CASE("What an export writes holds to the schema, by an outside validator; what the reader refuses does not", "[exchange]") {
  Validation validation;
  const std::string text = furnished();
  validation.good(text);
  const auto spoil = [&](auto change) {
    Json json = Json::parse(text);
    change(json);
    CHECK_FALSE(readBundle(json.dump()).problems.empty());
    validation.bad(json.dump());
  };
  const auto version = [](Json& json) -> Json& { return json["recipes"][0]["versions"][0]; };
  spoil([](Json& json) { json.erase("format"); });
  spoil([](Json& json) { json["version"] = 2; });
  spoil([](Json& json) { json["recipes"] = Json::object(); });
  spoil([](Json& json) { json["recipes"][0]["state"] = "tried"; });
  spoil([](Json& json) { json["recipes"][0].erase("id"); });
  spoil([](Json& json) { json["recipes"][0].erase("versions"); });
  spoil([](Json& json) { json["attachments"][0]["sha256"] = std::string(64, 'g'); });
  spoil([&](Json& json) { version(json)["part"]["thickness_mm"] = 0; });
  spoil([&](Json& json) { version(json)["part"].erase("substrate"); });
  spoil([&](Json& json) { version(json)["coat"][0]["thickness_um"] = Json::array({1, 2}); });
  spoil([&](Json& json) { version(json)["coat"][0]["thickness_um"] = "45"; });
  spoil([&](Json& json) { version(json)["plan"].erase("settings"); });
  spoil([&](Json& json) { version(json)["plan"]["settings"]["passes"] = 1.5; });
  spoil([&](Json& json) { version(json)["predicted"]["numbers"]["thermal.back_C"]["low"] = "cold"; });
  spoil([](Json& json) { json["coatings"][0]["absorptance"]["value"] = 1.01; });
  spoil([](Json& json) { json["coatings"][0]["absorptance"].erase("source"); });
  spoil([](Json& json) { json["machines"][0]["machine"]["kind"] = "steam"; });
  spoil([](Json& json) { json["shared"]["machines"][0]["machine"]["spot_diameter_um"] = -1; });
  CHECK(validation.run("bundle.schema.json") == "");
}

TEST_CASE("Projects of every released version hold to the schema", "[exchange]") {
  Validation validation;
  std::size_t count = 0;
  for (const char* folder : {"/sample-projects", "/tests/data"}) {
    for (const auto& file : std::filesystem::directory_iterator(root + folder)) {
      if (file.path().extension() != ".bwright") continue;
      validation.goodFile(file.path());
      ++count;
    }
  }
  REQUIRE(count > 5);
  validation.bad(R"({"format": "barewright-project", "version": 1})");
  CHECK(validation.run("project.schema.json") == "");
}

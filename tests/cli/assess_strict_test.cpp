// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/run.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

#include <algorithm>

using namespace bw::test;

TEST_CASE("With --strict a plan that fails a check ends with status 1", "[cli]") {
  const Folder folder;
  const std::string cold =
      replaced(goodProject(), "\"ambient_temperature_C\": 20", "\"ambient_temperature_C\": -20");  // the machine needs 5 °C
  const std::string file = folder.write("cold.bwright", cold);
  const auto json = nlohmann::json::parse(run({"assess", file, "--json", "-"}).output);
  REQUIRE(std::ranges::any_of(json["verdict"], [](const auto& row) { return row["status"] == "fails"; }));
  CHECK(run({"assess", file, "--strict"}).status == 1);
  CHECK(run({"assess", file}).status == 0);
}

TEST_CASE("Fuel behind the metal stops the answer until somebody has settled it by name", "[cli]") {
  const Folder folder;
  auto project = nlohmann::json::parse(goodProject());
  project["part"]["behind"] = {"fuel"};
  const auto assess = [&](const std::vector<std::string>& more) {
    std::vector<std::string> arguments{"assess", folder.write("tank.bwright", project.dump())};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return run(arguments);
  };
  const std::string table = assess({}).output;
  CHECK_THAT(table, Catch::Matchers::Contains("\nDo not start: fuel behind the metal\n") && Catch::Matchers::Contains("[ ] STOP: fuel"));
  CHECK(table.find("Fuel behind the face: no work", table.find("Cautions")) < table.find("Eyes: hazard distance"));
  CHECK(assess({"--strict"}).status == 1);
  const auto stopped = nlohmann::json::parse(assess({"--json", "-"}).output);
  CHECK(stopped["before_beam"]["open_stops"] == 1);
  CHECK(stopped["before_beam"]["items"][0]["id"] == "fuel-behind");

  project["before_beam"] = {{{"item", "fuel-behind"}, {"by", "mk"}, {"date", "2026-03-13"}, {"note", "tank taken out"}}};
  const std::string settled = assess({}).output;
  CHECK(settled.find("Do not start") == std::string::npos);
  CHECK_THAT(settled, Catch::Matchers::Contains("[x] fuel behind the metal (mk, 2026-03-13): tank taken out"));
  const auto going = nlohmann::json::parse(assess({"--json", "-"}).output);
  CHECK(going["before_beam"]["open_stops"] == 0);
  CHECK(going["before_beam"]["items"][0]["settled_by"] == "mk");
  project["before_beam"][0]["by"] = "";
  const Run nobody = assess({});
  CHECK(nobody.status == 2);
  CHECK_THAT(nobody.errors, Catch::Matchers::Contains("$.before_beam[0].by"));
}

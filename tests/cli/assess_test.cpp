// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/run.h"
#include "tests/cli/table_rows.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <sstream>

using namespace bw::test;

TEST_CASE("assess prints a table, and JSON alone where it is asked for on standard output", "[cli]") {
  const Folder folder;
  const std::string file = folder.write("panel.bwright", goodProject());
  const Run table = run({"assess", file});
  CHECK(table.status == 0);
  CHECK(table.errors.empty());
  CHECK_THAT(table.output, Catch::Matchers::StartsWith("Plan \"first guess\" on ") && Catch::Matchers::Contains("Cautions"));

  const Run result = run({"assess", file, "--plan", "first guess", "--json", "-"});
  CHECK(result.status == 0);
  const auto json = nlohmann::json::parse(result.output);
  CHECK(json["plan"] == "first guess");
  // By hand from the file's numbers: 85 % of 300 W; 9 m/s over 240 kHz; 255 W over 240 kHz.
  CHECK(json["beam"]["mean_power_W"] == Catch::Approx(255));
  CHECK(json["overlap"]["pulse_step_um"] == Catch::Approx(37.5));
  CHECK(json["beam"]["pulse_energy_mJ"] == Catch::Approx(1.0625));
  CHECK(json["dose"]["mean_J_cm2"].is_number());
  CHECK(json["verdict"].size() > 3);
}

TEST_CASE("Headless results have ranges, what to find out next, and what the passes leave", "[cli]") {
  const Folder folder;
  const std::string file = folder.write("panel.bwright", goodProject());
  const auto json = nlohmann::json::parse(run({"assess", file, "--json", "-"}).output);
  for (const char* key : {"removal.passes_needed", "removal.heat_into_part_fraction", "thermal.back_C", "job.total_time_s", "job.cost"}) {
    CAPTURE(key);
    const auto& range = json["ranges"][key];
    REQUIRE(range.size() == 3);
    REQUIRE(range[0].is_number());
    if (range[1].is_number()) CHECK(range[0] <= range[1]);
    if (range[2].is_number()) CHECK(range[1] <= range[2]);
  }
  CHECK(json["sampling"]["samples"] == 500);
  CHECK(json["sampling"]["influences"].size() > 0);
  CHECK_FALSE(json["find_out_next"].empty());
  CHECK(json["removal"]["cleared_after_pass"][0] == 0);
  CHECK(json["removal"]["still_hand"].contains("clear_s"));
  for (const auto& layer : json["removal"]["layers"]) CHECK(layer.contains("clears_up_to_deg"));
}

TEST_CASE("The same project gives the same text, to a file as to standard output", "[cli]") {
  const Folder folder;
  const std::string file = folder.write("panel.bwright", goodProject());
  const Run first = run({"assess", file, "--json", "-"});
  const Run second = run({"assess", file, "--json", folder.path("out.json")});
  CHECK(first.output == textOf(folder.path("out.json")));
  CHECK_THAT(second.output, Catch::Matchers::StartsWith("Plan "));  // the table stays on standard output
}

TEST_CASE("Map, profile and trace are CSV with their units in the header", "[cli]") {
  const Folder folder;
  const std::string file = folder.write("panel.bwright", goodProject());
  const Run result = run({"assess", file, "--map", folder.path("map.csv"), "--profile", folder.path("profile.csv"), "--trace", folder.path("trace.csv"),
                          "--json", folder.path("out.json")});
  REQUIRE(result.status == 0);
  const auto json = nlohmann::json::parse(textOf(folder.path("out.json")));
  const auto map = rowsOf(folder.path("map.csv"), "x_mm,y_mm,dose_J_cm2");
  double sum = 0;
  for (const auto& row : map) sum += row.at(2);
  CHECK(sum / static_cast<double>(map.size()) == Catch::Approx(json["dose"]["mean_J_cm2"].get<double>()).epsilon(0.01));  // equal areas
  CHECK(rowsOf(folder.path("profile.csv"), "x_mm,one_swath_J_cm2,summed_J_cm2").size() > 10);
  const auto trace = rowsOf(folder.path("trace.csv"), "time_s,front_C,back_C");
  REQUIRE(trace.size() > 10);
  CHECK(std::ranges::is_sorted(trace, {}, [](const auto& row) { return row.at(0); }));
}

TEST_CASE("A plan that does not exist is refused with the names there are", "[cli]") {
  const Folder folder;
  const std::string file = folder.write("panel.bwright", goodProject());
  const Run result = run({"assess", file, "--plan", "frist guess", "--json", folder.path("out.json")});
  CHECK(result.status == 2);
  CHECK(std::count(result.errors.begin(), result.errors.end(), '\n') == 1);
  CHECK_THAT(result.errors, Catch::Matchers::Contains("first guess"));
  CHECK(folder.entries() == 1);
}

TEST_CASE("Results that cannot be written leave nothing behind", "[cli]") {
  const Folder folder;
  const std::string file = folder.write("panel.bwright", goodProject());
  const std::string before = textOf(file);
  const std::vector<std::vector<std::string>> wrong{{"--json", folder.path("no/such/folder.json")},
                                                    {"--json", folder.path("")},
                                                    {"--json", file},
                                                    {"--json", folder.path("same"), "--map", folder.path("same")}};
  for (const auto& options : wrong) {
    INFO(options[1]);
    std::vector<std::string> arguments{"assess", file};
    arguments.insert(arguments.end(), options.begin(), options.end());
    const Run result = run(arguments);
    CHECK(result.status == 2);
    CHECK(std::count(result.errors.begin(), result.errors.end(), '\n') == 1);
  }
  CHECK(textOf(file) == before);
  CHECK(folder.entries() == 1);
}

TEST_CASE("A full standard output is said, not ignored", "[cli]") {
  const Folder folder;
  const Run result = run({"assess", folder.write("panel.bwright", goodProject())}, ">/dev/full");
  CHECK(result.status == 2);
  CHECK_THAT(result.errors, Catch::Matchers::Contains("standard output: cannot be written"));
}

TEST_CASE("A project without plans is good but cannot be assessed", "[cli]") {
  const Folder folder;
  auto json = nlohmann::ordered_json::parse(goodProject());
  json["plans"] = nlohmann::ordered_json::array();
  const std::string file = folder.write("empty.bwright", json.dump());
  CHECK(run({"check", file}).status == 0);
  const Run result = run({"assess", file});
  CHECK(result.status == 2);
  CHECK(std::count(result.errors.begin(), result.errors.end(), '\n') == 1);
  CHECK_THAT(result.errors, Catch::Matchers::Contains("plan"));
}
